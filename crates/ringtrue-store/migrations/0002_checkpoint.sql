-- Signed tree heads over all events, as they were handed out.

CREATE TABLE checkpoint (
    number    INTEGER PRIMARY KEY,
    tree_size INTEGER NOT NULL,
    text      TEXT NOT NULL
) STRICT;
