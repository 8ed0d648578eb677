-- Months whose readings were exported and taken out of the store. Their parts of the tables move to a schema of their own.
CREATE SCHEMA IF NOT EXISTS clearview_retired;

-- A month may be retired more than once, since late readings begin a new part of it: of the month's readings, those with
-- after_sequence < sequence <= last_sequence were retired in this part.
CREATE TABLE retired_month (
    month          text   COLLATE "C" NOT NULL CHECK (month ~ '^\d{4}-\d{2}$'),
    part           bigint NOT NULL CHECK (part >= 1),
    first_tick     bigint NOT NULL,
    next_tick      bigint NOT NULL,
    after_sequence bigint NOT NULL,
    last_sequence  bigint NOT NULL,
    readings       bigint NOT NULL,
    series_values  bigint NOT NULL,
    sha256         text   COLLATE "C" NOT NULL CHECK (length(sha256) = 64),
    export_file    text   COLLATE "C" NOT NULL,
    retired_at     bigint NOT NULL,
    retired_by     text   COLLATE "C" NOT NULL,
    PRIMARY KEY (month, part)
);

-- The identifiers of retired readings stay taken.
CREATE VIEW retired_reading AS
SELECT reading_id.id, reading_id.line, reading_id.sequence, retired_month.month, retired_month.part
FROM reading_id
JOIN retired_month ON reading_id.measured_at >= retired_month.first_tick AND reading_id.measured_at < retired_month.next_tick
    AND reading_id.sequence > retired_month.after_sequence AND reading_id.sequence <= retired_month.last_sequence;

-- A row where the store is nothing but the export of a month; in the embedded engine only.
CREATE TABLE month_export (
    month text   COLLATE "C" NOT NULL,
    part  bigint NOT NULL,
    PRIMARY KEY (month, part)
);

CREATE TRIGGER never_changed BEFORE UPDATE OR DELETE ON retired_month FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON retired_month FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

-- Takes the parts of a month, "2024_11", out of the tables and into the schema of retired ones; nothing is dropped. Names of
-- tables and indexes get a suffix from the second time on. A part that is taken out loses the triggers of its table.
CREATE FUNCTION retire_month(month text, suffix text) RETURNS void
LANGUAGE plpgsql SET search_path = clearview, pg_temp AS $$
DECLARE
    parent text;
    part   text;
    key    text;
BEGIN
    FOREACH parent IN ARRAY ARRAY['reading', 'series_value'] LOOP
        part := parent || '_' || month;
        EXECUTE format('ALTER TABLE %I DETACH PARTITION %I', parent, part);
        EXECUTE format('CREATE TRIGGER never_changed BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', part);
        IF suffix <> '' THEN
            FOR key IN SELECT indexrelid::regclass::text FROM pg_index WHERE indrelid = part::regclass LOOP
                EXECUTE format('ALTER INDEX %s RENAME TO %I', key, replace(key, '"', '') || suffix);
            END LOOP;
            EXECUTE format('ALTER TABLE %I RENAME TO %I', part, part || suffix);
        END IF;
        EXECUTE format('ALTER TABLE %I SET SCHEMA clearview_retired', part || suffix);
    END LOOP;
END
$$;
