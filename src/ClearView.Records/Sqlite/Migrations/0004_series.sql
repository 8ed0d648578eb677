-- Series: the values of each measurand by line and time, so that charts and studies need not open readings.

-- Texts that repeat, by a short number. Code 0 is the empty text.
CREATE TABLE label (
    code INTEGER PRIMARY KEY,
    text TEXT    NOT NULL UNIQUE
) STRICT;

INSERT INTO label (code, text) VALUES (0, '');

-- The key yields a series of one line in the order of measurement. Texts are codes of labels. Places are absent where a reading
-- has none. Codes and sequence are no foreign keys: the writer makes them in the same transaction, and looking each of them up
-- again would cost more than the value itself.
CREATE TABLE series_value (
    line        INTEGER NOT NULL,
    measurand   INTEGER NOT NULL,
    measured_at INTEGER NOT NULL,
    sequence    INTEGER NOT NULL,
    value       REAL    NOT NULL,
    product     INTEGER NOT NULL,
    lot         INTEGER NOT NULL,
    roll        INTEGER NOT NULL,
    instrument  INTEGER NOT NULL,
    across_mm   REAL,
    along_m     REAL,
    PRIMARY KEY (line, measurand, measured_at, sequence)
) STRICT, WITHOUT ROWID;

-- The verdict at the time of posting, and what series are chosen by.
ALTER TABLE reading ADD COLUMN verdict BLOB;
ALTER TABLE reading ADD COLUMN instrument TEXT NOT NULL DEFAULT '';
ALTER TABLE reading ADD COLUMN across_mm REAL;
ALTER TABLE reading ADD COLUMN along_m REAL;

-- Earlier readings join their series without instrument and place, which were not columns then.
INSERT OR IGNORE INTO label (text)
SELECT line FROM reading UNION SELECT product FROM reading UNION SELECT lot FROM reading UNION SELECT roll FROM reading
UNION SELECT measurand FROM reading_value;

INSERT OR IGNORE INTO series_value (line, measurand, measured_at, sequence, value, product, lot, roll, instrument)
SELECT line.code, measurand.code, reading.measured_at, reading.sequence, reading_value.value, product.code, lot.code, roll.code, 0
FROM reading
JOIN reading_value ON reading_value.sequence = reading.sequence
JOIN label AS line ON line.text = reading.line
JOIN label AS product ON product.text = reading.product
JOIN label AS lot ON lot.text = reading.lot
JOIN label AS roll ON roll.text = reading.roll
JOIN label AS measurand ON measurand.text = reading_value.measurand
ORDER BY line.code, measurand.code, reading.measured_at, reading.sequence;

DROP TABLE reading_value;

CREATE TRIGGER series_value_is_never_changed BEFORE UPDATE ON series_value
BEGIN
    SELECT RAISE(ABORT, 'series are append-only: UPDATE refused');
END;

CREATE TRIGGER series_value_is_never_removed BEFORE DELETE ON series_value
BEGIN
    SELECT RAISE(ABORT, 'series are append-only: DELETE refused');
END;

-- INSERT OR REPLACE removes rows without asking the trigger for DELETE.
CREATE TRIGGER series_value_is_never_replaced BEFORE INSERT ON series_value
WHEN EXISTS (
    SELECT 1 FROM series_value
    WHERE line = NEW.line AND measurand = NEW.measurand AND measured_at = NEW.measured_at AND sequence = NEW.sequence)
BEGIN
    SELECT RAISE(ABORT, 'series are append-only: REPLACE refused');
END;

CREATE TRIGGER label_is_never_changed BEFORE UPDATE ON label
BEGIN
    SELECT RAISE(ABORT, 'labels are append-only: UPDATE refused');
END;

CREATE TRIGGER label_is_never_removed BEFORE DELETE ON label
BEGIN
    SELECT RAISE(ABORT, 'labels are append-only: DELETE refused');
END;

CREATE TRIGGER label_is_never_replaced BEFORE INSERT ON label
WHEN EXISTS (SELECT 1 FROM label WHERE code = NEW.code OR text = NEW.text)
BEGIN
    SELECT RAISE(ABORT, 'labels are append-only: REPLACE refused');
END;
