#include "core/store/disk.h"

#include <QFile>
#include <QFileInfo>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <fcntl.h>
#include <unistd.h>

using namespace Qt::StringLiterals;

namespace coldarc::store {
namespace {

tl::unexpected<Error> refusal(const QString& place, int cause)
{
    return fail(cause == EEXIST ? Error::Kind::Conflict : Error::Kind::Storage,
                u"%1: %2"_s.arg(place, QString::fromLocal8Bit(std::strerror(cause))));
}

Result<void> sync(const QString& path, int flags)
{
    const int descriptor = ::open(QFile::encodeName(path).constData(), flags | O_CLOEXEC);
    if (descriptor < 0)
        return refusal(path, errno);
    const int refused = ::fsync(descriptor) == 0 ? 0 : errno;
    ::close(descriptor);
    if (refused != 0)
        return refusal(path, refused);
    return {};
}

} // namespace

Result<void> syncFile(const QString& file)
{
    return sync(file, O_RDONLY);
}

Result<void> syncFolderOf(const QString& file)
{
    return sync(QFileInfo(file).absolutePath(), O_RDONLY | O_DIRECTORY);
}

Result<void> renameToFree(const QString& from, const QString& to)
{
    if (QFileInfo::exists(to))
        return refusal(to, EEXIST);
    QFile file(from);
    if (!file.rename(to))
        return fail(Error::Kind::Storage, u"%1: %2"_s.arg(to, file.errorString()));
    return syncFolderOf(to);
}

Result<void> replaceFile(const QString& from, const QString& to)
{
    if (std::rename(QFile::encodeName(from).constData(), QFile::encodeName(to).constData()) != 0)
        return refusal(to, errno);
    return syncFolderOf(to);
}

Result<void> copyToFree(const QString& from, const QString& to)
{
    if (QFileInfo::exists(to))
        return refusal(to, EEXIST);
    QFile file(from);
    if (!file.copy(to)) {
        QFile::remove(to);
        return fail(Error::Kind::Storage, u"%1: %2"_s.arg(to, file.errorString()));
    }
    if (auto synced = syncFile(to); !synced)
        return synced;
    return syncFolderOf(to);
}

bool hasHotLog(const QString& file)
{
    return QFileInfo(file + u"-wal"_s).size() > 0;
}

QString freeName(const QString& wanted)
{
    QString name = wanted;
    for (int next = 2; QFileInfo::exists(name); ++next)
        name = u"%1-%2"_s.arg(wanted).arg(next);
    return name;
}

bool isNetworkFileSystem(const QByteArray& kind)
{
    static constexpr std::array kKinds = {"nfs", "cifs", "smb", "9p", "afs", "ceph", "fuse.sshfs", "davfs"};
    return std::ranges::any_of(kKinds, [&](const char* known) { return kind.startsWith(known); });
}

} // namespace coldarc::store
