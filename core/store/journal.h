#pragma once

#include "core/base/clock.h"
#include "core/base/hash.h"
#include "core/base/ids.h"
#include "core/store/database.h"
#include "core/store/sequence.h"

#include <QByteArray>

#include <optional>
#include <vector>

namespace coldarc::store {

/// One entry as it was written.
struct Entry {
    Sequence seq{0};
    QByteArray bytes; ///< exact UTF-8 JSON, 1 byte to 1 MiB
    Hash hash;        ///< chained over the entry before (all zero before the first) and these bytes

    friend bool operator==(const Entry&, const Entry&) = default;
};

/// Where a visit's chain stands.
struct Head {
    VisitId visit;
    Sequence seq{0};
    Hash hash;

    friend bool operator==(const Head&, const Head&) = default;
};

/// A visit's entries up to the first that does not fit.
struct Chain {
    std::vector<Entry> good;    ///< in order, each checked
    std::optional<Error> fault; ///< Malformed, naming the first bad entry; nothing when the chain is whole
};

/// A person's signature over the head of a visit as it stood at entry `seq`. Kept, not judged: `core/people`
/// makes and verifies signatures.
struct Signature {
    VisitId visit;
    Sequence seq{0};
    Hash head; ///< the hash of entry `seq`
    PersonId person;
    QByteArray publicKey; ///< 32 bytes
    QByteArray bytes;     ///< 64 bytes
    QString meaning;      ///< the caller's word for why it was signed; one per person, entry and meaning
    WallTime at;

    friend bool operator==(const Signature&, const Signature&) = default;
};

/// The append-only entries of one workspace, one hash chain per visit, and the signatures over them.
///
/// Every call is one transaction. Nothing is ever changed or removed: a correction is a new entry. Triggers
/// in the file refuse UPDATE, DELETE and replacing INSERT; whoever drops them breaks the chain all the same,
/// which is what is seen.
class Journal {
public:
    static constexpr qsizetype kMostBytes = 1024 * 1024;

    /// Borrows the database, which must outlive the journal. Schema: steps 0001 and 0021.
    explicit Journal(Database& database)
        : m_database(&database)
    {
    }

    /// Adds one entry and returns its hash once it is durable: one sync of the log (WAL, synchronous=FULL).
    /// Inside `Database::transaction` it is durable when the transaction has returned.
    ///
    /// @param expected  the number that the caller decided on, 0 for the first entry of a visit.
    /// @param bytes     exact UTF-8 JSON, hashed and kept as they are, not parsed: only looked through for a
    ///                  picture or codes that they name, by which the entry is found again.
    /// Conflict if the visit has moved on, or has not come so far: read, decide again.
    /// Malformed if there are no bytes or more than 1 MiB. Storage if the disk refused; nothing was written.
    Result<Hash> append(const VisitId& visit, Sequence expected, const QByteArray& bytes);

    /// Entries of one visit in order, each checked against the chain as it is read; none for an unknown
    /// visit. Malformed names the first entry that does not fit (`chain` gives those before it).
    [[nodiscard]] Result<std::vector<Entry>> entries(const VisitId& visit) const;
    /// The same, with the good entries before the first bad one.
    [[nodiscard]] Result<Chain> chain(const VisitId& visit) const;

    /// The last entry's number and hash as they are written, not checked. NotFound for an unknown visit.
    [[nodiscard]] Result<Head> head(const VisitId& visit) const;
    /// Every visit's, in the order in which their first entries arrived.
    [[nodiscard]] Result<std::vector<Head>> heads() const;

    /// Keeps a signature. Conflict if there is no such entry with that hash, or this key has signed it for
    /// that person with this meaning; another key's takes nobody's place. Malformed if a key or signature has
    /// the wrong length.
    Result<void> keep(const Signature& signature);
    /// In the order in which they were kept.
    [[nodiscard]] Result<std::vector<Signature>> signatures(const VisitId& visit) const;

private:
    [[nodiscard]] Result<Hash> hashBefore(const VisitId& visit, Sequence seq) const;
    Result<Hash> follow(const VisitId& visit, Sequence expected, const QByteArray& bytes);
    Result<Hash> insert(const VisitId& visit, Sequence seq, const QByteArray& bytes, const Hash& previous);
    Result<void> noteDown(const QString& sql, const VisitId& visit, Sequence seq, Bindings more = {});

    Database* m_database;
    /// The entry appended last: its successor needs no look-up. May be out of date (a transaction undone),
    /// which the table's guard refuses.
    std::optional<Head> m_last;
};

} // namespace coldarc::store
