-- Chains: each record has a link that holds its hash and, through the hash before it, every earlier link.

-- A record is a reading by its sequence, a document by kind, name and version, or the heads of other chains.
CREATE TABLE link (
    chain       INTEGER NOT NULL,
    position    INTEGER NOT NULL,
    kind        TEXT    NOT NULL,
    name        TEXT    NOT NULL,
    number      INTEGER NOT NULL,
    record_hash BLOB    NOT NULL CHECK (length(record_hash) = 32),
    hash        BLOB    NOT NULL CHECK (length(hash) = 32),
    covers      BLOB,
    PRIMARY KEY (chain, position)
) STRICT, WITHOUT ROWID;

-- One link per record.
CREATE UNIQUE INDEX link_of_record ON link (kind, name, number);

-- Holds a row while records from before the chains wait for their links.
CREATE TABLE adoption (
    pending INTEGER PRIMARY KEY CHECK (pending = 1)
) STRICT;

INSERT INTO adoption (pending) SELECT 1 WHERE EXISTS (SELECT 1 FROM reading) OR EXISTS (SELECT 1 FROM versioned);

CREATE TRIGGER link_is_never_changed BEFORE UPDATE ON link
BEGIN
    SELECT RAISE(ABORT, 'links are append-only: UPDATE refused');
END;

CREATE TRIGGER link_is_never_removed BEFORE DELETE ON link
BEGIN
    SELECT RAISE(ABORT, 'links are append-only: DELETE refused');
END;

-- INSERT OR REPLACE removes rows without asking the trigger for DELETE.
CREATE TRIGGER link_is_never_replaced BEFORE INSERT ON link
WHEN EXISTS (SELECT 1 FROM link WHERE chain = NEW.chain AND position = NEW.position)
  OR EXISTS (SELECT 1 FROM link WHERE kind = NEW.kind AND name = NEW.name AND number = NEW.number)
BEGIN
    SELECT RAISE(ABORT, 'links are append-only: REPLACE refused');
END;
