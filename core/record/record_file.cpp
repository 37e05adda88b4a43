#include "core/record/record_file.h"

#include "core/record/record_text.h"

#include <QFileInfo>

#include <algorithm>
#include <memory>
#include <set>
#include <zip.h>

using namespace Qt::StringLiterals;

namespace coldarc::record {
namespace {

const QString kManifest = u"record.json"_s;
const QString kEntries = u"entries.jsonl"_s;
const QString kPictures = u"pictures/"_s;
constexpr time_t kNoTime =
    315532800; // 1980-01-01, the first that the format knows: the same record, the same bytes

constexpr qsizetype kPartBytes = 1 << 16; ///< read at once

struct Discard {
    void operator()(zip_t* archive) const { zip_discard(archive); }
    void operator()(zip_file_t* file) const { zip_fclose(file); }
    void operator()(zip_source_t* source) const { zip_source_free(source); }
};
using Archive = std::unique_ptr<zip_t, Discard>;
using Source = std::unique_ptr<zip_source_t, Discard>;
using File = std::unique_ptr<zip_file_t, Discard>;

tl::unexpected<Error> malformed(const QString& what)
{
    return fail(Error::Kind::Malformed, what);
}

// ---- Writing
// ---------------------------------------------------------------------------------------------------

/// Borrows the bytes, which must live until the archive is closed.
bool add(zip_t* archive, const QString& name, const QByteArray& bytes, zip_int32_t compression)
{
    zip_source_t* source =
        zip_source_buffer(archive, bytes.constData(), static_cast<zip_uint64_t>(bytes.size()), 0);
    if (!source)
        return false;
    const zip_int64_t index = zip_file_add(archive, name.toUtf8().constData(), source, ZIP_FL_ENC_UTF_8);
    if (index < 0) {
        zip_source_free(source);
        return false;
    }
    const auto place = static_cast<zip_uint64_t>(index);
    return zip_set_file_compression(archive, place, compression, 0) == 0 &&
           zip_file_set_mtime(archive, place, kNoTime, 0) == 0;
}

/// What was written into a source that holds its bytes in memory.
Result<QByteArray> drained(zip_source_t* source)
{
    if (zip_source_open(source) != 0)
        return fail(Error::Kind::Storage, u"the archive cannot be read back"_s);
    QByteArray bytes;
    QByteArray part(kPartBytes, Qt::Uninitialized);
    zip_int64_t read = 0;
    while ((read = zip_source_read(source, part.data(), static_cast<zip_uint64_t>(part.size()))) > 0)
        bytes.append(part.constData(), read);
    zip_source_close(source);
    if (read < 0)
        return fail(Error::Kind::Storage, u"the archive cannot be read back"_s);
    return bytes;
}

// ---- Reading
// ---------------------------------------------------------------------------------------------------

qint64 mostBytesOf(const QString& name)
{
    if (name == kManifest)
        return kMostManifestBytes;
    return name == kEntries ? kMostEntriesBytes : kMostPictureBytes;
}

/// The picture's hash that a name tells; nothing for a name that no record file has.
std::optional<Hash> hashIn(const QString& name)
{
    const auto hash = name.startsWith(kPictures) ? Hash::fromHex(name.mid(kPictures.size())) : std::nullopt;
    return hash && kPictures + hash->hex() == name ? hash : std::nullopt;
}

class Reader {
public:
    explicit Reader(Archive archive)
        : m_archive(std::move(archive))
    {
    }

    Result<Record> read()
    {
        const zip_int64_t count = zip_get_num_entries(m_archive.get(), 0);
        if (count > kMostPictures + 2)
            return malformed(u"too many files inside"_s);
        for (zip_int64_t index = 0; index < count; ++index) {
            if (auto taken = take(static_cast<zip_uint64_t>(index)); !taken)
                return tl::unexpected(taken.error());
        }
        if (!m_names.contains(kManifest) || !m_names.contains(kEntries))
            return malformed(u"record.json or entries.jsonl is missing"_s);
        auto record = recordFromManifest(m_manifest);
        if (!record)
            return tl::unexpected(Error{record.error().kind, kManifest + u": "_s + record.error().detail});
        auto entries = entriesFromLines(m_lines);
        if (!entries)
            return tl::unexpected(Error{entries.error().kind, kEntries + u": "_s + entries.error().detail});
        record->entries = std::move(*entries);
        record->pictures = std::move(m_pictures);
        return record;
    }

private:
    Result<void> take(zip_uint64_t index)
    {
        zip_stat_t stat;
        if (zip_stat_index(m_archive.get(), index, 0, &stat) != 0 || !(stat.valid & ZIP_STAT_NAME) ||
            !(stat.valid & ZIP_STAT_SIZE))
            return malformed(u"file %1 inside cannot be told"_s.arg(index));
        const QString name = QString::fromUtf8(stat.name);
        const auto hash = hashIn(name);
        if (!hash && name != kManifest && name != kEntries)
            return malformed(u"a file that no record has: %1"_s.arg(name.left(80)));
        if (!m_names.insert(name).second)
            return malformed(u"%1 stands there twice"_s.arg(name));
        const qint64 most = mostBytesOf(name);
        m_total +=
            static_cast<qint64>(std::min<zip_uint64_t>(stat.size, static_cast<zip_uint64_t>(kMostFileBytes)));
        if (stat.size > static_cast<zip_uint64_t>(most) || m_total > kMostFileBytes)
            return malformed(u"%1 is larger than it may be"_s.arg(name));
        auto bytes = bytesAt(index, static_cast<qsizetype>(stat.size));
        if (!bytes)
            return malformed(u"%1 is damaged"_s.arg(name));
        if (hash)
            m_pictures.push_back({*hash, *bytes});
        else
            (name == kManifest ? m_manifest : m_lines) = *bytes;
        return {};
    }

    /// Nothing unless there are exactly as many as told; the archive's own sum is checked at the end.
    std::optional<QByteArray> bytesAt(zip_uint64_t index, qsizetype size)
    {
        const File file(zip_fopen_index(m_archive.get(), index, 0));
        if (!file)
            return std::nullopt;
        QByteArray bytes;
        QByteArray part(std::min<qsizetype>(size + 1, kPartBytes), Qt::Uninitialized);
        for (;;) {
            const zip_int64_t read =
                zip_fread(file.get(), part.data(), static_cast<zip_uint64_t>(part.size()));
            if (read < 0 || bytes.size() + read > size)
                return std::nullopt;
            if (read == 0)
                break;
            bytes.append(part.constData(), read);
        }
        return bytes.size() == size ? std::optional(bytes) : std::nullopt;
    }

    Archive m_archive;
    std::set<QString> m_names;
    QByteArray m_manifest;
    QByteArray m_lines;
    std::vector<Picture> m_pictures;
    qint64 m_total = 0;
};

} // namespace

Result<QByteArray> bytesOf(const Record& record)
{
    const auto failed = fail(Error::Kind::Storage, u"the archive cannot be made"_s);
    const Source target(zip_source_buffer_create(nullptr, 0, 0, nullptr));
    if (!target)
        return failed;
    Archive archive(zip_open_from_source(target.get(), ZIP_TRUNCATE, nullptr));
    if (!archive)
        return failed;
    zip_source_keep(target.get()); // closing the archive gives one hold on it back
    const QByteArray manifest = manifestOf(record);
    const QByteArray lines = linesOf(record.entries);
    bool isMade = add(archive.get(), kManifest, manifest, ZIP_CM_DEFLATE) &&
                  add(archive.get(), kEntries, lines, ZIP_CM_DEFLATE);
    for (const Picture& picture : record.pictures)
        isMade = isMade && add(archive.get(), kPictures + picture.hash.hex(), picture.bytes, ZIP_CM_STORE);
    if (!isMade || zip_close(archive.get()) != 0)
        return failed;
    static_cast<void>(archive.release());
    return drained(target.get());
}

Result<Record> readRecord(const QString& file)
{
    const QFileInfo info(file);
    if (!info.isFile())
        return fail(Error::Kind::NotFound, info.isDir() ? u"a folder, and no file"_s : u"no such file"_s);
    if (info.size() > kMostFileBytes)
        return malformed(u"the file is larger than a record may be"_s);
    Archive archive(zip_open(file.toLocal8Bit().constData(), ZIP_RDONLY | ZIP_CHECKCONS, nullptr));
    if (!archive)
        return malformed(u"no ZIP archive that is whole"_s);
    return Reader(std::move(archive)).read();
}

Result<Record> recordFromBytes(const QByteArray& bytes)
{
    Source source(
        zip_source_buffer_create(bytes.constData(), static_cast<zip_uint64_t>(bytes.size()), 0, nullptr));
    if (!source)
        return malformed(u"no ZIP archive that is whole"_s);
    Archive archive(zip_open_from_source(source.get(), ZIP_RDONLY | ZIP_CHECKCONS, nullptr));
    if (!archive)
        return malformed(u"no ZIP archive that is whole"_s);
    static_cast<void>(source.release()); // the archive's now
    return Reader(std::move(archive)).read();
}

} // namespace coldarc::record
