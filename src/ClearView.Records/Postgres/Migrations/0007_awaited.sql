-- Readings whose signals are not stored yet: a row comes with its reading and goes once the signals are stored, or there are none.
-- What a server that was killed leaves here, the next one that starts settles.
CREATE TABLE awaited_signal (
    line     text   COLLATE "C" NOT NULL,
    sequence bigint NOT NULL,
    PRIMARY KEY (line, sequence)
);
