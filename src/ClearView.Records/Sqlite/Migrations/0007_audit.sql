-- What a reading says of its making, and what it says of the reading that it corrects; its picture is described here and kept apart.
ALTER TABLE reading ADD COLUMN origin BLOB;
ALTER TABLE reading ADD COLUMN correction_note BLOB;
ALTER TABLE reading ADD COLUMN picture_info BLOB;

-- Readings that another one took the place of; each once.
CREATE TABLE correction (
    superseded          BLOB    PRIMARY KEY CHECK (length(superseded) = 16),
    superseded_sequence INTEGER NOT NULL UNIQUE,
    by_sequence         INTEGER NOT NULL UNIQUE
) STRICT, WITHOUT ROWID;

-- Pictures of specimens, by the sequence of their reading.
CREATE TABLE picture (
    sequence INTEGER PRIMARY KEY,
    body     BLOB    NOT NULL
) STRICT;

-- Identifiers by sequence, through a key of either engine.
CREATE VIEW reading_number AS SELECT sequence, id FROM reading;

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

CREATE TRIGGER correction_is_never_changed BEFORE UPDATE ON correction
BEGIN
    SELECT RAISE(ABORT, 'corrections are append-only: UPDATE refused');
END;

CREATE TRIGGER correction_is_never_removed BEFORE DELETE ON correction
BEGIN
    SELECT RAISE(ABORT, 'corrections are append-only: DELETE refused');
END;

CREATE TRIGGER correction_is_never_replaced BEFORE INSERT ON correction
WHEN EXISTS (
    SELECT 1 FROM correction
    WHERE superseded = NEW.superseded OR superseded_sequence = NEW.superseded_sequence OR by_sequence = NEW.by_sequence)
BEGIN
    SELECT RAISE(ABORT, 'corrections are append-only: REPLACE refused');
END;

CREATE TRIGGER picture_is_never_changed BEFORE UPDATE ON picture
BEGIN
    SELECT RAISE(ABORT, 'pictures are append-only: UPDATE refused');
END;

CREATE TRIGGER picture_is_never_removed BEFORE DELETE ON picture
BEGIN
    SELECT RAISE(ABORT, 'pictures are append-only: DELETE refused');
END;

CREATE TRIGGER picture_is_never_replaced BEFORE INSERT ON picture
WHEN EXISTS (SELECT 1 FROM picture WHERE sequence = NEW.sequence)
BEGIN
    SELECT RAISE(ABORT, 'pictures are append-only: REPLACE refused');
END;

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
