-- Visits that came as records from other workspaces. Their entries and signatures stand with all others; what they say
-- of lamps and sites is for the workspace that they come from.

CREATE TABLE received_visit (
    visit_id TEXT NOT NULL PRIMARY KEY CHECK (length(visit_id) > 0),
    received_at_ms INTEGER NOT NULL,
    received_by TEXT NOT NULL REFERENCES person (person_id)
) STRICT;

CREATE TRIGGER received_visit_is_never_changed BEFORE UPDATE ON received_visit
BEGIN
    SELECT RAISE(ABORT, 'where a visit comes from is never changed');
END;

CREATE TRIGGER received_visit_is_never_removed BEFORE DELETE ON received_visit
BEGIN
    SELECT RAISE(ABORT, 'where a visit comes from is never changed');
END;

-- Records that wait, the whole file as it came: they are whole, and whose their keys are nobody here knows yet, or the
-- visit has gone on in two ways. One that is taken goes from here.
CREATE TABLE waiting_record (
    sha256 BLOB NOT NULL PRIMARY KEY CHECK (length(sha256) = 32),
    visit_id TEXT NOT NULL CHECK (length(visit_id) > 0),
    why TEXT NOT NULL CHECK (length(why) > 0),
    bytes BLOB NOT NULL CHECK (length(bytes) BETWEEN 1 AND 67108864),
    received_at_ms INTEGER NOT NULL,
    received_by TEXT NOT NULL REFERENCES person (person_id)
) STRICT;

CREATE TRIGGER waiting_record_is_never_changed BEFORE UPDATE OF sha256, visit_id, bytes ON waiting_record
BEGIN
    SELECT RAISE(ABORT, 'a record waits as it came');
END;
