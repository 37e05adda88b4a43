-- The review desk's queue has every visit that is over: one that nobody signed for is looked at like any other.
DROP INDEX ix_visit_summary_weight;
DROP INDEX ix_visit_summary_review;

CREATE INDEX ix_visit_summary_weight ON visit_summary (weight DESC, opened_at_ms DESC, visit_id)
    WHERE review <> '';

CREATE INDEX ix_visit_summary_review ON visit_summary (review, weight DESC, opened_at_ms DESC, visit_id)
    WHERE review <> '';

-- Lines and reviews that an earlier program looked at know nothing of what is looked for since: each is looked at once more.
INSERT INTO summary_to_make(visit_id) SELECT DISTINCT visit_id FROM entry
WHERE visit_id NOT IN (SELECT visit_id FROM summary_to_make);

INSERT INTO review_to_check(visit_id) SELECT DISTINCT visit_id FROM review
WHERE visit_id NOT IN (SELECT visit_id FROM review_to_check);

INSERT INTO history_due(visit_id, is_unread) SELECT visit_id, 0 FROM visit_summary
WHERE visit_id NOT IN (SELECT visit_id FROM history_due);
