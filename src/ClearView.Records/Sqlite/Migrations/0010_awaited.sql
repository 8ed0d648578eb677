-- Readings whose signals were not stored yet when the file was last written: a row comes with its reading and goes with a later
-- write, once the signals are stored or there are none. What a server that was killed leaves here, the next one settles.
CREATE TABLE awaited_signal (
    sequence INTEGER PRIMARY KEY
) STRICT;
