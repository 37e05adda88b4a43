-- A review is never changed. One whose row is not as it was kept says nothing: it makes room for the paper itself, whole as
-- its reviewer signed it.
DROP TRIGGER review_is_never_removed;

CREATE TRIGGER review_is_never_removed BEFORE DELETE ON review
WHEN OLD.review_id NOT IN (SELECT review_id FROM uncounted_review WHERE is_altered = 1)
BEGIN
    SELECT RAISE(ABORT, 'a review is never removed unless it was altered');
END;
