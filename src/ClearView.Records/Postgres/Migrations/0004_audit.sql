-- What a reading says of its making, and what it says of the reading that it corrects; its picture is described here and kept apart.
ALTER TABLE reading ADD COLUMN origin bytea, ADD COLUMN correction_note bytea, ADD COLUMN picture_info bytea;

-- Readings that another one took the place of; each once, whichever server writes first.
CREATE TABLE correction (
    superseded          uuid   PRIMARY KEY,
    superseded_sequence bigint NOT NULL UNIQUE,
    by_sequence         bigint NOT NULL UNIQUE
);

-- Pictures of specimens, by the sequence of their reading.
CREATE TABLE picture (
    sequence bigint PRIMARY KEY,
    body     bytea  NOT NULL
);

-- PNG and JPEG are compressed already.
ALTER TABLE picture ALTER COLUMN body SET STORAGE EXTERNAL;

-- Identifiers by sequence, through a key of either engine.
CREATE VIEW reading_number AS SELECT sequence, id FROM reading_id;

-- Chains: each record has a link that holds its hash and, through the hash before it, every earlier link.

-- A record is a reading by its sequence, a document by kind, name and version, or the heads of other chains. Each server writes
-- a chain of its own, so that none waits for another; the key refuses a second link in the same place.
CREATE TABLE link (
    chain       bigint NOT NULL,
    position    bigint NOT NULL,
    number      bigint NOT NULL,
    kind        text   COLLATE "C" NOT NULL,
    name        text   COLLATE "C" NOT NULL,
    record_hash bytea  NOT NULL CHECK (length(record_hash) = 32),
    hash        bytea  NOT NULL CHECK (length(hash) = 32),
    covers      bytea,
    CONSTRAINT link_place PRIMARY KEY (chain, position)
);

-- One link per record.
CREATE UNIQUE INDEX link_of_record ON link (kind, name, number);

-- Holds a row while records from before the chains wait for their links.
CREATE TABLE adoption (
    pending integer PRIMARY KEY CHECK (pending = 1)
);

INSERT INTO adoption (pending) SELECT 1 WHERE EXISTS (SELECT 1 FROM reading) OR EXISTS (SELECT 1 FROM versioned);

CREATE TRIGGER never_changed BEFORE UPDATE OR DELETE ON correction FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON correction FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_changed BEFORE UPDATE OR DELETE ON picture FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON picture FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_changed BEFORE UPDATE OR DELETE ON link FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON link FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
