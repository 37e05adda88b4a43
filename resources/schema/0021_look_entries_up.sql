-- What entries name is read off their bytes when they are kept, and written down: a press no longer pays for two
-- searches of them, nor for a second look at the entry before.
DROP INDEX ix_entry_picture;
DROP INDEX ix_entry_scanned;

-- The entries that name a picture, by its hash in hexadecimal digits. X'..22' is "picture":" and no text of an entry can
-- hold it, since a quotation mark in a text is escaped.
CREATE TABLE picture_naming (
    picture_hash TEXT NOT NULL CHECK (length(picture_hash) = 64),
    entry_id INTEGER NOT NULL REFERENCES entry (entry_id),
    PRIMARY KEY (picture_hash, entry_id)
) STRICT;

INSERT INTO picture_naming(picture_hash, entry_id)
SELECT CAST(substr(bytes, instr(bytes, X'2270696374757265223A22') + 11, 64) AS TEXT), entry_id FROM entry
WHERE instr(bytes, X'2270696374757265223A22') > 0
    AND CAST(substr(bytes, instr(bytes, X'2270696374757265223A22') + 11, 64) AS TEXT) NOT GLOB '*[^0-9a-f]*';

CREATE TRIGGER picture_naming_is_never_changed BEFORE UPDATE ON picture_naming
BEGIN
    SELECT RAISE(ABORT, 'what an entry names is never changed');
END;

CREATE TRIGGER picture_naming_is_never_removed BEFORE DELETE ON picture_naming
BEGIN
    SELECT RAISE(ABORT, 'what an entry names is never removed');
END;

-- The entries that hold codes; X'..5B' is "scanned":[ of the same kind.
CREATE TABLE code_holding (
    entry_id INTEGER NOT NULL PRIMARY KEY REFERENCES entry (entry_id)
) STRICT;

INSERT INTO code_holding(entry_id)
SELECT entry_id FROM entry WHERE instr(bytes, X'227363616E6E6564223A5B') > 0;

CREATE TRIGGER code_holding_is_never_changed BEFORE UPDATE ON code_holding
BEGIN
    SELECT RAISE(ABORT, 'what an entry holds is never changed');
END;

CREATE TRIGGER code_holding_is_never_removed BEFORE DELETE ON code_holding
BEGIN
    SELECT RAISE(ABORT, 'what an entry holds is never removed');
END;

-- Refuses a second entry with a number that is taken (and so a replacing INSERT), a gap, and a link to anything but the
-- entry before.
DROP TRIGGER entry_follows_the_last_one;

CREATE TRIGGER entry_follows_the_last_one BEFORE INSERT ON entry
WHEN CASE NEW.seq
        WHEN 0 THEN EXISTS (SELECT 1 FROM entry WHERE visit_id = NEW.visit_id)
        ELSE NEW.previous IS NOT (
            SELECT CASE seq WHEN NEW.seq - 1 THEN hash END FROM entry
            WHERE visit_id = NEW.visit_id ORDER BY seq DESC LIMIT 1)
    END
    OR EXISTS (SELECT 1 FROM entry WHERE entry_id = NEW.entry_id)
BEGIN
    SELECT RAISE(ABORT, 'an entry follows the last one of its visit');
END;
