-- Summaries that an earlier program wrote may lack what lists show today, as the screens of a visit: each is made anew from
-- its logbook, some at a time.
CREATE TABLE summary_to_make (
    visit_id TEXT NOT NULL PRIMARY KEY
) STRICT;

INSERT INTO summary_to_make(visit_id) SELECT visit_id FROM visit_summary;

-- How many things are out of the ordinary is asked by nobody: the weight and the kinds say more.
ALTER TABLE visit_summary DROP COLUMN exceptions;
