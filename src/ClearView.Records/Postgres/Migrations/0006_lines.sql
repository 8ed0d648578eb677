-- The line leads every key of the tables that have one: a database that is spread over machines by line keeps no other key.

-- A key led by the line cannot say that an identifier is unique across lines. On one machine the guard says so. Where the tables are
-- spread over machines, a plain index stands in its place; identifiers are looked up on every line all the same.
ALTER TABLE reading_id
    DROP CONSTRAINT reading_id_pkey,
    DROP CONSTRAINT reading_id_sequence_key,
    ADD PRIMARY KEY (line, id);

CREATE UNIQUE INDEX reading_id_guard ON reading_id (id);
COMMENT ON INDEX reading_id_guard IS 'Identifiers are unique across lines. Replaced by a plain index on (id) where the tables are spread over machines.';

-- The order of recording goes across lines. One counter gives the numbers, and no number gets a second link.
CREATE INDEX reading_id_by_sequence ON reading_id (sequence);

-- The line is that of the reading that is corrected: only with that line a key says that each is corrected once. The correction
-- itself may be of another line, where the line was what had to be corrected. The identifiers of retired readings are still there.
ALTER TABLE correction ADD COLUMN line text COLLATE "C";
ALTER TABLE correction DISABLE TRIGGER never_changed;
UPDATE correction SET line = coalesce((SELECT reading_id.line FROM reading_id WHERE reading_id.id = correction.superseded), '');
ALTER TABLE correction ENABLE TRIGGER never_changed;
ALTER TABLE correction
    ALTER COLUMN line SET NOT NULL,
    DROP CONSTRAINT correction_pkey,
    DROP CONSTRAINT correction_superseded_sequence_key,
    DROP CONSTRAINT correction_by_sequence_key,
    ADD PRIMARY KEY (line, superseded),
    ADD UNIQUE (line, superseded_sequence);

CREATE INDEX correction_by_sequence ON correction (by_sequence);

-- Changed in place: the bytes of large pictures stay where they are.
ALTER TABLE picture ADD COLUMN line text COLLATE "C";
ALTER TABLE picture DISABLE TRIGGER never_changed;
UPDATE picture SET line = coalesce((SELECT reading_id.line FROM reading_id WHERE reading_id.sequence = picture.sequence), '');
ALTER TABLE picture ENABLE TRIGGER never_changed;
ALTER TABLE picture
    ALTER COLUMN line SET NOT NULL,
    DROP CONSTRAINT picture_pkey,
    ADD PRIMARY KEY (line, sequence);

CREATE INDEX picture_by_sequence ON picture (sequence);

CREATE OR REPLACE VIEW reading_number AS SELECT sequence, id, line FROM reading_id;
