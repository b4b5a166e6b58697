-- The records of classes at work. One text for SQLite and PostgreSQL: keys are
-- text made by the program, moments are milliseconds since 1970 in UTC with 0
-- for "not yet", lists and choices are text holding JSON.

-- +goose Up
CREATE TABLE class (
	id          text PRIMARY KEY,
	name        text NOT NULL,
	language    text NOT NULL,
	definitions text NOT NULL,
	created     bigint NOT NULL
);

CREATE TABLE pupil (
	id           text PRIMARY KEY,
	class_id     text NOT NULL REFERENCES class (id) ON DELETE CASCADE,
	number       bigint NOT NULL,
	nickname     text NOT NULL,
	nickname_key text NOT NULL,
	table_group  text NOT NULL
);
CREATE UNIQUE INDEX pupil_nickname ON pupil (class_id, nickname_key);

CREATE TABLE run (
	id        text PRIMARY KEY,
	class_id  text NOT NULL REFERENCES class (id) ON DELETE CASCADE,
	room_word text NOT NULL,
	started   bigint NOT NULL,
	ended     bigint NOT NULL DEFAULT 0,
	received  bigint NOT NULL DEFAULT 0 -- how many showings have come in
);
CREATE INDEX run_class ON run (class_id, started);
CREATE UNIQUE INDEX run_room_word ON run (room_word) WHERE ended = 0;

CREATE TABLE task (
	id          text PRIMARY KEY,
	run_id      text NOT NULL REFERENCES run (id) ON DELETE CASCADE,
	ordinal     bigint NOT NULL,
	words       text NOT NULL,
	board       text NOT NULL,
	conditions  text NOT NULL,
	definitions text NOT NULL,
	max_bands   bigint NOT NULL,
	minutes     bigint NOT NULL,
	feedback    text NOT NULL,
	model       text NOT NULL,
	started     bigint NOT NULL,
	ended       bigint NOT NULL DEFAULT 0,
	UNIQUE (run_id, ordinal),
	UNIQUE (id, run_id)
);
CREATE UNIQUE INDEX task_current ON task (run_id) WHERE ended = 0;

CREATE TABLE showing (
	id       text PRIMARY KEY,
	run_id   text NOT NULL REFERENCES run (id) ON DELETE CASCADE,
	ordinal  bigint NOT NULL, -- in the order received, from 1 in its run
	task_id  text NOT NULL,
	pupil_id text NOT NULL REFERENCES pupil (id) ON DELETE CASCADE,
	figure   text NOT NULL,
	source   text NOT NULL,
	standing text NOT NULL,
	rules    bigint NOT NULL,
	made     bigint NOT NULL,
	received bigint NOT NULL,
	looked   bigint NOT NULL DEFAULT 0,
	UNIQUE (run_id, ordinal),
	FOREIGN KEY (task_id, run_id) REFERENCES task (id, run_id) ON DELETE CASCADE
);
CREATE INDEX showing_task ON showing (task_id, ordinal);
CREATE INDEX showing_pupil ON showing (pupil_id);

CREATE TABLE seat (
	id         text PRIMARY KEY,
	run_id     text NOT NULL REFERENCES run (id) ON DELETE CASCADE,
	pupil_id   text NOT NULL REFERENCES pupil (id) ON DELETE CASCADE,
	token_hash text NOT NULL UNIQUE,
	joined     bigint NOT NULL,
	left_at    bigint NOT NULL DEFAULT 0
);
CREATE UNIQUE INDEX seat_in ON seat (run_id, pupil_id) WHERE left_at = 0;
CREATE INDEX seat_pupil ON seat (pupil_id);

CREATE TABLE front (
	run_id   text PRIMARY KEY REFERENCES run (id) ON DELETE CASCADE,
	kind     text NOT NULL,
	showings text NOT NULL,
	standing boolean NOT NULL
);
