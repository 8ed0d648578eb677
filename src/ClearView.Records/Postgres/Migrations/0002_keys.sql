-- Keys of callers join the documents.
ALTER TABLE clearview.versioned
    DROP CONSTRAINT versioned_kind_check,
    ADD CONSTRAINT versioned_kind_check CHECK (kind IN ('method', 'specification', 'reference', 'control chart', 'key'));
