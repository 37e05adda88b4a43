-- Whose keys are: offices that vouch for enrolments, and what they said. An office of another workspace is known by its
-- public key alone. The workspace's own one has a seal; there is one at most.

CREATE TABLE office (
    public_key BLOB NOT NULL PRIMARY KEY CHECK (length(public_key) = 32),
    name TEXT NOT NULL CHECK (length(name) > 0),
    known_at_ms INTEGER NOT NULL,
    known_by TEXT NOT NULL REFERENCES person (person_id),
    dropped_at_ms INTEGER, -- no longer believed from here on
    salt BLOB CHECK (length(salt) = 16),
    nonce BLOB CHECK (length(nonce) = 24),
    box BLOB CHECK (length(box) = 80),
    passes INTEGER CHECK (passes >= 1),
    memory_kib INTEGER CHECK (memory_kib >= 8),
    CHECK ((salt IS NULL) = (nonce IS NULL)),
    CHECK ((salt IS NULL) = (box IS NULL)),
    CHECK ((salt IS NULL) = (passes IS NULL)),
    CHECK ((salt IS NULL) = (memory_kib IS NULL)),
    CHECK (salt IS NULL OR dropped_at_ms IS NULL)
) STRICT;
CREATE UNIQUE INDEX ix_office_own ON office ((1)) WHERE salt IS NOT NULL;

CREATE TRIGGER office_is_never_removed BEFORE DELETE ON office
BEGIN
    SELECT RAISE(ABORT, 'an office is dropped, not removed');
END;

CREATE TRIGGER office_keeps_its_key BEFORE UPDATE ON office
WHEN NEW.public_key <> OLD.public_key
BEGIN
    SELECT RAISE(ABORT, 'an office keeps its key');
END;

-- Wrong passphrases of the office in a row, as in passphrase_attempt.
CREATE TABLE office_attempt (
    public_key BLOB NOT NULL PRIMARY KEY REFERENCES office (public_key),
    wrong INTEGER NOT NULL CHECK (wrong >= 1),
    wall_at_ms INTEGER NOT NULL,
    machine TEXT NOT NULL,
    boot TEXT NOT NULL,
    since_boot_ms INTEGER NOT NULL CHECK (since_boot_ms >= 0),
    asleep_ms INTEGER NOT NULL CHECK (asleep_ms >= 0)
) STRICT;

-- Certificates of enrolment, exactly as the office signed them. The key may be one of another workspace.
CREATE TABLE enrolment_certificate (
    signature BLOB NOT NULL PRIMARY KEY CHECK (length(signature) = 64),
    public_key BLOB NOT NULL CHECK (length(public_key) = 32),
    office_key BLOB NOT NULL REFERENCES office (public_key),
    protected_header BLOB NOT NULL CHECK (length(protected_header) BETWEEN 1 AND 4096),
    payload BLOB NOT NULL CHECK (length(payload) BETWEEN 1 AND 65536),
    kept_at_ms INTEGER NOT NULL
) STRICT;
CREATE INDEX ix_enrolment_certificate_public_key ON enrolment_certificate (public_key);

CREATE TRIGGER enrolment_certificate_is_never_changed BEFORE UPDATE ON enrolment_certificate
BEGIN
    SELECT RAISE(ABORT, 'a certificate stays');
END;

CREATE TRIGGER enrolment_certificate_is_never_removed BEFORE DELETE ON enrolment_certificate
BEGIN
    SELECT RAISE(ABORT, 'a certificate stays');
END;
