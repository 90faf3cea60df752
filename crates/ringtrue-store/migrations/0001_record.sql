-- The record: jobs, their events in the order in which they were written, the texts and files
-- that they name, and the people.

CREATE TABLE job (
    number    INTEGER PRIMARY KEY,
    id        TEXT NOT NULL UNIQUE,
    -- What follows is worked out from the events; it is kept so that a list is quick, and
    -- so that a log that lost its end is found.
    title     TEXT NOT NULL,
    state     TEXT NOT NULL,
    opened_at TEXT NOT NULL,
    last_at   TEXT NOT NULL,
    events    INTEGER NOT NULL,
    last_hash BLOB NOT NULL
) STRICT;

CREATE TABLE event (
    -- The order over all jobs: the leaves of a checkpoint's tree.
    position INTEGER PRIMARY KEY,
    job      INTEGER NOT NULL REFERENCES job (number),
    sequence INTEGER NOT NULL,
    hash     BLOB NOT NULL,
    bytes    BLOB NOT NULL,
    UNIQUE (job, sequence)
) STRICT;

CREATE TABLE document (
    hash BLOB PRIMARY KEY,
    text TEXT NOT NULL
) STRICT;

CREATE TABLE attachment (
    hash    BLOB PRIMARY KEY,
    content BLOB NOT NULL
) STRICT;

CREATE TABLE person (
    name       TEXT PRIMARY KEY,
    role       TEXT NOT NULL,
    key        BLOB NOT NULL UNIQUE,
    added_at   TEXT NOT NULL,
    retired_at TEXT,
    salt       BLOB NOT NULL,
    nonce      BLOB NOT NULL,
    locked     BLOB NOT NULL,
    memory_kib INTEGER NOT NULL,
    passes     INTEGER NOT NULL,
    lanes      INTEGER NOT NULL
) STRICT;

-- What was written stays. This stops a slip, not somebody who holds the file.
CREATE TRIGGER event_is_not_changed BEFORE UPDATE ON event
BEGIN SELECT RAISE(ABORT, 'an event is not changed'); END;
CREATE TRIGGER event_is_not_deleted BEFORE DELETE ON event
BEGIN SELECT RAISE(ABORT, 'an event is not deleted'); END;
CREATE TRIGGER document_is_not_changed BEFORE UPDATE ON document
BEGIN SELECT RAISE(ABORT, 'a text is not changed'); END;
CREATE TRIGGER attachment_is_not_changed BEFORE UPDATE ON attachment
BEGIN SELECT RAISE(ABORT, 'a file is not changed'); END;
