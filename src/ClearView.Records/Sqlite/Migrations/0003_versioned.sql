-- Methods, specifications, references and control charts under names: one table for every kind of document.
-- Rows are only ever added, each as the next version of its name.

-- Times are UTC in units of 100 ns since 0001-01-01. The key yields the order of a list and the newest version of a name.
CREATE TABLE versioned (
    kind        TEXT    NOT NULL CHECK (kind IN ('method', 'specification', 'reference', 'control chart')),
    name        TEXT    NOT NULL CHECK (name <> ''),
    version     INTEGER NOT NULL,
    stored_at   INTEGER NOT NULL,
    stored_by   TEXT    NOT NULL,
    description TEXT    NOT NULL,
    body        BLOB    NOT NULL,
    PRIMARY KEY (kind, name, version)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER versioned_is_never_changed BEFORE UPDATE ON versioned
BEGIN
    SELECT RAISE(ABORT, 'versions are append-only: UPDATE refused');
END;

CREATE TRIGGER versioned_is_never_removed BEFORE DELETE ON versioned
BEGIN
    SELECT RAISE(ABORT, 'versions are append-only: DELETE refused');
END;

-- INSERT OR REPLACE removes rows without asking the trigger for DELETE.
CREATE TRIGGER versioned_is_never_replaced BEFORE INSERT ON versioned
WHEN EXISTS (SELECT 1 FROM versioned WHERE kind = NEW.kind AND name = NEW.name AND version = NEW.version)
BEGIN
    SELECT RAISE(ABORT, 'versions are append-only: REPLACE refused');
END;

CREATE TRIGGER versioned_has_no_gaps BEFORE INSERT ON versioned
WHEN NEW.version <> 1 + (SELECT coalesce(max(version), 0) FROM versioned WHERE kind = NEW.kind AND name = NEW.name)
BEGIN
    SELECT RAISE(ABORT, 'versions are append-only: version out of turn refused');
END;

-- Methods move over as they are; the table goes with its triggers.
INSERT INTO versioned (kind, name, version, stored_at, stored_by, description, body)
SELECT 'method', name, version, stored_at, stored_by, description, method FROM method ORDER BY name, version;

DROP TABLE method;
