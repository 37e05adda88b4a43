#include "core/record/record_file.h"

#include "core/record/record_text.h"
#include "core/record/verify.h"
#include "tests/core/record/any_record.h"
#include "tests/core/record/signed_visit.h"
#include "tests/core/record/tampers.h"
#include "tests/support/testing.h"

#include <QDirIterator>
#include <QFile>
#include <QTemporaryDir>

#include <random>
#include <set>
#include <zip.h>

namespace coldarc::record {
namespace {

using namespace Qt::StringLiterals;
using test::SignedVisit;

/// An archive with these files, made by the library that others use.
QByteArray archiveOf(const std::vector<std::pair<QByteArray, QByteArray>>& files)
{
    const QTemporaryDir folder;
    const QString path = folder.filePath(u"made.zip"_s);
    zip_t* archive = zip_open(path.toUtf8().constData(), ZIP_CREATE, nullptr);
    for (const auto& [name, bytes] : files) {
        zip_source_t* source =
            zip_source_buffer(archive, bytes.constData(), static_cast<zip_uint64_t>(bytes.size()), 0);
        zip_file_add(archive, name.constData(), source, 0);
    }
    EXPECT_EQ(zip_close(archive), 0);
    QFile made(path);
    EXPECT_TRUE(made.open(QIODevice::ReadOnly));
    return made.readAll();
}

QString refusalOf(const QByteArray& bytes)
{
    const auto read = recordFromBytes(bytes);
    return read ? QString() : read.error().detail;
}

TEST(RecordFileTest, ReadsBackWhatItWrote)
{
    const Record record = SignedVisit().record();
    const auto bytes = bytesOf(record);
    ASSERT_TRUE(bytes);
    const auto read = recordFromBytes(*bytes);

    ASSERT_TRUE(read) << read.error().detail.toStdString();
    EXPECT_EQ(read->entries, record.entries);
    EXPECT_EQ(read->pictures, record.pictures);
    EXPECT_EQ(manifestOf(*read), manifestOf(record));
    EXPECT_TRUE(verify(*read).isGood());
}

TEST(RecordFileTest, TheSameRecordMakesTheSameBytes)
{
    EXPECT_EQ(*bytesOf(SignedVisit().record()), *bytesOf(SignedVisit().record()));
}

TEST(RecordFileTest, AFolderIsCalledAFolder)
{
    const QTemporaryDir folder;

    EXPECT_EQ(readRecord(folder.path()).error().detail, u"a folder, and no file"_s);
    EXPECT_EQ(readRecord(folder.filePath(u"none.zip"_s)).error().detail, u"no such file"_s);
}

TEST(RecordFileTest, ReadsAFileThatLiesInAFolder)
{
    const QTemporaryDir folder;
    QFile file(folder.filePath(u"a visit.zip"_s));
    ASSERT_TRUE(file.open(QIODevice::WriteOnly));
    file.write(*bytesOf(SignedVisit().record()));
    file.close();

    EXPECT_TRUE(readRecord(file.fileName()));
    EXPECT_EQ(readRecord(folder.filePath(u"none.zip"_s)).error().kind, Error::Kind::NotFound);
}

TEST(RecordFileTest, RefusesWhatIsNoRecordFile)
{
    const Record record = SignedVisit().record();
    const QByteArray manifest = manifestOf(record);
    const QByteArray lines = linesOf(record.entries);

    EXPECT_TRUE(refusalOf("").contains(u"is missing"_s)); // the library takes it for an archive of nothing
    EXPECT_TRUE(refusalOf("hello").contains(u"no ZIP archive"_s));
    EXPECT_TRUE(refusalOf(archiveOf({{"record.json", manifest}})).contains(u"is missing"_s));
    for (const char* name :
         {"../record.json", "/etc/passwd", "pictures/../x", "pictures/", "readme.txt", "pictures/ABCDEF"})
        EXPECT_TRUE(refusalOf(archiveOf({{"record.json", manifest}, {"entries.jsonl", lines}, {name, "x"}}))
                        .contains(u"that no record has"_s))
            << name;
    EXPECT_TRUE(refusalOf(archiveOf({{"record.json", "{}"}, {"entries.jsonl", lines}}))
                    .startsWith(u"record.json: "_s));
    EXPECT_TRUE(refusalOf(archiveOf({{"record.json", manifest}, {"entries.jsonl", "\n"}}))
                    .startsWith(u"entries.jsonl: "_s));
}

TEST(RecordFileTest, RefusesWhatSwellsBeyondItsBounds)
{
    const Record record = SignedVisit().record();
    const QByteArray swollen(kMostPictureBytes + 1, '\0'); // some kilobytes in the archive
    const QByteArray archive = archiveOf({{"record.json", manifestOf(record)},
                                          {"entries.jsonl", linesOf(record.entries)},
                                          {"pictures/" + sha256(swollen).hex().toLatin1(), swollen}});

    ASSERT_LT(archive.size(), 100'000);
    EXPECT_TRUE(refusalOf(archive).contains(u"larger than it may be"_s));
}

TEST(RecordFileTest, RefusesAFileOfTwoGigabytesUnread)
{
    const QTemporaryDir folder;
    QFile file(folder.filePath(u"large.zip"_s));
    ASSERT_TRUE(file.open(QIODevice::WriteOnly));
    ASSERT_TRUE(file.resize(qint64{2} << 30)); // takes no room on the disk
    file.close();

    EXPECT_TRUE(readRecord(file.fileName()).error().detail.contains(u"larger than a record"_s));
}

// Refused, or read back with the very payloads and signatures.
TEST(RecordFileTest, NothingThatIsAlteredIsTakenForWhatWasSigned)
{
    const test::TamperTally tally = test::Tampering().all();

    std::printf("%lld alterations; harmless in the archive's own dates and marks, byte:",
                static_cast<long long>(tally.tried));
    for (const qsizetype offset : tally.harmlessBytes)
        std::printf(" %d", static_cast<int>(offset));
    std::printf("\n");
    EXPECT_GE(tally.tried, 10'000);
    EXPECT_EQ(tally.accepted, 0);
    EXPECT_EQ(tally.refused + tally.harmless, tally.tried);
    EXPECT_LT(tally.harmless, tally.tried / 20);
}

std::vector<QByteArray> corpus()
{
    std::vector<QByteArray> seeds;
    QDirIterator files(coldarc::test::sourceFile("tests/fuzz/record"), QDir::Files);
    while (files.hasNext()) {
        QFile file(files.next());
        EXPECT_TRUE(file.open(QIODevice::ReadOnly));
        seeds.push_back(file.readAll());
    }
    return seeds;
}

// The corpus of tests/fuzz, and each of it altered at a few places.
TEST(RecordCorpusTest, IsReadSafely)
{
    const std::vector<QByteArray> seeds = corpus();
    ASSERT_GE(seeds.size(), 6U);
    std::minstd_rand random(1);
    for (const QByteArray& seed : seeds) {
        EXPECT_TRUE(coldarc::test::readsRecordSafely(seed));
        for (int turn = 0; turn < 500; ++turn) {
            QByteArray bytes = seed;
            for (int change = 0; change < 1 + turn % 4 && bytes.size() > 1; ++change) {
                const auto at =
                    1 + static_cast<qsizetype>(random() % static_cast<unsigned>(bytes.size() - 1));
                if (turn % 3 == 0)
                    bytes.remove(at, 1 + turn % 7);
                else if (turn % 3 == 1)
                    bytes.insert(at, seed.mid(at / 2, 1 + turn % 9));
                else
                    bytes[at] = static_cast<char>(random());
            }
            EXPECT_TRUE(coldarc::test::readsRecordSafely(bytes)) << turn;
        }
    }
}

TEST(RecordCorpusTest, HoldsARecordThatIsRead)
{
    int read = 0;
    for (const QByteArray& seed : corpus())
        read += seed.startsWith('f') && recordFromBytes(seed.mid(1)) ? 1 : 0;

    EXPECT_GT(read, 0) << "else the corpus leads nowhere";
}

} // namespace
} // namespace coldarc::record
