-- Reviews of visits, exactly as they were signed: papers of their own, which add no entry to a visit.

CREATE TABLE review (
    review_id BLOB NOT NULL PRIMARY KEY CHECK (length(review_id) = 32), -- SHA-256 of the JWS in its compact form
    visit_id TEXT NOT NULL,
    seq INTEGER NOT NULL, -- the last entry that was looked at
    head_hash BLOB NOT NULL CHECK (length(head_hash) = 32),
    verdict TEXT NOT NULL CHECK (verdict IN ('accepted', 'sent-back')),
    reviewed_at_ms INTEGER NOT NULL,
    public_key BLOB NOT NULL CHECK (length(public_key) = 32),
    protected_header BLOB NOT NULL CHECK (length(protected_header) BETWEEN 1 AND 4096),
    payload BLOB NOT NULL CHECK (length(payload) BETWEEN 1 AND 262144),
    signature BLOB NOT NULL CHECK (length(signature) = 64),
    kept_at_ms INTEGER NOT NULL,
    FOREIGN KEY (visit_id, seq) REFERENCES entry (visit_id, seq)
) STRICT;

-- The order in which reviews of one visit stand, whichever came first; the last one says how it stands.
CREATE INDEX ix_review_visit_id ON review (visit_id, seq, reviewed_at_ms, review_id, verdict);

CREATE TRIGGER review_is_never_changed BEFORE UPDATE ON review
BEGIN
    SELECT RAISE(ABORT, 'a review is never changed');
END;

CREATE TRIGGER review_is_never_removed BEFORE DELETE ON review
BEGIN
    SELECT RAISE(ABORT, 'a review is never removed');
END;

CREATE TRIGGER review_is_new_and_of_this_chain BEFORE INSERT ON review
WHEN EXISTS (SELECT 1 FROM review WHERE review_id = NEW.review_id)
    OR NEW.head_hash IS NOT (SELECT hash FROM entry WHERE visit_id = NEW.visit_id AND seq = NEW.seq)
BEGIN
    SELECT RAISE(ABORT, 'a review is new and stands over an entry of this chain');
END;

-- How each visit stands, by its last review and whether anything was added since; of one that is over.
CREATE VIEW visit_stand AS
SELECT visit_summary.visit_id AS visit_id,
       coalesce((SELECT CASE WHEN review.seq >= visit_summary.head_seq THEN review.verdict
                             WHEN review.verdict = 'sent-back' THEN 'answered'
                             ELSE 'waiting' END
                 FROM review WHERE review.visit_id = visit_summary.visit_id
                 ORDER BY review.seq DESC, review.reviewed_at_ms DESC, review.review_id DESC LIMIT 1), 'waiting') AS stand
FROM visit_summary;

-- A summary is written anew with every entry and knows nothing of reviews: these keep the stand in it, so that the desk
-- filters and sorts by an index.
CREATE TRIGGER review_gives_the_stand AFTER INSERT ON review
BEGIN
    UPDATE visit_summary SET review = (SELECT stand FROM visit_stand WHERE visit_id = NEW.visit_id)
    WHERE visit_id = NEW.visit_id AND review <> '';
END;

CREATE TRIGGER new_summary_has_the_stand AFTER INSERT ON visit_summary
WHEN NEW.review NOT IN ('', (SELECT stand FROM visit_stand WHERE visit_id = NEW.visit_id))
BEGIN
    UPDATE visit_summary SET review = (SELECT stand FROM visit_stand WHERE visit_id = NEW.visit_id)
    WHERE visit_id = NEW.visit_id;
END;

CREATE TRIGGER changed_summary_has_the_stand AFTER UPDATE OF head_seq, review ON visit_summary
WHEN NEW.review NOT IN ('', (SELECT stand FROM visit_stand WHERE visit_id = NEW.visit_id))
BEGIN
    UPDATE visit_summary SET review = (SELECT stand FROM visit_stand WHERE visit_id = NEW.visit_id)
    WHERE visit_id = NEW.visit_id;
END;
