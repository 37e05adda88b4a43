#pragma once

#include "core/base/hash.h"
#include "core/base/ids.h"
#include "core/store/database.h"

#include <QByteArray>
#include <QString>

namespace coldarc::store {

/// A picture as it was kept.
struct Picture {
    QString mediaType; ///< e.g. image/jpeg
    QByteArray bytes;  ///< exactly as given, 1 byte to 32 MiB

    friend bool operator==(const Picture&, const Picture&) = default;
};

/// Pictures, each under the SHA-256 of its bytes, so that an entry which names the hash vouches for the
/// picture too. Append-only like the entries.
class Pictures {
public:
    static constexpr qsizetype kMostBytes = 32 * 1024 * 1024;

    /// Borrows the database, which must outlive this. Schema: step 0001.
    explicit Pictures(Database& database)
        : m_database(&database)
    {
    }

    /// Keeps the picture and returns its hash once it is durable. The same bytes again are kept once.
    /// Malformed if there are no bytes, more than 32 MiB, or no media type.
    Result<Hash> keep(const Picture& picture);
    /// NotFound if there is none; Malformed if its bytes no longer fit the hash.
    [[nodiscard]] Result<Picture> read(const Hash& hash) const;
    /// Every visit of which an entry names this picture under the key "picture". By an index: no logbook is
    /// read. Schema: step 0011.
    [[nodiscard]] Result<std::vector<VisitId>> visitsWith(const Hash& hash) const;
    /// In the order in which they were kept.
    [[nodiscard]] Result<std::vector<Hash>> hashes() const;

private:
    Database* m_database;
};

} // namespace coldarc::store
