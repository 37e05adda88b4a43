-- Visits that are planned and not opened yet. A plan is a wish and may be rewritten or dropped; what is decided stands in
-- the logbook. visit_id is the id that the visit has once it is opened, so a plan is opened once at most.

CREATE TABLE planned_visit (
    visit_id TEXT NOT NULL PRIMARY KEY CHECK (length(visit_id) > 0),
    site_id TEXT NOT NULL REFERENCES site (site_id),
    planned_on TEXT NOT NULL CHECK (planned_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    reason TEXT NOT NULL
) STRICT;
CREATE INDEX ix_planned_visit_site_id ON planned_visit (site_id);

-- new_lamp_id NULL: no lamp is put aside yet. position is the order in which people gave the swaps.
CREATE TABLE planned_swap (
    visit_id TEXT NOT NULL REFERENCES planned_visit (visit_id) ON DELETE CASCADE,
    position INTEGER NOT NULL CHECK (position >= 0),
    lamphouse_id TEXT NOT NULL CHECK (length(lamphouse_id) > 0),
    new_lamp_id TEXT REFERENCES lamp (lamp_id),
    PRIMARY KEY (visit_id, position),
    UNIQUE (visit_id, lamphouse_id)
) STRICT;
CREATE UNIQUE INDEX ix_planned_swap_new_lamp_id ON planned_swap (new_lamp_id) WHERE new_lamp_id IS NOT NULL;
