-- Plans, the plan that a run teaches and how far it has got, the marks of words
-- that were called, and answers. The count run.received numbers answers as well
-- as showings.

-- +goose Up
CREATE TABLE plan (
	id      text PRIMARY KEY,
	title   text NOT NULL,
	body    text NOT NULL,
	version bigint NOT NULL,
	updated bigint NOT NULL
);

CREATE TABLE taught (
	run_id  text PRIMARY KEY REFERENCES run (id) ON DELETE CASCADE,
	plan_id text NOT NULL, -- refers to nothing: plans come and go, and some are built in
	plan    text NOT NULL,
	state   text NOT NULL,
	version bigint NOT NULL,
	updated bigint NOT NULL
);

CREATE TABLE word_mark (
	run_id  text NOT NULL REFERENCES run (id) ON DELETE CASCADE,
	step    bigint NOT NULL,
	call    bigint NOT NULL,
	word    text NOT NULL,
	mark    text NOT NULL,
	made    bigint NOT NULL,
	PRIMARY KEY (run_id, step, call)
);

CREATE TABLE answer (
	id       text PRIMARY KEY,
	run_id   text NOT NULL REFERENCES run (id) ON DELETE CASCADE,
	ordinal  bigint NOT NULL, -- in the order received, in its run
	step     bigint NOT NULL,
	item     text NOT NULL,
	pupil_id text NOT NULL REFERENCES pupil (id) ON DELETE CASCADE,
	about_id text REFERENCES pupil (id) ON DELETE CASCADE,
	body     text NOT NULL,
	source   text NOT NULL,
	correct  boolean NOT NULL,
	idea     text NOT NULL,
	rules    bigint NOT NULL,
	made     bigint NOT NULL,
	received bigint NOT NULL,
	UNIQUE (run_id, ordinal)
);
CREATE INDEX answer_step ON answer (run_id, step, ordinal);
CREATE INDEX answer_pupil ON answer (pupil_id);
CREATE INDEX answer_about ON answer (about_id);
