-- An entry marks its visit once, by one look behind each: a press does not pay for a mark that is there.
DROP TRIGGER entry_lets_reviews_be_checked;
DROP TRIGGER entry_lets_its_summary_be_made;

CREATE TRIGGER entry_marks_its_visit AFTER INSERT ON entry
WHEN NOT EXISTS (SELECT 1 FROM summary_to_make WHERE visit_id = NEW.visit_id)
    OR EXISTS (SELECT 1 FROM review WHERE visit_id = NEW.visit_id)
BEGIN
    INSERT INTO summary_to_make(visit_id) SELECT NEW.visit_id
    WHERE NEW.visit_id NOT IN (SELECT visit_id FROM summary_to_make);
    INSERT INTO review_to_check(visit_id) SELECT NEW.visit_id
    WHERE EXISTS (SELECT 1 FROM review WHERE visit_id = NEW.visit_id)
        AND NEW.visit_id NOT IN (SELECT visit_id FROM review_to_check);
END;
