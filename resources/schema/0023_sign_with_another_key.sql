-- A signature takes no other's place: of one person, meaning and entry there may be one by each key. Whichever was kept
-- first would shut out the genuine one for good. SQLite changes no UNIQUE of a table that is there, so the table is made
-- anew. Which entry it is over asks the trigger, by its hash: a file out of which somebody took entries by hand is to be
-- opened all the same, since these signatures tell of it.

CREATE TABLE signature_before (
    signature_id INTEGER NOT NULL PRIMARY KEY,
    visit_id TEXT NOT NULL,
    seq INTEGER NOT NULL,
    head_hash BLOB NOT NULL,
    person_id TEXT NOT NULL,
    public_key BLOB NOT NULL,
    signature_bytes BLOB NOT NULL,
    meaning TEXT NOT NULL,
    signed_at_ms INTEGER NOT NULL
) STRICT;

INSERT INTO signature_before (signature_id, visit_id, seq, head_hash, person_id, public_key, signature_bytes, meaning,
                              signed_at_ms)
SELECT signature_id, visit_id, seq, head_hash, person_id, public_key, signature_bytes, meaning, signed_at_ms
FROM signature ORDER BY signature_id;

DROP TABLE signature;

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
    UNIQUE (visit_id, seq, person_id, meaning, public_key)
) STRICT;

INSERT INTO signature (signature_id, visit_id, seq, head_hash, person_id, public_key, signature_bytes, meaning,
                       signed_at_ms)
SELECT signature_id, visit_id, seq, head_hash, person_id, public_key, signature_bytes, meaning, signed_at_ms
FROM signature_before ORDER BY signature_id;

DROP TABLE signature_before;

CREATE INDEX ix_signature_public_key ON signature (public_key);

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
               AND person_id = NEW.person_id AND meaning = NEW.meaning AND public_key = NEW.public_key)
    OR NEW.head_hash IS NOT (SELECT hash FROM entry WHERE visit_id = NEW.visit_id AND seq = NEW.seq)
BEGIN
    SELECT RAISE(ABORT, 'a signature is new and stands over an entry of this chain');
END;

CREATE TRIGGER signature_lets_reviews_be_checked AFTER INSERT ON signature
WHEN EXISTS (SELECT 1 FROM review WHERE visit_id = NEW.visit_id)
BEGIN
    INSERT INTO review_to_check(visit_id) SELECT NEW.visit_id
    WHERE NEW.visit_id NOT IN (SELECT visit_id FROM review_to_check);
END;

CREATE TRIGGER signature_lets_its_summary_be_made AFTER INSERT ON signature
BEGIN
    INSERT INTO summary_to_make(visit_id) SELECT NEW.visit_id
    WHERE NEW.visit_id NOT IN (SELECT visit_id FROM summary_to_make);
END;
