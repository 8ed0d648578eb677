-- Corrections and pictures know their line, as in a database that can be spread by line, so that both engines are asked alike.

-- The line of a correction is that of the reading that is corrected. The export of a month may lack that reading.
CREATE TABLE correction_of_line (
    line                TEXT    NOT NULL,
    superseded          BLOB    NOT NULL CHECK (length(superseded) = 16),
    superseded_sequence INTEGER NOT NULL UNIQUE,
    by_sequence         INTEGER NOT NULL UNIQUE,
    PRIMARY KEY (line, superseded)
) STRICT, WITHOUT ROWID;

INSERT INTO correction_of_line (line, superseded, superseded_sequence, by_sequence)
SELECT coalesce(corrected.line, own.line, ''), superseded, superseded_sequence, by_sequence
FROM correction
LEFT JOIN reading AS corrected ON corrected.id = superseded
LEFT JOIN reading AS own ON own.sequence = by_sequence;

DROP TABLE correction;
ALTER TABLE correction_of_line RENAME TO correction;

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
    WHERE (line = NEW.line AND superseded = NEW.superseded)
       OR superseded_sequence = NEW.superseded_sequence OR by_sequence = NEW.by_sequence)
BEGIN
    SELECT RAISE(ABORT, 'corrections are append-only: REPLACE refused');
END;

-- The body stands last: the line is read without it.
CREATE TABLE picture_of_line (
    sequence INTEGER PRIMARY KEY,
    line     TEXT    NOT NULL,
    body     BLOB    NOT NULL
) STRICT;

INSERT INTO picture_of_line (sequence, line, body)
SELECT picture.sequence, coalesce(reading.line, ''), body FROM picture LEFT JOIN reading ON reading.sequence = picture.sequence
ORDER BY picture.sequence;

DROP TABLE picture;
ALTER TABLE picture_of_line RENAME TO picture;

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

DROP VIEW reading_number;
CREATE VIEW reading_number AS SELECT sequence, id, line FROM reading;
