-- Looking for jobs: a list and its counts are found in an index alone, without a look at the jobs,
-- which lie scattered among their events.

-- Id and title without case. The program writes it, since SQLite knows the case of a to z only;
-- empty where an older program wrote last.
ALTER TABLE job ADD COLUMN folded TEXT NOT NULL DEFAULT '';

DROP INDEX job_by_last;
CREATE INDEX job_to_search ON job (last_at DESC, number DESC, state, folded);
CREATE INDEX job_by_state ON job (state);
