-- Lamps: what each one is, where it is, and each stay in a lamphouse. Facts are appended; a correction is a new row.
-- The INTEGER keys are the order of arrival. Lamp types are files of the catalogue and so no table.

CREATE TABLE lamp (
    lamp_id TEXT NOT NULL PRIMARY KEY CHECK (length(lamp_id) > 0),
    lamp_type_id TEXT NOT NULL CHECK (length(lamp_type_id) > 0),
    hours_before_h REAL CHECK (hours_before_h >= 0), -- burnt before the lamp was known; NULL: nobody knows
    entered_at_ms INTEGER NOT NULL
) STRICT;

CREATE TRIGGER lamp_is_never_changed BEFORE UPDATE ON lamp
BEGIN
    SELECT RAISE(ABORT, 'a lamp is never changed');
END;

CREATE TRIGGER lamp_is_never_removed BEFORE DELETE ON lamp
BEGIN
    SELECT RAISE(ABORT, 'a lamp is never removed');
END;

-- The serial as it was read; the last row of a lamp counts. serial_key is what two serials are compared by.
CREATE TABLE lamp_serial (
    lamp_serial_id INTEGER NOT NULL PRIMARY KEY,
    lamp_id TEXT NOT NULL REFERENCES lamp (lamp_id),
    serial TEXT NOT NULL,
    serial_key TEXT NOT NULL,
    read_at_ms INTEGER NOT NULL
) STRICT;

CREATE INDEX ix_lamp_serial_serial_key ON lamp_serial (serial_key);
CREATE INDEX ix_lamp_serial_lamp_id ON lamp_serial (lamp_id);

CREATE TRIGGER lamp_serial_is_one_lamps BEFORE INSERT ON lamp_serial
WHEN NEW.serial_key <> '' AND EXISTS (
    SELECT 1 FROM lamp_serial AS other JOIN lamp ON lamp.lamp_id = other.lamp_id
    WHERE other.serial_key = NEW.serial_key AND other.lamp_id <> NEW.lamp_id
        AND lamp.lamp_type_id = (SELECT lamp_type_id FROM lamp WHERE lamp_id = NEW.lamp_id)
        AND other.lamp_serial_id = (SELECT max(lamp_serial_id) FROM lamp_serial WHERE lamp_id = other.lamp_id))
BEGIN
    SELECT RAISE(ABORT, 'another lamp of this type has this serial');
END;

CREATE TRIGGER lamp_serial_is_never_changed BEFORE UPDATE ON lamp_serial
BEGIN
    SELECT RAISE(ABORT, 'a serial is read anew, never changed');
END;

CREATE TRIGGER lamp_serial_is_never_removed BEFORE DELETE ON lamp_serial
BEGIN
    SELECT RAISE(ABORT, 'a serial is never removed');
END;

-- Who has a lamp from then on: a person, a site, or nobody named. Only the last row can be corrected, by one more.
CREATE TABLE custody_move (
    custody_move_id INTEGER NOT NULL PRIMARY KEY,
    move_id TEXT NOT NULL UNIQUE CHECK (length(move_id) > 0),
    lamp_id TEXT NOT NULL REFERENCES lamp (lamp_id),
    custody TEXT NOT NULL CHECK (custody IN ('on-order', 'in-stock', 'in-van', 'fitted', 'boxed', 'returned', 'recycled',
        'burst', 'kept-by-site', 'unused')),
    holder_id TEXT NOT NULL CHECK (custody <> 'in-van' OR length(holder_id) > 0),
    site_id TEXT NOT NULL CHECK (custody <> 'kept-by-site' OR length(site_id) > 0),
    moved_at_ms INTEGER NOT NULL,
    corrects_id TEXT UNIQUE REFERENCES custody_move (move_id)
) STRICT;

CREATE INDEX ix_custody_move_lamp_id ON custody_move (lamp_id);

CREATE TRIGGER custody_move_is_never_changed BEFORE UPDATE ON custody_move
BEGIN
    SELECT RAISE(ABORT, 'a custody move is corrected by a new one');
END;

CREATE TRIGGER custody_move_is_never_removed BEFORE DELETE ON custody_move
BEGIN
    SELECT RAISE(ABORT, 'a custody move is never removed');
END;

CREATE TABLE fit (
    fit_number INTEGER NOT NULL PRIMARY KEY,
    fit_id TEXT NOT NULL UNIQUE CHECK (length(fit_id) > 0),
    lamp_id TEXT NOT NULL REFERENCES lamp (lamp_id),
    lamphouse_id TEXT NOT NULL CHECK (length(lamphouse_id) > 0),
    counter_in_h REAL CHECK (counter_in_h >= 0), -- NULL: not known
    fitted_at_ms INTEGER NOT NULL
) STRICT;

CREATE INDEX ix_fit_lamphouse_id ON fit (lamphouse_id);
CREATE INDEX ix_fit_lamp_id ON fit (lamp_id);

CREATE TABLE fit_end (
    fit_id TEXT NOT NULL PRIMARY KEY REFERENCES fit (fit_id),
    counter_out_h REAL CHECK (counter_out_h >= 0), -- NULL: could not be read
    removed_at_ms INTEGER NOT NULL,
    cause TEXT NOT NULL CHECK (cause IN ('end-of-life', 'dim', 'flicker', 'will-not-light', 'blackened', 'burst',
        'early-failure', 'damaged', 'other')),
    reset_last_before_h REAL CHECK (reset_last_before_h >= 0),
    reset_first_after_h REAL CHECK (reset_first_after_h >= 0),
    run_h REAL CHECK (run_h >= 0), -- what was made of the counters; NULL: not known
    CHECK ((reset_last_before_h IS NULL) = (reset_first_after_h IS NULL))
) STRICT;

CREATE TRIGGER fit_is_one_at_a_time BEFORE INSERT ON fit
WHEN EXISTS (
    SELECT 1 FROM fit AS other
    WHERE (other.lamphouse_id = NEW.lamphouse_id OR other.lamp_id = NEW.lamp_id)
        AND NOT EXISTS (SELECT 1 FROM fit_end WHERE fit_end.fit_id = other.fit_id))
BEGIN
    SELECT RAISE(ABORT, 'a lamp is in one lamphouse, and a lamphouse holds one lamp');
END;

CREATE TRIGGER fit_is_never_changed BEFORE UPDATE ON fit
BEGIN
    SELECT RAISE(ABORT, 'a fit is never changed');
END;

CREATE TRIGGER fit_is_never_removed BEFORE DELETE ON fit
BEGIN
    SELECT RAISE(ABORT, 'a fit is never removed');
END;

CREATE TRIGGER fit_end_is_never_changed BEFORE UPDATE ON fit_end
BEGIN
    SELECT RAISE(ABORT, 'the end of a fit is never changed');
END;

CREATE TRIGGER fit_end_is_never_removed BEFORE DELETE ON fit_end
BEGIN
    SELECT RAISE(ABORT, 'the end of a fit is never removed');
END;

-- Looks at the hour counter of a lamphouse. A row that another one corrects does not count.
CREATE TABLE counter_reading (
    counter_reading_id INTEGER NOT NULL PRIMARY KEY,
    reading_id TEXT NOT NULL UNIQUE CHECK (length(reading_id) > 0),
    lamphouse_id TEXT NOT NULL CHECK (length(lamphouse_id) > 0),
    counter_h REAL NOT NULL CHECK (counter_h >= 0),
    read_at_ms INTEGER NOT NULL,
    corrects_id TEXT UNIQUE REFERENCES counter_reading (reading_id)
) STRICT;

CREATE INDEX ix_counter_reading_lamphouse_id ON counter_reading (lamphouse_id, read_at_ms);

CREATE TRIGGER counter_reading_corrects_its_own_lamphouse BEFORE INSERT ON counter_reading
WHEN NEW.corrects_id IS NOT NULL
    AND NEW.lamphouse_id IS NOT (SELECT lamphouse_id FROM counter_reading WHERE reading_id = NEW.corrects_id)
BEGIN
    SELECT RAISE(ABORT, 'a correction is of the same lamphouse');
END;

CREATE TRIGGER counter_reading_is_never_changed BEFORE UPDATE ON counter_reading
BEGIN
    SELECT RAISE(ABORT, 'a counter reading is corrected by a new one');
END;

CREATE TRIGGER counter_reading_is_never_removed BEFORE DELETE ON counter_reading
BEGIN
    SELECT RAISE(ABORT, 'a counter reading is never removed');
END;

-- Each lamp as it stands: its last serial, its hours (NULL if any part of them is unknown), its custody.
CREATE VIEW lamp_now AS
SELECT lamp.lamp_id, lamp.lamp_type_id, serial.serial, serial.serial_key, move.custody, move.holder_id, move.site_id,
    CASE WHEN EXISTS (SELECT 1 FROM fit JOIN fit_end ON fit_end.fit_id = fit.fit_id
            WHERE fit.lamp_id = lamp.lamp_id AND fit_end.run_h IS NULL) THEN NULL
        ELSE lamp.hours_before_h + (SELECT coalesce(sum(fit_end.run_h), 0.0) FROM fit
            JOIN fit_end ON fit_end.fit_id = fit.fit_id WHERE fit.lamp_id = lamp.lamp_id) END AS run_h
FROM lamp
JOIN lamp_serial AS serial ON serial.lamp_serial_id =
    (SELECT max(lamp_serial_id) FROM lamp_serial WHERE lamp_id = lamp.lamp_id)
JOIN custody_move AS move ON move.custody_move_id =
    (SELECT max(custody_move_id) FROM custody_move WHERE lamp_id = lamp.lamp_id);
