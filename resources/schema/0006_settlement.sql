-- Closed visits of which everything that they say of lamps and counters stands in the lamps' own tables. A closed visit
-- without a row is still to be settled.

CREATE TABLE visit_settlement (
    visit_id TEXT NOT NULL PRIMARY KEY CHECK (length(visit_id) > 0),
    settled_at_ms INTEGER NOT NULL
) STRICT;

CREATE TRIGGER visit_settlement_is_never_changed BEFORE UPDATE ON visit_settlement
BEGIN
    SELECT RAISE(ABORT, 'a visit is settled once');
END;

CREATE TRIGGER visit_settlement_is_never_removed BEFORE DELETE ON visit_settlement
BEGIN
    SELECT RAISE(ABORT, 'a visit is settled once');
END;
