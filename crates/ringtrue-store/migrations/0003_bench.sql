-- What the pages of the bench need besides the record: answers that were given, so that a request
-- that comes twice is done once; and the shop's library of definitions.

CREATE TABLE answered (
    person  TEXT NOT NULL,
    key     TEXT NOT NULL,
    -- Hash of what was asked: a key stands for one request.
    request BLOB NOT NULL,
    answer  TEXT NOT NULL,
    at      TEXT NOT NULL,
    PRIMARY KEY (person, key)
) STRICT;

CREATE TABLE library (
    -- Later editions of one kind and name stand behind earlier ones; nothing is overwritten.
    number     INTEGER PRIMARY KEY,
    kind       TEXT NOT NULL,
    name       TEXT NOT NULL,
    document   BLOB NOT NULL REFERENCES document (hash),
    brought_by TEXT NOT NULL,
    brought_at TEXT NOT NULL
) STRICT;

CREATE INDEX library_by_name ON library (kind, name, number);
CREATE INDEX job_by_last ON job (last_at DESC, number DESC);

CREATE TRIGGER library_is_not_changed BEFORE UPDATE ON library
BEGIN SELECT RAISE(ABORT, 'an edition is not changed'); END;
