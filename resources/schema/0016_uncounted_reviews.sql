-- Reviews that count for nobody as this workspace sees them now. Worked out from what is kept; rows may be thrown away
-- and made anew.
CREATE TABLE uncounted_review (
    review_id BLOB NOT NULL PRIMARY KEY CHECK (length(review_id) = 32),
    visit_id TEXT NOT NULL,
    is_altered INTEGER NOT NULL CHECK (is_altered IN (0, 1)) -- its row is not as it was kept
) STRICT;
CREATE INDEX ix_uncounted_review_visit_id ON uncounted_review (visit_id);

DROP VIEW visit_stand;

-- How each visit stands, by its last review that counts and whether anything was added since; of one that is over.
CREATE VIEW visit_stand AS
SELECT visit_summary.visit_id AS visit_id,
       coalesce((SELECT CASE WHEN review.seq >= visit_summary.head_seq THEN review.verdict
                             WHEN review.verdict = 'sent-back' THEN 'answered'
                             ELSE 'waiting' END
                 FROM review WHERE review.visit_id = visit_summary.visit_id
                     AND NOT EXISTS (SELECT 1 FROM uncounted_review
                                     WHERE uncounted_review.review_id = review.review_id)
                 ORDER BY review.seq DESC, review.reviewed_at_ms DESC, review.review_id DESC LIMIT 1), 'waiting') AS stand
FROM visit_summary;

CREATE TRIGGER uncounted_review_changes_the_stand AFTER INSERT ON uncounted_review
BEGIN
    UPDATE visit_summary SET review = (SELECT stand FROM visit_stand WHERE visit_id = NEW.visit_id)
    WHERE visit_id = NEW.visit_id AND review <> '';
END;

CREATE TRIGGER counted_review_changes_the_stand AFTER DELETE ON uncounted_review
BEGIN
    UPDATE visit_summary SET review = (SELECT stand FROM visit_stand WHERE visit_id = OLD.visit_id)
    WHERE visit_id = OLD.visit_id AND review <> '';
END;

-- Visits whose reviews are to be held anew against what came since: entries and signatures may tell of a part that a
-- reviewer had, an office may say whose a key is or that it is out of use.
CREATE TABLE review_to_check (
    visit_id TEXT NOT NULL PRIMARY KEY
) STRICT;

INSERT INTO review_to_check(visit_id) SELECT DISTINCT visit_id FROM review;

CREATE TRIGGER review_is_to_check AFTER INSERT ON review
BEGIN
    INSERT INTO review_to_check(visit_id) SELECT NEW.visit_id
    WHERE NEW.visit_id NOT IN (SELECT visit_id FROM review_to_check);
END;

CREATE TRIGGER entry_lets_reviews_be_checked AFTER INSERT ON entry
WHEN EXISTS (SELECT 1 FROM review WHERE visit_id = NEW.visit_id)
BEGIN
    INSERT INTO review_to_check(visit_id) SELECT NEW.visit_id
    WHERE NEW.visit_id NOT IN (SELECT visit_id FROM review_to_check);
END;

CREATE TRIGGER signature_lets_reviews_be_checked AFTER INSERT ON signature
WHEN EXISTS (SELECT 1 FROM review WHERE visit_id = NEW.visit_id)
BEGIN
    INSERT INTO review_to_check(visit_id) SELECT NEW.visit_id
    WHERE NEW.visit_id NOT IN (SELECT visit_id FROM review_to_check);
END;

CREATE INDEX ix_review_public_key ON review (public_key);

-- Of whoever reviewed and of whoever signed: the name of a reviewer may be theirs.
CREATE TRIGGER retirement_lets_reviews_be_checked AFTER INSERT ON key_retirement
BEGIN
    INSERT INTO review_to_check(visit_id) SELECT DISTINCT visit_id FROM review
    WHERE public_key = NEW.public_key AND visit_id NOT IN (SELECT visit_id FROM review_to_check);
    INSERT INTO review_to_check(visit_id) SELECT DISTINCT visit_id FROM review
    WHERE visit_id NOT IN (SELECT visit_id FROM review_to_check)
        AND EXISTS (SELECT 1 FROM signature
                    WHERE signature.visit_id = review.visit_id AND signature.public_key = NEW.public_key);
END;

CREATE TRIGGER certificate_lets_reviews_be_checked AFTER INSERT ON enrolment_certificate
BEGIN
    INSERT INTO review_to_check(visit_id) SELECT DISTINCT visit_id FROM review
    WHERE public_key = NEW.public_key AND visit_id NOT IN (SELECT visit_id FROM review_to_check);
    INSERT INTO review_to_check(visit_id) SELECT DISTINCT visit_id FROM review
    WHERE visit_id NOT IN (SELECT visit_id FROM review_to_check)
        AND EXISTS (SELECT 1 FROM signature
                    WHERE signature.visit_id = review.visit_id AND signature.public_key = NEW.public_key);
END;

CREATE TRIGGER owner_lets_reviews_be_checked AFTER INSERT ON signing_key
BEGIN
    INSERT INTO review_to_check(visit_id) SELECT DISTINCT visit_id FROM review
    WHERE public_key = NEW.public_key AND visit_id NOT IN (SELECT visit_id FROM review_to_check);
END;

CREATE TRIGGER office_lets_reviews_be_checked AFTER INSERT ON office
BEGIN
    INSERT INTO review_to_check(visit_id) SELECT DISTINCT visit_id FROM review
    WHERE visit_id NOT IN (SELECT visit_id FROM review_to_check);
END;

CREATE TRIGGER office_dropped_or_taken_up_lets_reviews_be_checked AFTER UPDATE OF dropped_at_ms ON office
BEGIN
    INSERT INTO review_to_check(visit_id) SELECT DISTINCT visit_id FROM review
    WHERE visit_id NOT IN (SELECT visit_id FROM review_to_check);
END;
