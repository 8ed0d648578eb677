-- Readings, as they were posted and evaluated. Rows are only ever added.

-- Times are UTC in units of 100 ns since 0001-01-01. Identifiers are the 16 bytes of the UUID in the order of its text,
-- so that they sort alike. Payloads stand last: long rows spill there, and scans of the other columns stay short.
CREATE TABLE reading (
    sequence         INTEGER PRIMARY KEY,
    id               BLOB    NOT NULL UNIQUE CHECK (length(id) = 16),
    measured_at      INTEGER NOT NULL,
    recorded_at      INTEGER NOT NULL,
    line             TEXT    NOT NULL,
    product          TEXT    NOT NULL,
    lot              TEXT    NOT NULL,
    roll             TEXT    NOT NULL,
    specimen         TEXT    NOT NULL,
    software_version TEXT    NOT NULL,
    method           BLOB    NOT NULL,
    measurement      BLOB    NOT NULL,
    evaluation       BLOB    NOT NULL
) STRICT;

-- Values of each evaluation, in its order.
CREATE TABLE reading_value (
    sequence  INTEGER NOT NULL REFERENCES reading (sequence),
    ordinal   INTEGER NOT NULL,
    measurand TEXT    NOT NULL,
    value     REAL    NOT NULL,
    PRIMARY KEY (sequence, ordinal)
) STRICT, WITHOUT ROWID;

-- Each filter of a list has an index that also yields the order of the list.
CREATE INDEX reading_by_time     ON reading (measured_at, id);
CREATE INDEX reading_by_line     ON reading (line, measured_at, id);
CREATE INDEX reading_by_product  ON reading (product, measured_at, id);
CREATE INDEX reading_by_lot      ON reading (lot, measured_at, id);
CREATE INDEX reading_by_roll     ON reading (roll, measured_at, id);
CREATE INDEX reading_by_specimen ON reading (specimen, measured_at, id);

CREATE TRIGGER reading_is_never_changed BEFORE UPDATE ON reading
BEGIN
    SELECT RAISE(ABORT, 'readings are append-only: UPDATE refused');
END;

CREATE TRIGGER reading_is_never_removed BEFORE DELETE ON reading
BEGIN
    SELECT RAISE(ABORT, 'readings are append-only: DELETE refused');
END;

-- INSERT OR REPLACE removes rows without asking the triggers for DELETE.
CREATE TRIGGER reading_is_never_replaced BEFORE INSERT ON reading
WHEN EXISTS (SELECT 1 FROM reading WHERE id = NEW.id OR sequence = NEW.sequence)
BEGIN
    SELECT RAISE(ABORT, 'readings are append-only: REPLACE refused');
END;

CREATE TRIGGER reading_value_is_never_changed BEFORE UPDATE ON reading_value
BEGIN
    SELECT RAISE(ABORT, 'readings are append-only: UPDATE refused');
END;

CREATE TRIGGER reading_value_is_never_removed BEFORE DELETE ON reading_value
BEGIN
    SELECT RAISE(ABORT, 'readings are append-only: DELETE refused');
END;

CREATE TRIGGER reading_value_is_never_replaced BEFORE INSERT ON reading_value
WHEN EXISTS (SELECT 1 FROM reading_value WHERE sequence = NEW.sequence AND ordinal = NEW.ordinal)
BEGIN
    SELECT RAISE(ABORT, 'readings are append-only: REPLACE refused');
END;
