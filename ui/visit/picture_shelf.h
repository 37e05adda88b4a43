#pragma once

#include "core/base/hash.h"
#include "core/base/result.h"

#include <QByteArray>
#include <QString>

namespace coldarc::ui {

/// Where pictures are kept. The program's root brings the real one.
class PictureShelf {
public:
    virtual ~PictureShelf() = default;
    [[nodiscard]] virtual qsizetype mostBytes() const = 0;
    /// The hash once it is durable.
    [[nodiscard]] virtual Result<Hash> keep(const QString& mediaType, const QByteArray& bytes) = 0;
    /// The bytes as they were given. NotFound if there is none.
    [[nodiscard]] virtual Result<QByteArray> read(const Hash& hash) const = 0;
};

} // namespace coldarc::ui
