#include "tests/core/store/rough_disk.h"

#include <QFile>

#include <sqlite3.h>

#include <algorithm>
#include <cstring>

namespace coldarc::test {

/// One open file of ours; the system's own stands behind it in the same block of memory.
struct RoughFile {
    sqlite3_file base;
    RoughDisk* disk;
    RoughDisk::File* file; ///< nothing for a temporary file without a name
    sqlite3_file* system;
};

namespace {

RoughFile* ours(sqlite3_file* file)
{
    return reinterpret_cast<RoughFile*>(file);
}

sqlite3_file* systems(sqlite3_file* file)
{
    return ours(file)->system;
}

RoughDisk* diskOf(sqlite3_vfs* layer)
{
    return static_cast<RoughDisk*>(layer->pAppData);
}

} // namespace

/// The functions that SQLite calls.
struct RoughCalls {
    static sqlite3_vfs* systemOf(sqlite3_vfs* layer) { return diskOf(layer)->m_system; }

    static int open(sqlite3_vfs* layer, const char* name, sqlite3_file* file, int flags, int* outFlags)
    {
        RoughDisk* disk = diskOf(layer);
        RoughFile* rough = ours(file);
        *rough = {};
        rough->disk = disk;
        rough->system = reinterpret_cast<sqlite3_file*>(rough + 1);
        if (disk->m_isOff)
            return SQLITE_CANTOPEN;
        const QString path = QString::fromUtf8(name);
        const bool isNew = name != nullptr && !QFile::exists(path);
        if (name != nullptr)
            rough->file = &disk->tracked(path);
        const int opened = systemOf(layer)->xOpen(systemOf(layer), name, rough->system, flags, outFlags);
        if (rough->system->pMethods == nullptr)
            return opened;
        if (opened == SQLITE_OK && isNew)
            rough->file->unsynced.push_back({RoughDisk::Change::Kind::Create, 0, {}});
        static const sqlite3_io_methods kMethods = methods();
        rough->base.pMethods = &kMethods;
        return opened;
    }

    static int remove(sqlite3_vfs* layer, const char* name, int syncFolder)
    {
        RoughDisk* disk = diskOf(layer);
        if (!disk->goesThrough())
            return SQLITE_IOERR_DELETE;
        RoughDisk::File& file = disk->tracked(QString::fromUtf8(name));
        const int removed = systemOf(layer)->xDelete(systemOf(layer), name, 0);
        if (removed == SQLITE_OK) {
            file.unsynced.push_back({RoughDisk::Change::Kind::Remove, 0, {}});
            if (syncFolder != 0)
                disk->syncFolder();
        }
        return removed;
    }

    static int close(sqlite3_file* file) { return systems(file)->pMethods->xClose(systems(file)); }

    static int read(sqlite3_file* file, void* to, int bytes, sqlite3_int64 at)
    {
        if (ours(file)->disk->m_isOff)
            return SQLITE_IOERR_READ;
        return systems(file)->pMethods->xRead(systems(file), to, bytes, at);
    }

    static int write(sqlite3_file* file, const void* from, int bytes, sqlite3_int64 at)
    {
        RoughFile* rough = ours(file);
        RoughDisk* disk = rough->disk;
        const QByteArray written(static_cast<const char*>(from), bytes);
        if (disk->m_isOff)
            return SQLITE_IOERR_WRITE;
        if (!disk->goesThrough()) { // the write that was under way may have come half through
            if (rough->file != nullptr)
                rough->file->unsynced.push_back(
                    {RoughDisk::Change::Kind::Write, at, written.left(bytes / 2)});
            return SQLITE_IOERR_WRITE;
        }
        sqlite3_int64 size = 0;
        systems(file)->pMethods->xFileSize(systems(file), &size);
        const qint64 growth = std::max<qint64>(0, at + bytes - size);
        if (growth > disk->m_roomLeft)
            return SQLITE_FULL;
        disk->m_roomLeft -= growth;
        const int done = systems(file)->pMethods->xWrite(systems(file), from, bytes, at);
        if (done == SQLITE_OK && rough->file != nullptr)
            rough->file->unsynced.push_back({RoughDisk::Change::Kind::Write, at, written});
        return done;
    }

    static int truncate(sqlite3_file* file, sqlite3_int64 size)
    {
        RoughFile* rough = ours(file);
        if (!rough->disk->goesThrough())
            return SQLITE_IOERR_TRUNCATE;
        const int done = systems(file)->pMethods->xTruncate(systems(file), size);
        if (done == SQLITE_OK && rough->file != nullptr)
            rough->file->unsynced.push_back({RoughDisk::Change::Kind::Truncate, size, {}});
        return done;
    }

    static int sync(sqlite3_file* file, int)
    {
        RoughFile* rough = ours(file);
        if (!rough->disk->goesThrough())
            return SQLITE_IOERR_FSYNC;
        ++rough->disk->m_syncs;
        if (rough->file != nullptr)
            rough->disk->sync(*rough->file);
        return SQLITE_OK;
    }

    static int fileSize(sqlite3_file* file, sqlite3_int64* size)
    {
        return systems(file)->pMethods->xFileSize(systems(file), size);
    }
    static int lock(sqlite3_file* file, int level)
    {
        return systems(file)->pMethods->xLock(systems(file), level);
    }
    static int unlock(sqlite3_file* file, int level)
    {
        return systems(file)->pMethods->xUnlock(systems(file), level);
    }
    static int checkLock(sqlite3_file* file, int* isHeld)
    {
        return systems(file)->pMethods->xCheckReservedLock(systems(file), isHeld);
    }
    static int control(sqlite3_file* file, int what, void* argument)
    {
        return systems(file)->pMethods->xFileControl(systems(file), what, argument);
    }
    static int sectorSize(sqlite3_file* file) { return systems(file)->pMethods->xSectorSize(systems(file)); }
    static int traits(sqlite3_file* file)
    {
        return systems(file)->pMethods->xDeviceCharacteristics(systems(file));
    }
    static int shmMap(sqlite3_file* file, int region, int size, int extend, void volatile** memory)
    {
        return systems(file)->pMethods->xShmMap(systems(file), region, size, extend, memory);
    }
    static int shmLock(sqlite3_file* file, int offset, int count, int flags)
    {
        return systems(file)->pMethods->xShmLock(systems(file), offset, count, flags);
    }
    static void shmBarrier(sqlite3_file* file) { systems(file)->pMethods->xShmBarrier(systems(file)); }
    static int shmUnmap(sqlite3_file* file, int remove)
    {
        return systems(file)->pMethods->xShmUnmap(systems(file), remove);
    }

    /// Version 2: with shared memory for the write-ahead log, without memory-mapped files.
    static sqlite3_io_methods methods()
    {
        sqlite3_io_methods methods{};
        methods.iVersion = 2;
        methods.xClose = close;
        methods.xRead = read;
        methods.xWrite = write;
        methods.xTruncate = truncate;
        methods.xSync = sync;
        methods.xFileSize = fileSize;
        methods.xLock = lock;
        methods.xUnlock = unlock;
        methods.xCheckReservedLock = checkLock;
        methods.xFileControl = control;
        methods.xSectorSize = sectorSize;
        methods.xDeviceCharacteristics = traits;
        methods.xShmMap = shmMap;
        methods.xShmLock = shmLock;
        methods.xShmBarrier = shmBarrier;
        methods.xShmUnmap = shmUnmap;
        return methods;
    }

    static int access(sqlite3_vfs* layer, const char* name, int flags, int* answer)
    {
        return systemOf(layer)->xAccess(systemOf(layer), name, flags, answer);
    }
    static int fullPath(sqlite3_vfs* layer, const char* name, int size, char* path)
    {
        return systemOf(layer)->xFullPathname(systemOf(layer), name, size, path);
    }
};

RoughDisk::RoughDisk()
    : m_layer(std::make_unique<sqlite3_vfs>())
    , m_system(sqlite3_vfs_find(nullptr))
{
    *m_layer = *m_system; // what is not replaced below (randomness, time, sleeping) takes no file
    m_layer->szOsFile = static_cast<int>(sizeof(RoughFile)) + m_system->szOsFile;
    m_layer->zName = "rough-disk";
    m_layer->pAppData = this;
    m_layer->pNext = nullptr;
    m_layer->xOpen = RoughCalls::open;
    m_layer->xDelete = RoughCalls::remove;
    m_layer->xAccess = RoughCalls::access;
    m_layer->xFullPathname = RoughCalls::fullPath;
    sqlite3_vfs_register(m_layer.get(), 1);
}

RoughDisk::~RoughDisk()
{
    sqlite3_vfs_unregister(m_layer.get());
    sqlite3_vfs_register(m_system, 1);
}

bool RoughDisk::goesThrough()
{
    if (m_callsLeft > 0 && --m_callsLeft == 0) {
        m_callsLeft = -1;
        m_isOff = true;
    }
    return !m_isOff;
}

RoughDisk::File& RoughDisk::tracked(const QString& name)
{
    const auto [found, isFirst] = m_files.try_emplace(name);
    if (isFirst) {
        QFile file(name);
        found->second.exists = file.open(QIODevice::ReadOnly);
        if (found->second.exists)
            found->second.synced = file.readAll();
    }
    return found->second;
}

void RoughDisk::apply(File& file, const Change& change)
{
    switch (change.kind) {
    case Change::Kind::Create:
        file.exists = true;
        file.synced.clear();
        return;
    case Change::Kind::Remove:
        file.exists = false;
        file.synced.clear();
        return;
    case Change::Kind::Truncate:
        file.synced.resize(change.at, '\0');
        return;
    case Change::Kind::Write:
        if (file.synced.size() < change.at + change.bytes.size())
            file.synced.append(QByteArray(change.at + change.bytes.size() - file.synced.size(), '\0'));
        std::copy(change.bytes.begin(), change.bytes.end(), file.synced.begin() + change.at);
        return;
    }
}

bool RoughDisk::isOfTheFolder(const Change& change)
{
    return change.kind == Change::Kind::Create || change.kind == Change::Kind::Remove;
}

void RoughDisk::sync(File& file)
{
    // SQLite's layer syncs the folder with the first sync of a log or journal that it has created.
    if (std::ranges::any_of(file.unsynced, isOfTheFolder))
        syncFolder();
    for (const Change& change : file.unsynced)
        apply(file, change);
    file.unsynced.clear();
}

void RoughDisk::syncFolder()
{
    for (auto& [name, file] : m_files) {
        const auto last = std::find_if(file.unsynced.rbegin(), file.unsynced.rend(), isOfTheFolder);
        if (last == file.unsynced.rend())
            continue;
        apply(file, *last);
        file.unsynced.erase(file.unsynced.begin(), last.base());
    }
}

void RoughDisk::keepSome(File& file, std::mt19937& chance)
{
    for (const Change& change : file.unsynced) {
        const bool isKept = chance() % 2 == 0;
        if (!isKept && isOfTheFolder(change))
            return; // what came after went to another file of that name
        if (isKept)
            apply(file, change);
    }
}

void RoughDisk::powerOn(Unsynced unsynced, std::mt19937& chance)
{
    for (auto& [name, file] : m_files) {
        if (unsynced == Unsynced::Some)
            keepSome(file, chance);
        QFile::remove(name);
        QFile::remove(name + QStringLiteral("-shm"));
        if (file.exists) {
            QFile onDisk(name);
            const bool opened = onDisk.open(QIODevice::WriteOnly);
            Q_ASSERT(opened);
            onDisk.write(file.synced);
        }
    }
    m_files.clear();
    m_callsLeft = -1;
    m_isOff = false;
}

} // namespace coldarc::test
