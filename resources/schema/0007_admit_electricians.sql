-- A person can be an electrician, who proves absence of voltage and does nothing else on a lamphouse.
-- SQLite changes no CHECK of a table that is there, so the table is made anew. What refers to a person is checked
-- when the step is over: a row that were lost on the way would undo the whole step.

PRAGMA defer_foreign_keys = ON;

CREATE TABLE person_before (
    person_id TEXT NOT NULL PRIMARY KEY,
    name TEXT NOT NULL,
    role TEXT NOT NULL,
    phone TEXT NOT NULL,
    email TEXT NOT NULL,
    retired_on TEXT
) STRICT;

INSERT INTO person_before (person_id, name, role, phone, email, retired_on)
SELECT person_id, name, role, phone, email, retired_on FROM person ORDER BY rowid;

DROP TABLE person;

CREATE TABLE person (
    person_id TEXT NOT NULL PRIMARY KEY CHECK (length(person_id) > 0),
    name TEXT NOT NULL CHECK (length(name) > 0),
    role TEXT NOT NULL CHECK (role IN ('engineer', 'trainee', 'supervisor', 'electrician')),
    phone TEXT NOT NULL,
    email TEXT NOT NULL,
    retired_on TEXT CHECK (retired_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]')
) STRICT;

INSERT INTO person (person_id, name, role, phone, email, retired_on)
SELECT person_id, name, role, phone, email, retired_on FROM person_before ORDER BY rowid;

DROP TABLE person_before;

-- An id is never free again, so it is never given to another person.
CREATE TRIGGER person_is_never_removed BEFORE DELETE ON person
BEGIN
    SELECT RAISE(ABORT, 'a person is retired, not removed');
END;

CREATE TRIGGER person_keeps_the_id BEFORE UPDATE ON person
WHEN NEW.person_id <> OLD.person_id OR OLD.retired_on IS NOT NULL
BEGIN
    SELECT RAISE(ABORT, 'a person keeps the id, and stays as they were when retired');
END;
