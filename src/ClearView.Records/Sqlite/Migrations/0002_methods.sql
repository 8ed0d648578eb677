-- Methods under names. Rows are only ever added, each as the next version of its name.

-- Times are UTC in units of 100 ns since 0001-01-01. The key yields the order of a list and the newest version of a name.
CREATE TABLE method (
    name        TEXT    NOT NULL CHECK (name <> ''),
    version     INTEGER NOT NULL,
    stored_at   INTEGER NOT NULL,
    stored_by   TEXT    NOT NULL,
    description TEXT    NOT NULL,
    method      BLOB    NOT NULL,
    PRIMARY KEY (name, version)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER method_is_never_changed BEFORE UPDATE ON method
BEGIN
    SELECT RAISE(ABORT, 'methods are append-only: UPDATE refused');
END;

CREATE TRIGGER method_is_never_removed BEFORE DELETE ON method
BEGIN
    SELECT RAISE(ABORT, 'methods are append-only: DELETE refused');
END;

-- INSERT OR REPLACE removes rows without asking the trigger for DELETE.
CREATE TRIGGER method_is_never_replaced BEFORE INSERT ON method
WHEN EXISTS (SELECT 1 FROM method WHERE name = NEW.name AND version = NEW.version)
BEGIN
    SELECT RAISE(ABORT, 'methods are append-only: REPLACE refused');
END;

CREATE TRIGGER method_versions_have_no_gaps BEFORE INSERT ON method
WHEN NEW.version <> 1 + (SELECT coalesce(max(version), 0) FROM method WHERE name = NEW.name)
BEGIN
    SELECT RAISE(ABORT, 'methods are append-only: version out of turn refused');
END;
