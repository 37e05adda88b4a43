#pragma once

#include "tests/ui/visit/visit_at_work.h"
#include "ui/visit/lamp_records.h"
#include "ui/visit/picture_shelf.h"

#include <QMap>

namespace coldarc::test {

/// What a workspace would know, said by the test. All of it is invented.
class ToldRecords final : public ui::LampRecords {
public:
    [[nodiscard]] Result<QList<label::KnownLamp>> lamps() const override
    {
        if (areUnread)
            return fail(Error::Kind::Storage, QStringLiteral("damaged"));
        return known;
    }
    [[nodiscard]] Result<QList<label::KnownPicture>> pictures(const QList<Hash>& wanted) const override
    {
        QList<label::KnownPicture> found;
        for (const label::KnownPicture& one : shown) {
            if (wanted.contains(one.picture))
                found.append(one);
        }
        return found;
    }

    void couldNotRead(const QString& scanned) const override { unread.append(scanned); }

    mutable QStringList unread;
    QList<label::KnownLamp> known;
    QList<label::KnownPicture> shown;
    bool areUnread = false;
};

/// Keeps pictures, or refuses to.
class PictureDrawer final : public ui::PictureShelf {
public:
    [[nodiscard]] qsizetype mostBytes() const override { return 1'000'000; }
    [[nodiscard]] Result<Hash> keep(const QString& mediaType, const QByteArray& bytes) override
    {
        if (refuses)
            return fail(Error::Kind::Storage, QStringLiteral("full"));
        EXPECT_EQ(mediaType, QStringLiteral("image/jpeg"));
        kept.insert(sha256(bytes).hex(), bytes);
        return sha256(bytes);
    }
    [[nodiscard]] Result<QByteArray> read(const Hash& hash) const override
    {
        if (!kept.contains(hash.hex()))
            return fail(Error::Kind::NotFound, {});
        return kept.value(hash.hex());
    }

    QMap<QString, QByteArray> kept;
    bool refuses = false;
};

} // namespace coldarc::test
