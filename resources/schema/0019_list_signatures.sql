-- What the signatures of a visit tell is part of its line in the lists, and so is everything that changes what they tell. A
-- line that could not be written beside its entry is made behind the window as well.
INSERT INTO summary_to_make(visit_id) SELECT DISTINCT visit_id FROM entry
WHERE visit_id NOT IN (SELECT visit_id FROM summary_to_make);

CREATE INDEX ix_signature_public_key ON signature (public_key);

CREATE TRIGGER entry_lets_its_summary_be_made AFTER INSERT ON entry
BEGIN
    INSERT INTO summary_to_make(visit_id) SELECT NEW.visit_id
    WHERE NEW.visit_id NOT IN (SELECT visit_id FROM summary_to_make);
END;

CREATE TRIGGER signature_lets_its_summary_be_made AFTER INSERT ON signature
BEGIN
    INSERT INTO summary_to_make(visit_id) SELECT NEW.visit_id
    WHERE NEW.visit_id NOT IN (SELECT visit_id FROM summary_to_make);
END;

CREATE TRIGGER retirement_lets_summaries_be_made AFTER INSERT ON key_retirement
BEGIN
    INSERT INTO summary_to_make(visit_id) SELECT DISTINCT visit_id FROM signature
    WHERE public_key = NEW.public_key AND visit_id NOT IN (SELECT visit_id FROM summary_to_make);
END;

CREATE TRIGGER certificate_lets_summaries_be_made AFTER INSERT ON enrolment_certificate
BEGIN
    INSERT INTO summary_to_make(visit_id) SELECT DISTINCT visit_id FROM signature
    WHERE public_key = NEW.public_key AND visit_id NOT IN (SELECT visit_id FROM summary_to_make);
END;

CREATE TRIGGER owner_lets_summaries_be_made AFTER INSERT ON signing_key
BEGIN
    INSERT INTO summary_to_make(visit_id) SELECT DISTINCT visit_id FROM signature
    WHERE public_key = NEW.public_key AND visit_id NOT IN (SELECT visit_id FROM summary_to_make);
END;

-- An office says something once it is believed, and nothing once it is not.
CREATE TRIGGER office_dropped_or_taken_up_lets_summaries_be_made AFTER UPDATE OF dropped_at_ms ON office
BEGIN
    INSERT INTO summary_to_make(visit_id) SELECT DISTINCT visit_id FROM signature
    WHERE visit_id NOT IN (SELECT visit_id FROM summary_to_make)
        AND (public_key IN (SELECT public_key FROM enrolment_certificate WHERE office_key = NEW.public_key)
             OR public_key IN (SELECT public_key FROM key_retirement WHERE office_key = NEW.public_key));
END;
