-- Keys of callers join the documents. SQLite cannot widen a check in place: the table is made anew, with its triggers.
CREATE TABLE versioned_with_keys (
    kind        TEXT    NOT NULL CHECK (kind IN ('method', 'specification', 'reference', 'control chart', 'key')),
    name        TEXT    NOT NULL CHECK (name <> ''),
    version     INTEGER NOT NULL,
    stored_at   INTEGER NOT NULL,
    stored_by   TEXT    NOT NULL,
    description TEXT    NOT NULL,
    body        BLOB    NOT NULL,
    PRIMARY KEY (kind, name, version)
) STRICT, WITHOUT ROWID;

INSERT INTO versioned_with_keys (kind, name, version, stored_at, stored_by, description, body)
SELECT kind, name, version, stored_at, stored_by, description, body FROM versioned ORDER BY kind, name, version;

DROP TABLE versioned;
ALTER TABLE versioned_with_keys RENAME TO versioned;

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
