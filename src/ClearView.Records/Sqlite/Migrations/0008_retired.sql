-- Months are retired from a database only. The same tables stand here, so that both engines answer the same questions.
CREATE TABLE retired_month (
    month          TEXT    NOT NULL,
    part           INTEGER NOT NULL,
    first_tick     INTEGER NOT NULL,
    next_tick      INTEGER NOT NULL,
    after_sequence INTEGER NOT NULL,
    last_sequence  INTEGER NOT NULL,
    readings       INTEGER NOT NULL,
    series_values  INTEGER NOT NULL,
    sha256         TEXT    NOT NULL CHECK (length(sha256) = 64),
    export_file    TEXT    NOT NULL,
    retired_at     INTEGER NOT NULL,
    retired_by     TEXT    NOT NULL,
    PRIMARY KEY (month, part)
) STRICT, WITHOUT ROWID;

CREATE TABLE retired_reading (
    id       BLOB    PRIMARY KEY,
    line     TEXT    NOT NULL,
    sequence INTEGER NOT NULL UNIQUE,
    month    TEXT    NOT NULL,
    part     INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TRIGGER nothing_is_retired_here BEFORE INSERT ON retired_month
BEGIN
    SELECT RAISE(ABORT, 'months are retired from a database only');
END;

CREATE TRIGGER no_reading_is_retired_here BEFORE INSERT ON retired_reading
BEGIN
    SELECT RAISE(ABORT, 'months are retired from a database only');
END;

-- A row where the file is nothing but the export of a month: a part of a chain, to which nothing is added any more.
CREATE TABLE month_export (
    month TEXT    NOT NULL,
    part  INTEGER NOT NULL,
    PRIMARY KEY (month, part)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER export_is_never_changed BEFORE UPDATE ON month_export
BEGIN
    SELECT RAISE(ABORT, 'the file is the export of a month: UPDATE refused');
END;

CREATE TRIGGER export_is_never_removed BEFORE DELETE ON month_export
BEGIN
    SELECT RAISE(ABORT, 'the file is the export of a month: DELETE refused');
END;

-- Whatever is written has a link.
CREATE TRIGGER export_takes_nothing BEFORE INSERT ON link
WHEN EXISTS (SELECT 1 FROM month_export)
BEGIN
    SELECT RAISE(ABORT, 'the file is the export of a month and takes nothing more');
END;
