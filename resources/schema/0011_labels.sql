-- What a supervisor taught of the bar codes of a maker, the codes that nobody could read, and where a logbook names a
-- picture or a code.

-- Never changed; a rule that was wrong is withdrawn.
CREATE TABLE taught_rule (
    taught_rule_id TEXT NOT NULL PRIMARY KEY CHECK (length(taught_rule_id) > 0),
    lamp_type_id TEXT NOT NULL CHECK (length(lamp_type_id) > 0),
    rule TEXT NOT NULL CHECK (length(rule) > 0), -- JSON, as one of the labels of a lamp type's file
    package_code TEXT NOT NULL, -- new, and stands for the type; empty: the rule names none
    example TEXT NOT NULL CHECK (length(example) > 0), -- the code that it was taught by, as it was scanned
    taught_by TEXT NOT NULL REFERENCES person (person_id),
    taught_at_ms INTEGER NOT NULL
) STRICT;

CREATE TRIGGER taught_rule_is_never_changed BEFORE UPDATE ON taught_rule
BEGIN
    SELECT RAISE(ABORT, 'a taught rule is never changed');
END;

CREATE TRIGGER taught_rule_is_never_removed BEFORE DELETE ON taught_rule
BEGIN
    SELECT RAISE(ABORT, 'a taught rule is never removed');
END;

CREATE TRIGGER taught_rule_is_new BEFORE INSERT ON taught_rule
WHEN EXISTS (SELECT 1 FROM taught_rule WHERE taught_rule_id = NEW.taught_rule_id)
BEGIN
    SELECT RAISE(ABORT, 'a taught rule is new');
END;

CREATE TABLE taught_rule_withdrawal (
    taught_rule_id TEXT NOT NULL PRIMARY KEY REFERENCES taught_rule (taught_rule_id),
    withdrawn_by TEXT NOT NULL REFERENCES person (person_id),
    withdrawn_at_ms INTEGER NOT NULL
) STRICT;

CREATE TRIGGER taught_rule_withdrawal_is_never_changed BEFORE UPDATE ON taught_rule_withdrawal
BEGIN
    SELECT RAISE(ABORT, 'a withdrawal is never changed');
END;

CREATE TRIGGER taught_rule_withdrawal_is_never_removed BEFORE DELETE ON taught_rule_withdrawal
BEGIN
    SELECT RAISE(ABORT, 'a withdrawal is never removed');
END;

-- Codes that no rule could read when they were scanned, each once.
CREATE TABLE unread_code (
    scanned TEXT NOT NULL PRIMARY KEY CHECK (length(scanned) > 0),
    seen_at_ms INTEGER NOT NULL
) STRICT;

-- The entries that name a picture, by its hash as it stands in them; X'..22' is "picture":" and no text of an entry
-- can hold it, since a quotation mark in a text is escaped.
CREATE INDEX ix_entry_picture ON entry (substr(bytes, instr(bytes, X'2270696374757265223A22') + 11, 64), visit_id)
WHERE instr(bytes, X'2270696374757265223A22') > 0;

-- The entries that hold codes; X'..5B' is "scanned":[ of the same kind.
CREATE INDEX ix_entry_scanned ON entry (entry_id)
WHERE instr(bytes, X'227363616E6E6564223A5B') > 0;
