-- Persons, what they are authorised for, their gear, and their sealed signing keys.
-- Days and months are ISO 8601 texts: they have no time and no zone.

CREATE TABLE person (
    person_id TEXT NOT NULL PRIMARY KEY CHECK (length(person_id) > 0),
    name TEXT NOT NULL CHECK (length(name) > 0),
    role TEXT NOT NULL CHECK (role IN ('engineer', 'trainee', 'supervisor')),
    phone TEXT NOT NULL,
    email TEXT NOT NULL,
    retired_on TEXT CHECK (retired_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]')
) STRICT;

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

-- all_models = 1: for every model; 0: for those in authorisation_model.
CREATE TABLE authorisation (
    authorisation_id TEXT NOT NULL PRIMARY KEY CHECK (length(authorisation_id) > 0),
    person_id TEXT NOT NULL REFERENCES person (person_id),
    duty TEXT NOT NULL CHECK (duty IN ('lamp-swap', 'prove-absence', 'supervise')),
    all_models INTEGER NOT NULL CHECK (all_models IN (0, 1)),
    from_day TEXT NOT NULL CHECK (from_day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    until_day TEXT NOT NULL CHECK (until_day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    given_by TEXT NOT NULL REFERENCES person (person_id),
    CHECK (from_day <= until_day)
) STRICT;
CREATE INDEX ix_authorisation_person_id ON authorisation (person_id);

CREATE TABLE authorisation_model (
    authorisation_id TEXT NOT NULL REFERENCES authorisation (authorisation_id),
    model_id TEXT NOT NULL CHECK (length(model_id) > 0),
    PRIMARY KEY (authorisation_id, model_id)
) STRICT;

CREATE TABLE authorisation_withdrawal (
    authorisation_id TEXT NOT NULL PRIMARY KEY REFERENCES authorisation (authorisation_id),
    withdrawn_on TEXT NOT NULL CHECK (withdrawn_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    withdrawn_by TEXT NOT NULL REFERENCES person (person_id)
) STRICT;

CREATE TRIGGER authorisation_is_never_changed BEFORE UPDATE ON authorisation
BEGIN
    SELECT RAISE(ABORT, 'an authorisation is withdrawn, not changed');
END;

CREATE TRIGGER authorisation_is_never_removed BEFORE DELETE ON authorisation
BEGIN
    SELECT RAISE(ABORT, 'an authorisation is withdrawn, not removed');
END;

CREATE TRIGGER authorisation_model_is_never_changed BEFORE UPDATE ON authorisation_model
BEGIN
    SELECT RAISE(ABORT, 'an authorisation is withdrawn, not changed');
END;

CREATE TRIGGER authorisation_model_is_never_removed BEFORE DELETE ON authorisation_model
BEGIN
    SELECT RAISE(ABORT, 'an authorisation is withdrawn, not changed');
END;

CREATE TRIGGER withdrawal_is_never_changed BEFORE UPDATE ON authorisation_withdrawal
BEGIN
    SELECT RAISE(ABORT, 'a withdrawal stays');
END;

CREATE TRIGGER withdrawal_is_never_removed BEFORE DELETE ON authorisation_withdrawal
BEGIN
    SELECT RAISE(ABORT, 'a withdrawal stays');
END;

-- One piece of protective gear. kind_id is the catalogue's.
CREATE TABLE gear_item (
    gear_id TEXT NOT NULL PRIMARY KEY CHECK (length(gear_id) > 0),
    kind_id TEXT NOT NULL CHECK (length(kind_id) > 0),
    marking TEXT NOT NULL,
    identifier TEXT NOT NULL,
    made_month TEXT CHECK (made_month GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]'),
    expires_month TEXT CHECK (expires_month GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]'),
    assigned_person_id TEXT REFERENCES person (person_id)
) STRICT;
CREATE INDEX ix_gear_item_assigned_person_id ON gear_item (assigned_person_id);

CREATE TRIGGER gear_item_is_never_removed BEFORE DELETE ON gear_item
BEGIN
    SELECT RAISE(ABORT, 'a piece of gear is withdrawn at an inspection, not removed');
END;

-- The latest inspection is the one with the highest number.
CREATE TABLE gear_inspection (
    gear_inspection_id INTEGER NOT NULL PRIMARY KEY,
    gear_id TEXT NOT NULL REFERENCES gear_item (gear_id),
    inspected_on TEXT NOT NULL CHECK (inspected_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    inspected_by TEXT NOT NULL REFERENCES person (person_id),
    is_passed INTEGER NOT NULL CHECK (is_passed IN (0, 1))
) STRICT;
CREATE INDEX ix_gear_inspection_gear_id ON gear_inspection (gear_id);

CREATE TRIGGER gear_inspection_is_never_changed BEFORE UPDATE ON gear_inspection
BEGIN
    SELECT RAISE(ABORT, 'an inspection stays');
END;

CREATE TRIGGER gear_inspection_is_never_removed BEFORE DELETE ON gear_inspection
BEGIN
    SELECT RAISE(ABORT, 'an inspection stays');
END;

-- Signing keys. The public key stays for good, since old records are checked with it; what seals the secret one goes
-- when the key is retired. Cost: Argon2id.
CREATE TABLE signing_key (
    public_key BLOB NOT NULL PRIMARY KEY CHECK (length(public_key) = 32),
    person_id TEXT NOT NULL REFERENCES person (person_id),
    enrolled_at_ms INTEGER NOT NULL,
    retired_at_ms INTEGER,
    salt BLOB CHECK (length(salt) = 16),
    nonce BLOB CHECK (length(nonce) = 24),
    box BLOB CHECK (length(box) = 80),
    passes INTEGER NOT NULL CHECK (passes >= 1),
    memory_kib INTEGER NOT NULL CHECK (memory_kib >= 8),
    CHECK ((retired_at_ms IS NULL) = (salt IS NOT NULL)),
    CHECK ((retired_at_ms IS NULL) = (nonce IS NOT NULL)),
    CHECK ((retired_at_ms IS NULL) = (box IS NOT NULL))
) STRICT;
CREATE UNIQUE INDEX ix_signing_key_person_id_in_use ON signing_key (person_id) WHERE retired_at_ms IS NULL;

CREATE TRIGGER signing_key_is_never_removed BEFORE DELETE ON signing_key
BEGIN
    SELECT RAISE(ABORT, 'a signing key is retired, not removed');
END;

CREATE TRIGGER signing_key_keeps_its_owner BEFORE UPDATE ON signing_key
WHEN NEW.public_key <> OLD.public_key OR NEW.person_id <> OLD.person_id OR OLD.retired_at_ms IS NOT NULL
BEGIN
    SELECT RAISE(ABORT, 'a signing key keeps its owner, and stays retired');
END;

-- Wrong passphrases in a row, and when the last one was (a stamp). No row: none.
CREATE TABLE passphrase_attempt (
    public_key BLOB NOT NULL PRIMARY KEY REFERENCES signing_key (public_key),
    wrong INTEGER NOT NULL CHECK (wrong >= 1),
    wall_at_ms INTEGER NOT NULL,
    machine TEXT NOT NULL,
    boot TEXT NOT NULL,
    since_boot_ms INTEGER NOT NULL CHECK (since_boot_ms >= 0),
    asleep_ms INTEGER NOT NULL CHECK (asleep_ms >= 0)
) STRICT;
