-- That a key is out of use, exactly as an office signed it. The key may be one of another workspace.

CREATE TABLE key_retirement (
    signature BLOB NOT NULL PRIMARY KEY CHECK (length(signature) = 64),
    public_key BLOB NOT NULL CHECK (length(public_key) = 32),
    office_key BLOB NOT NULL REFERENCES office (public_key),
    protected_header BLOB NOT NULL CHECK (length(protected_header) BETWEEN 1 AND 4096),
    payload BLOB NOT NULL CHECK (length(payload) BETWEEN 1 AND 65536),
    kept_at_ms INTEGER NOT NULL
) STRICT;
CREATE INDEX ix_key_retirement_public_key ON key_retirement (public_key);

CREATE TRIGGER key_retirement_is_never_changed BEFORE UPDATE ON key_retirement
BEGIN
    SELECT RAISE(ABORT, 'a retirement stays');
END;

CREATE TRIGGER key_retirement_is_never_removed BEFORE DELETE ON key_retirement
BEGIN
    SELECT RAISE(ABORT, 'a retirement stays');
END;
