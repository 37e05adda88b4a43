#pragma once

#include <QByteArray>
#include <QString>

#include <map>
#include <memory>
#include <random>
#include <vector>

struct sqlite3_vfs;

namespace coldarc::test {

/// A disk under SQLite that counts its syncs, cuts the power, and runs full.
///
/// While one exists it is SQLite's default file layer of this process. It passes everything on to the
/// system's, and remembers what each file held at its last sync, so that a power cut can take away what came
/// after. Syncs are counted and not passed on: what the system would do then is played here, and faster.
class RoughDisk {
public:
    RoughDisk();
    RoughDisk(const RoughDisk&) = delete;
    RoughDisk& operator=(const RoughDisk&) = delete;
    ~RoughDisk();

    [[nodiscard]] long syncs() const { return m_syncs; }

    /// The power goes at the n-th write, truncation, removal or sync from now, which is not done. Then every
    /// call fails until `powerOn`.
    void cutPowerAfter(int calls) { m_callsLeft = calls; }
    void cutPower() { m_isOff = true; }
    [[nodiscard]] bool isOff() const { return m_isOff; }

    /// What is left of the writes since a file's last sync.
    enum class Unsynced {
        Gone, ///< none of them
        /// Each with an even chance, the last one perhaps torn: what a disk's own cache may have kept. Names
        /// come and go in order, as a file system with a journal keeps them.
        Some,
    };
    /// The files hold what the disk held. Pre: every connection is closed.
    void powerOn(Unsynced unsynced, std::mt19937& chance);

    /// The disk takes this many bytes more, counted over all files; writes inside a file cost nothing.
    void leaveRoomFor(qint64 bytes) { m_roomLeft = bytes; }
    void makeRoom() { m_roomLeft = kPlenty; }

private:
    static constexpr qint64 kPlenty = 1LL << 50;
    friend struct RoughFile;
    friend struct RoughCalls;

    /// One change of a file since its last sync.
    struct Change {
        enum class Kind {
            Write,
            Truncate,
            Create,
            Remove,
        };
        Kind kind;
        qint64 at = 0; ///< offset of a write, size of a truncation
        QByteArray bytes;
    };
    struct File {
        bool exists = false;
        QByteArray synced;
        std::vector<Change> unsynced;
    };

    static void apply(File& file, const Change& change);
    static bool isOfTheFolder(const Change& change);
    void sync(File& file);
    /// Names that came and went are durable; what was written into the new ones is not yet. One folder is all
    /// there is.
    void syncFolder();
    static void keepSome(File& file, std::mt19937& chance);
    File& tracked(const QString& name);
    /// Counts a call that changes something; false when the power is off, from this call on.
    bool goesThrough();

    std::unique_ptr<sqlite3_vfs> m_layer;
    sqlite3_vfs* m_system = nullptr;
    std::map<QString, File> m_files;
    long m_syncs = 0;
    int m_callsLeft = -1; ///< negative: no cut is set
    bool m_isOff = false;
    qint64 m_roomLeft = kPlenty;
};

} // namespace coldarc::test
