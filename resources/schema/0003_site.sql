-- Sites: their screens, projectors, lamphouses, isolation points, contacts and shows.
-- site_id stands in every table, so that nothing can refer to a part of another site. position is the order in which
-- people gave the parts.

CREATE TABLE site (
    site_id TEXT NOT NULL PRIMARY KEY CHECK (length(site_id) > 0),
    name TEXT NOT NULL CHECK (length(name) > 0),
    town TEXT NOT NULL,
    may_prove_absence TEXT NOT NULL CHECK (may_prove_absence IN ('engineer', 'qualified', 'electrician')),
    local_rules TEXT NOT NULL,
    lock_notes TEXT NOT NULL
) STRICT;

CREATE TRIGGER site_is_never_removed BEFORE DELETE ON site
BEGIN
    SELECT RAISE(ABORT, 'visits name their site for good');
END;

CREATE TABLE site_contact (
    site_id TEXT NOT NULL REFERENCES site (site_id),
    position INTEGER NOT NULL CHECK (position >= 0),
    name TEXT NOT NULL CHECK (length(name) > 0),
    role TEXT NOT NULL,
    phone TEXT NOT NULL,
    PRIMARY KEY (site_id, position)
) STRICT;

CREATE TABLE screen (
    screen_id TEXT NOT NULL PRIMARY KEY CHECK (length(screen_id) > 0),
    site_id TEXT NOT NULL REFERENCES site (site_id),
    position INTEGER NOT NULL CHECK (position >= 0),
    name TEXT NOT NULL CHECK (length(name) > 0),
    weekly_h REAL CHECK (weekly_h BETWEEN 0 AND 168),
    UNIQUE (site_id, screen_id)
) STRICT;

CREATE TABLE show_start (
    screen_id TEXT NOT NULL REFERENCES screen (screen_id) ON DELETE CASCADE,
    position INTEGER NOT NULL CHECK (position >= 0),
    start_at_ms INTEGER NOT NULL,
    PRIMARY KEY (screen_id, position)
) STRICT;

CREATE TABLE projector (
    projector_id TEXT NOT NULL PRIMARY KEY CHECK (length(projector_id) > 0),
    site_id TEXT NOT NULL REFERENCES site (site_id),
    position INTEGER NOT NULL CHECK (position >= 0),
    model_id TEXT NOT NULL CHECK (length(model_id) > 0),
    screen_id TEXT NOT NULL,
    label TEXT NOT NULL,
    UNIQUE (site_id, projector_id),
    FOREIGN KEY (site_id, screen_id) REFERENCES screen (site_id, screen_id)
) STRICT;

-- fitted_lamp_id NULL: unknown.
CREATE TABLE lamphouse (
    lamphouse_id TEXT NOT NULL PRIMARY KEY CHECK (length(lamphouse_id) > 0),
    site_id TEXT NOT NULL REFERENCES site (site_id),
    position INTEGER NOT NULL CHECK (position >= 0),
    projector_id TEXT NOT NULL,
    label TEXT NOT NULL CHECK (length(label) > 0),
    fitted_lamp_id TEXT UNIQUE CHECK (length(fitted_lamp_id) > 0),
    UNIQUE (site_id, lamphouse_id),
    FOREIGN KEY (site_id, projector_id) REFERENCES projector (site_id, projector_id)
) STRICT;

CREATE TABLE isolation_point (
    point_id TEXT NOT NULL PRIMARY KEY CHECK (length(point_id) > 0),
    site_id TEXT NOT NULL REFERENCES site (site_id),
    position INTEGER NOT NULL CHECK (position >= 0),
    panel TEXT NOT NULL CHECK (length(panel) > 0),
    circuit TEXT NOT NULL CHECK (length(circuit) > 0),
    name TEXT NOT NULL CHECK (length(name) > 0),
    is_lockable INTEGER NOT NULL CHECK (is_lockable IN (0, 1)),
    UNIQUE (site_id, point_id)
) STRICT;

CREATE TABLE isolation_feed (
    site_id TEXT NOT NULL,
    point_id TEXT NOT NULL,
    position INTEGER NOT NULL CHECK (position >= 0),
    lamphouse_id TEXT NOT NULL,
    role_id TEXT NOT NULL CHECK (length(role_id) > 0),
    PRIMARY KEY (point_id, lamphouse_id),
    FOREIGN KEY (site_id, point_id) REFERENCES isolation_point (site_id, point_id),
    FOREIGN KEY (site_id, lamphouse_id) REFERENCES lamphouse (site_id, lamphouse_id)
) STRICT;
CREATE INDEX ix_isolation_feed_site_id ON isolation_feed (site_id);
