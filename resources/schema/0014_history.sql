-- What the logbooks tell of each lamp, lamphouse and person over many visits. Made from the entries like a summary, may
-- be thrown away and made anew, proves nothing.

-- detail: what else the line says, as JSON.
CREATE TABLE history_line (
    visit_id TEXT NOT NULL CHECK (length(visit_id) > 0),
    position INTEGER NOT NULL CHECK (position >= 0), -- among the lines of its visit
    entry_seq INTEGER NOT NULL CHECK (entry_seq >= 0),
    at_ms INTEGER NOT NULL,
    kind TEXT NOT NULL CHECK (length(kind) > 0),
    lamp_id TEXT CHECK (length(lamp_id) > 0),
    lamphouse_id TEXT CHECK (length(lamphouse_id) > 0),
    person_id TEXT CHECK (length(person_id) > 0),
    detail TEXT NOT NULL,
    PRIMARY KEY (visit_id, position)
) STRICT;
CREATE INDEX ix_history_line_lamp_id ON history_line (lamp_id, at_ms DESC, entry_seq DESC) WHERE lamp_id IS NOT NULL;
CREATE INDEX ix_history_line_lamphouse_id ON history_line (lamphouse_id, at_ms DESC, entry_seq DESC)
    WHERE lamphouse_id IS NOT NULL;
CREATE INDEX ix_history_line_person_id ON history_line (person_id, at_ms DESC, entry_seq DESC)
    WHERE person_id IS NOT NULL;

-- What lines name, as the newest visit has it. searched: everything that somebody may look for it by, in small letters.
-- twin_key: a type and a serial, by which two lamps of two workspaces are one; empty: no serial is known.
CREATE TABLE history_subject (
    about TEXT NOT NULL CHECK (about IN ('lamp', 'lamphouse', 'person')),
    subject_id TEXT NOT NULL CHECK (length(subject_id) > 0),
    name TEXT NOT NULL,
    more TEXT NOT NULL,
    type_id TEXT NOT NULL,
    twin_key TEXT NOT NULL,
    searched TEXT NOT NULL,
    seen_at_ms INTEGER NOT NULL,
    PRIMARY KEY (about, subject_id)
) STRICT;
CREATE INDEX ix_history_subject_seen_at_ms ON history_subject (about, seen_at_ms DESC);
CREATE INDEX ix_history_subject_twin_key ON history_subject (twin_key) WHERE twin_key <> '';

-- Visits whose lines are to be made, since their summary is new, or was made anew. is_unread: it was tried, and the
-- logbook cannot be read.
CREATE TABLE history_due (
    visit_id TEXT NOT NULL PRIMARY KEY CHECK (length(visit_id) > 0),
    is_unread INTEGER NOT NULL CHECK (is_unread IN (0, 1))
) STRICT;

INSERT INTO history_due (visit_id, is_unread) SELECT visit_id, 0 FROM visit_summary;

CREATE INDEX ix_history_due_is_unread ON history_due (is_unread);

CREATE TRIGGER history_is_due_of_a_new_summary AFTER INSERT ON visit_summary
BEGIN
    DELETE FROM history_due WHERE visit_id = NEW.visit_id;
    INSERT INTO history_due (visit_id, is_unread) VALUES (NEW.visit_id, 0);
END;

CREATE TRIGGER history_is_due_of_a_longer_logbook AFTER UPDATE OF head_hash ON visit_summary
WHEN NEW.head_hash IS NOT OLD.head_hash
BEGIN
    DELETE FROM history_due WHERE visit_id = NEW.visit_id;
    INSERT INTO history_due (visit_id, is_unread) VALUES (NEW.visit_id, 0);
END;
