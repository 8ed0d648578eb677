-- Signals that readings raised when they were posted, serialised; a row only where there are any. Rows are only ever added.
CREATE TABLE reading_signal (
    line     TEXT    NOT NULL,
    sequence INTEGER NOT NULL,
    signals  BLOB    NOT NULL,
    PRIMARY KEY (line, sequence)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER reading_signal_is_never_changed BEFORE UPDATE ON reading_signal
BEGIN
    SELECT RAISE(ABORT, 'signals are append-only: UPDATE refused');
END;

CREATE TRIGGER reading_signal_is_never_removed BEFORE DELETE ON reading_signal
BEGIN
    SELECT RAISE(ABORT, 'signals are append-only: DELETE refused');
END;

-- INSERT OR REPLACE removes rows without asking the trigger for DELETE.
CREATE TRIGGER reading_signal_is_never_replaced BEFORE INSERT ON reading_signal
WHEN EXISTS (SELECT 1 FROM reading_signal WHERE line = NEW.line AND sequence = NEW.sequence)
BEGIN
    SELECT RAISE(ABORT, 'signals are append-only: REPLACE refused');
END;
