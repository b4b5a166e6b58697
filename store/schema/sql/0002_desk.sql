-- Who may sit at the desk. There is one desk, so there is one row of keys.

-- +goose Up
CREATE TABLE desk_keys (
	id         bigint PRIMARY KEY CHECK (id = 1),
	passphrase text NOT NULL,
	recovery   text NOT NULL
);

CREATE TABLE desk_session (
	token_hash text PRIMARY KEY,
	locked     boolean NOT NULL DEFAULT false,
	created    bigint NOT NULL
);
