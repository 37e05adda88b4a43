#pragma once

#include "core/base/result.h"

#include <QByteArray>

#include <functional>

class QIODevice;

namespace coldarc::app {

/// Writes a file that is there whole or not at all. Error::Storage, also where `content` says that it could
/// not write.
[[nodiscard]] Result<void> saveFile(const QString& file, const std::function<bool(QIODevice&)>& content);
[[nodiscard]] Result<void> saveFile(const QString& file, const QByteArray& bytes);

} // namespace coldarc::app
