-- What closed visits left to later ones, and what later ones did of it. Both are facts: neither is changed when a
-- step is done or its lamp comes out. Owed is what has no later row in owed_step_done and whose lamp has stayed in
-- its seat since. A lamp may be one that the workspace does not know yet.

CREATE TABLE owed_step (
    visit_id TEXT NOT NULL CHECK (length(visit_id) > 0),
    swap_id TEXT NOT NULL CHECK (length(swap_id) > 0),
    step_id TEXT NOT NULL CHECK (length(step_id) > 0),
    position INTEGER NOT NULL CHECK (position >= 0), -- among what the visit left
    title TEXT NOT NULL,
    site_id TEXT NOT NULL CHECK (length(site_id) > 0),
    lamphouse_id TEXT NOT NULL CHECK (length(lamphouse_id) > 0),
    lamp_id TEXT NOT NULL CHECK (length(lamp_id) > 0),
    person_id TEXT NOT NULL CHECK (length(person_id) > 0),
    owed_at_ms INTEGER NOT NULL,
    PRIMARY KEY (visit_id, swap_id, step_id)
) STRICT;

CREATE TRIGGER owed_step_is_never_changed BEFORE UPDATE ON owed_step
BEGIN
    SELECT RAISE(ABORT, 'what was owed is never changed');
END;

CREATE TRIGGER owed_step_is_never_removed BEFORE DELETE ON owed_step
BEGIN
    SELECT RAISE(ABORT, 'what was owed is never removed');
END;

CREATE TABLE owed_step_done (
    visit_id TEXT NOT NULL CHECK (length(visit_id) > 0), -- that did it
    swap_id TEXT NOT NULL CHECK (length(swap_id) > 0),
    step_id TEXT NOT NULL CHECK (length(step_id) > 0),
    lamphouse_id TEXT NOT NULL CHECK (length(lamphouse_id) > 0),
    lamp_id TEXT NOT NULL CHECK (length(lamp_id) > 0),
    done_at_ms INTEGER NOT NULL,
    PRIMARY KEY (visit_id, swap_id, step_id)
) STRICT;
CREATE INDEX ix_owed_step_done_lamphouse_id_lamp_id ON owed_step_done (lamphouse_id, lamp_id);

CREATE TRIGGER owed_step_done_is_never_changed BEFORE UPDATE ON owed_step_done
BEGIN
    SELECT RAISE(ABORT, 'what was done is never changed');
END;

CREATE TRIGGER owed_step_done_is_never_removed BEFORE DELETE ON owed_step_done
BEGIN
    SELECT RAISE(ABORT, 'what was done is never removed');
END;

-- Closed visits of which both tables know. One that was settled before there were these tables is told again.
CREATE TABLE visit_owing (
    visit_id TEXT NOT NULL PRIMARY KEY CHECK (length(visit_id) > 0),
    told_at_ms INTEGER NOT NULL
) STRICT;
