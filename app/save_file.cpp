#include "app/save_file.h"

#include <QSaveFile>

namespace coldarc::app {

using namespace Qt::StringLiterals;

Result<void> saveFile(const QString& file, const std::function<bool(QIODevice&)>& content)
{
    QSaveFile out(file);
    if (!out.open(QIODevice::WriteOnly) || !content(out) || !out.commit())
        return fail(Error::Kind::Storage, u"%1: %2"_s.arg(file, out.errorString()));
    return {};
}

Result<void> saveFile(const QString& file, const QByteArray& bytes)
{
    return saveFile(file, [&](QIODevice& out) { return out.write(bytes) == bytes.size(); });
}

} // namespace coldarc::app
