-- The workspace file, the logbooks of its visits, and what hangs on them.
-- A statement ends with a line that ends with a semicolon, a trigger with a line that is "END;".

-- Which workspace this is. One row, written when the file is made.
CREATE TABLE workspace (
    only_row INTEGER NOT NULL PRIMARY KEY CHECK (only_row = 1),
    workspace_id TEXT NOT NULL CHECK (length(workspace_id) > 0),
    created_at_ms INTEGER NOT NULL
) STRICT;

-- The entries of all visits, each exactly as it was written. hash = SHA-256(previous, bytes); entry_id is the order of
-- arrival.
CREATE TABLE entry (
    entry_id INTEGER NOT NULL PRIMARY KEY,
    visit_id TEXT NOT NULL CHECK (length(visit_id) > 0),
    seq INTEGER NOT NULL CHECK (seq >= 0),
    bytes BLOB NOT NULL CHECK (length(bytes) BETWEEN 1 AND 1048576),
    previous BLOB NOT NULL CHECK (length(previous) = 32 AND (seq > 0 OR previous = zeroblob(32))),
    hash BLOB NOT NULL CHECK (length(hash) = 32),
    UNIQUE (visit_id, seq)
) STRICT;

CREATE TRIGGER entry_is_never_changed BEFORE UPDATE ON entry
BEGIN
    SELECT RAISE(ABORT, 'an entry is never changed');
END;

CREATE TRIGGER entry_is_never_removed BEFORE DELETE ON entry
BEGIN
    SELECT RAISE(ABORT, 'an entry is never removed');
END;

-- Refuses a second entry with a number that is taken (and so a replacing INSERT), a gap, and a link to anything but the
-- entry before.
CREATE TRIGGER entry_follows_the_last_one BEFORE INSERT ON entry
WHEN NEW.seq <> (SELECT coalesce(max(seq), -1) + 1 FROM entry WHERE visit_id = NEW.visit_id)
    OR (NEW.seq > 0
        AND NEW.previous IS NOT (SELECT hash FROM entry WHERE visit_id = NEW.visit_id AND seq = NEW.seq - 1))
    OR EXISTS (SELECT 1 FROM entry WHERE entry_id = NEW.entry_id)
BEGIN
    SELECT RAISE(ABORT, 'an entry follows the last one of its visit');
END;

-- Signatures over the head of a visit's chain as it was at entry seq.
CREATE TABLE signature (
    signature_id INTEGER NOT NULL PRIMARY KEY,
    visit_id TEXT NOT NULL,
    seq INTEGER NOT NULL,
    head_hash BLOB NOT NULL CHECK (length(head_hash) = 32),
    person_id TEXT NOT NULL CHECK (length(person_id) > 0),
    public_key BLOB NOT NULL CHECK (length(public_key) = 32),
    signature_bytes BLOB NOT NULL CHECK (length(signature_bytes) = 64),
    meaning TEXT NOT NULL CHECK (length(meaning) > 0),
    signed_at_ms INTEGER NOT NULL,
    UNIQUE (visit_id, seq, person_id, meaning),
    FOREIGN KEY (visit_id, seq) REFERENCES entry (visit_id, seq)
) STRICT;

CREATE TRIGGER signature_is_never_changed BEFORE UPDATE ON signature
BEGIN
    SELECT RAISE(ABORT, 'a signature is never changed');
END;

CREATE TRIGGER signature_is_never_removed BEFORE DELETE ON signature
BEGIN
    SELECT RAISE(ABORT, 'a signature is never removed');
END;

CREATE TRIGGER signature_is_new_and_of_this_chain BEFORE INSERT ON signature
WHEN EXISTS (SELECT 1 FROM signature WHERE signature_id = NEW.signature_id)
    OR EXISTS (SELECT 1 FROM signature WHERE visit_id = NEW.visit_id AND seq = NEW.seq
               AND person_id = NEW.person_id AND meaning = NEW.meaning)
    OR NEW.head_hash IS NOT (SELECT hash FROM entry WHERE visit_id = NEW.visit_id AND seq = NEW.seq)
BEGIN
    SELECT RAISE(ABORT, 'a signature is new and stands over an entry of this chain');
END;

-- Pictures, each under the SHA-256 of its bytes.
CREATE TABLE picture (
    picture_id INTEGER NOT NULL PRIMARY KEY,
    hash BLOB NOT NULL UNIQUE CHECK (length(hash) = 32),
    media_type TEXT NOT NULL CHECK (length(media_type) > 0),
    bytes BLOB NOT NULL CHECK (length(bytes) BETWEEN 1 AND 33554432)
) STRICT;

CREATE TRIGGER picture_is_never_changed BEFORE UPDATE ON picture
BEGIN
    SELECT RAISE(ABORT, 'a picture is never changed');
END;

CREATE TRIGGER picture_is_never_removed BEFORE DELETE ON picture
BEGIN
    SELECT RAISE(ABORT, 'a picture is never removed');
END;

CREATE TRIGGER picture_is_new BEFORE INSERT ON picture
WHEN EXISTS (SELECT 1 FROM picture WHERE hash = NEW.hash OR picture_id = NEW.picture_id)
BEGIN
    SELECT RAISE(ABORT, 'a picture is kept once');
END;

-- What lists show of a visit. Made from its entries, may be rewritten and rebuilt at any time, proves nothing.
CREATE TABLE visit_summary (
    visit_id TEXT NOT NULL PRIMARY KEY,
    site_id TEXT NOT NULL,
    site_text TEXT NOT NULL,
    opened_at_ms INTEGER NOT NULL,
    state TEXT NOT NULL,
    swaps INTEGER NOT NULL CHECK (swaps >= 0),
    exceptions INTEGER NOT NULL CHECK (exceptions >= 0),
    engineer_text TEXT NOT NULL,
    head_seq INTEGER NOT NULL CHECK (head_seq >= 0),
    head_hash BLOB NOT NULL CHECK (length(head_hash) = 32),
    is_signed INTEGER NOT NULL CHECK (is_signed IN (0, 1))
) STRICT;

CREATE INDEX ix_visit_summary_opened_at_ms ON visit_summary (opened_at_ms);
