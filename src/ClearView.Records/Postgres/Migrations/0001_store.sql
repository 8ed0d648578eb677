-- The whole store: readings, their series, and documents under names. Rows are only ever added.
--
-- Times are UTC in units of 100 ns since 0001-01-01, as in the embedded engine. Texts compare by their bytes ("C").
-- Tables of readings and series are cut into months of measurement; clearview.ensure_month makes the parts.

CREATE SEQUENCE reading_sequence AS bigint;

-- Identifiers are unique across lines and months, which no key of a partitioned table can say. A reading is there when its
-- identifier is: both are written in one transaction. Sequences are given in the order of writing; transactions of two servers
-- may commit in another order than their sequences.
CREATE TABLE reading_id (
    id          uuid   PRIMARY KEY,
    line        text   COLLATE "C" NOT NULL,
    measured_at bigint NOT NULL,
    sequence    bigint NOT NULL UNIQUE
);

-- The line leads the key, so that a database spread over machines can keep each line together. Payloads stand last.
CREATE TABLE reading (
    line             text   COLLATE "C" NOT NULL,
    measured_at      bigint NOT NULL,
    id               uuid   NOT NULL,
    sequence         bigint NOT NULL,
    recorded_at      bigint NOT NULL,
    product          text   COLLATE "C" NOT NULL,
    lot              text   COLLATE "C" NOT NULL,
    roll             text   COLLATE "C" NOT NULL,
    specimen         text   COLLATE "C" NOT NULL,
    instrument       text   COLLATE "C" NOT NULL,
    software_version text   COLLATE "C" NOT NULL,
    across_mm        double precision,
    along_m          double precision,
    method           bytea  NOT NULL,
    measurement      bytea  NOT NULL,
    evaluation       bytea  NOT NULL,
    verdict          bytea,
    PRIMARY KEY (line, measured_at, id)
) PARTITION BY RANGE (measured_at);

-- Each filter of a list has an index that also yields the order of the list; the key serves the line.
CREATE INDEX reading_by_time     ON reading (measured_at, id);
CREATE INDEX reading_by_product  ON reading (product, measured_at, id);
CREATE INDEX reading_by_lot      ON reading (lot, measured_at, id);
CREATE INDEX reading_by_roll     ON reading (roll, measured_at, id);
CREATE INDEX reading_by_specimen ON reading (specimen, measured_at, id);

-- Texts that repeat, by a short number. Code 0 is the empty text.
CREATE TABLE label (
    code bigint GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
    text text   COLLATE "C" NOT NULL UNIQUE
);

INSERT INTO label (code, text) OVERRIDING SYSTEM VALUE VALUES (0, '');

-- PostgreSQL keeps rows as they come, 25 measurands of a reading side by side. The key therefore carries the other columns:
-- a series of one line is one walk over neighbouring entries of the index. Codes keep those entries short.
CREATE TABLE series_value (
    line        bigint NOT NULL,
    measurand   bigint NOT NULL,
    measured_at bigint NOT NULL,
    sequence    bigint NOT NULL,
    value       double precision NOT NULL,
    product     bigint NOT NULL,
    lot         bigint NOT NULL,
    roll        bigint NOT NULL,
    instrument  bigint NOT NULL,
    across_mm   double precision,
    along_m     double precision,
    PRIMARY KEY (line, measurand, measured_at, sequence)
        INCLUDE (value, product, lot, roll, instrument, across_mm, along_m)
) PARTITION BY RANGE (measured_at);

-- Methods, specifications, references and control charts under names, each row the next version of its name.
CREATE TABLE versioned (
    kind        text   COLLATE "C" NOT NULL CHECK (kind IN ('method', 'specification', 'reference', 'control chart')),
    name        text   COLLATE "C" NOT NULL CHECK (name <> ''),
    version     bigint NOT NULL,
    stored_at   bigint NOT NULL,
    stored_by   text   COLLATE "C" NOT NULL,
    description text   COLLATE "C" NOT NULL,
    body        bytea  NOT NULL,
    PRIMARY KEY (kind, name, version)
);

CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    RAISE EXCEPTION '% is append-only: % refused', TG_TABLE_NAME, TG_OP;
END
$$;

CREATE FUNCTION refuse_gap() RETURNS trigger LANGUAGE plpgsql SET search_path = clearview, pg_temp AS $$
BEGIN
    IF NEW.version <> 1 + (SELECT coalesce(max(version), 0) FROM versioned WHERE kind = NEW.kind AND name = NEW.name) THEN
        RAISE EXCEPTION 'versioned is append-only: version out of turn refused';
    END IF;
    RETURN NEW;
END
$$;

CREATE TRIGGER versions_have_no_gaps BEFORE INSERT ON versioned FOR EACH ROW EXECUTE FUNCTION refuse_gap();

-- Triggers for rows pass on to the parts of a table; those for TRUNCATE do not, and ensure_month makes them.
CREATE TRIGGER never_changed BEFORE UPDATE OR DELETE ON reading_id   FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_changed BEFORE UPDATE OR DELETE ON reading      FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_changed BEFORE UPDATE OR DELETE ON label        FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_changed BEFORE UPDATE OR DELETE ON series_value FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_changed BEFORE UPDATE OR DELETE ON versioned    FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON reading_id   FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON reading      FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON label        FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON series_value FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER never_emptied BEFORE TRUNCATE ON versioned    FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

-- Makes the parts of a month, "2026_03", from its first tick to the first tick of the next, unless they are there. Safe when
-- many ask at once. A part is made beside the table and then attached, which lets others go on writing to the table.
CREATE FUNCTION ensure_month(month text, first_tick bigint, next_tick bigint) RETURNS void
LANGUAGE plpgsql SET search_path = clearview, pg_temp AS $$
DECLARE
    parent text;
    part   text;
BEGIN
    -- Looked up in pg_class: to_regclass would go on saying "no" after the lock, from a cache that waiting does not refresh.
    IF (SELECT count(*) = 2 FROM pg_class
        WHERE relnamespace = 'clearview'::regnamespace AND relname IN ('reading_' || month, 'series_value_' || month)) THEN
        RETURN;
    END IF;

    -- The key is the bytes "CLRVMNTH".
    PERFORM pg_advisory_xact_lock(x'434C52564D4E5448'::bigint);
    FOREACH parent IN ARRAY ARRAY['reading', 'series_value'] LOOP
        part := parent || '_' || month;
        CONTINUE WHEN EXISTS (SELECT 1 FROM pg_class WHERE relnamespace = 'clearview'::regnamespace AND relname = part);
        EXECUTE format('CREATE TABLE %I (LIKE %I INCLUDING DEFAULTS INCLUDING CONSTRAINTS)', part, parent);
        EXECUTE format('CREATE TRIGGER never_emptied BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', part);
        EXECUTE format('ALTER TABLE %I ATTACH PARTITION %I FOR VALUES FROM (%s) TO (%s)', parent, part, first_tick, next_tick);
    END LOOP;
END
$$;
