-- What the review desk sorts and filters by, made from the entries like the rest of a summary. Summaries that were
-- written before are made anew from the logbooks; until then they wait with nothing out of the ordinary.

-- How much what is out of the ordinary weighs, 0 to 100, and of which kinds it is: words, each with a space on both sides.
ALTER TABLE visit_summary ADD COLUMN weight INTEGER NOT NULL DEFAULT 0 CHECK (weight BETWEEN 0 AND 100);
ALTER TABLE visit_summary ADD COLUMN kinds TEXT NOT NULL DEFAULT '';

-- How it stands with a review: 'waiting', 'accepted', 'sent-back', 'answered'; empty while the visit is open.
ALTER TABLE visit_summary ADD COLUMN review TEXT NOT NULL DEFAULT ''
    CHECK (review IN ('', 'waiting', 'accepted', 'sent-back', 'answered'));

UPDATE visit_summary SET review = 'waiting' WHERE state NOT IN ('open', 'making-safe');

CREATE INDEX ix_visit_summary_weight ON visit_summary (weight DESC, opened_at_ms DESC, visit_id)
    WHERE is_signed = 1 AND review <> '';

CREATE INDEX ix_visit_summary_review ON visit_summary (review, weight DESC, opened_at_ms DESC, visit_id)
    WHERE is_signed = 1;

CREATE INDEX ix_visit_summary_site_id ON visit_summary (site_id);
