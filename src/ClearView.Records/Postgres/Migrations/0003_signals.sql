-- Signals that readings raised when they were posted, serialised; a row only where there are any. Rows are only ever added.
CREATE TABLE reading_signal (
    line     text   COLLATE "C" NOT NULL,
    sequence bigint NOT NULL,
    signals  bytea  NOT NULL,
    PRIMARY KEY (line, sequence)
);

CREATE TRIGGER never_changed BEFORE UPDATE OR DELETE ON reading_signal FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON reading_signal FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
