#include "app/report_command.h"

#include "app/head_code.h"
#include "app/record_verify.h"
#include "app/report_out.h"
#include "core/record/record_file.h"
#include "tests/app/signed_night.h"
#include "tests/support/pdf_tools.h"
#include "tests/support/test_key.h"
#include "tests/ui/report/report_night.h"

#include <QBuffer>
#include <QImage>
#include <QPainter>
#include <QTemporaryDir>

namespace coldarc::app {
namespace {

using namespace Qt::StringLiterals;
using coldarc::test::keyOf;
using coldarc::test::Night;

QByteArray pictureOfALabel()
{
    QImage image(640, 480, QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.fillRect(100, 200, 400, 60, Qt::black);
    painter.end();
    QBuffer bytes;
    EXPECT_TRUE(bytes.open(QIODevice::WriteOnly) && image.save(&bytes, "PNG"));
    return bytes.data();
}

class ReportCommandTest : public ::testing::Test {
protected:
    QString write(const QByteArray& bytes, const QString& name) const
    {
        QFile file(folder.filePath(name));
        EXPECT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(bytes);
        return file.fileName();
    }
    static QByteArray read(const QString& name)
    {
        QFile file(name);
        EXPECT_TRUE(file.open(QIODevice::ReadOnly));
        return file.readAll();
    }
    QTemporaryDir folder;
};

TEST_F(ReportCommandTest, MakesAReportOfARecordAloneWithTheRecordInsideItAndThatVerifies)
{
    Night night;
    const QByteArray picture = pictureOfALabel();
    ASSERT_TRUE(night.tell(visit::PictureKept{night.swap().id, {}, u"box"_s, sha256(picture)}));
    night.doAll();
    night.close();
    const QByteArray record = test::signedRecordOf(night, {picture});
    const QString file = write(record, u"visit.zip"_s);
    const QString pdf = folder.filePath(u"visit.pdf"_s);

    ASSERT_EQ(reportCommand({file, u"-o"_s, pdf, u"--paper"_s, u"letter"_s}), 0);

    QTemporaryDir out;
    const QByteArray detached = test::detachedFrom(pdf, out.path());
    EXPECT_EQ(detached, record);
    EXPECT_EQ(verifyReport(checkRecords({out.filePath(u"signed-record.zip"_s)}), false).status, 0);
    const QString text = test::pagesOf(pdf).join(u'\n');
    EXPECT_TRUE(text.contains(u"did and led the work"_s));
    const auto read = record::recordFromBytes(record);
    EXPECT_TRUE(test::squeezed(text).contains(read->chain.back().hex()));
    EXPECT_TRUE(test::outputOf(u"pdfimages"_s, {u"-list"_s, pdf}).contains("640")) << "the label's picture";
    EXPECT_FALSE(text.contains(u"No key signed here"_s));
}

TEST_F(ReportCommandTest, MakesNoneOfARecordThatIsNotAsItWasSigned)
{
    Night night;
    night.doAll();
    night.close();
    record::Record record = *record::recordFromBytes(test::signedRecordOf(night));
    record.entries[4].replace("\"by\"", "\"bY\"");
    const QString altered = write(*record::bytesOf(record), u"altered.zip"_s);
    const QString pdf = folder.filePath(u"visit.pdf"_s);

    EXPECT_EQ(reportCommand({altered, u"-o"_s, pdf}), 1);
    EXPECT_EQ(reportCommand({write("text", u"notes.txt"_s), u"-o"_s, pdf}), 2) << "as verify has it";
    const QByteArray half = test::signedRecordOf(night).chopped(900);
    EXPECT_EQ(reportCommand({write(half, u"half.zip"_s), u"-o"_s, pdf}), 2);
    EXPECT_EQ(reportCommand({folder.filePath(u"none.zip"_s), u"-o"_s, pdf}), 2);
    EXPECT_EQ(reportCommand({altered}), 2);
    EXPECT_FALSE(QFile::exists(pdf));
}

TEST_F(ReportCommandTest, LeavesTheSignedRecordAndAnyOtherFileThatIsNoReportAsItWas)
{
    Night night;
    night.doAll();
    night.close();
    const QByteArray record = test::signedRecordOf(night);
    const QString file = write(record, u"visit.zip"_s);
    const QString notes = write("what was said on the telephone", u"notes.txt"_s);
    const QString link = folder.filePath(u"by-another-name.pdf"_s);
    ASSERT_TRUE(QFile::link(file, link));

    EXPECT_EQ(reportCommand({file, u"-o"_s, file}), 2);
    EXPECT_EQ(reportCommand({file, u"-o"_s, link}), 2);
    EXPECT_EQ(reportCommand({file, u"-o"_s, notes}), 2);

    EXPECT_EQ(read(file), record);
    EXPECT_EQ(read(notes), "what was said on the telephone");
}

TEST_F(ReportCommandTest, MakesTheReportAnewOverTheOneBefore)
{
    Night night;
    night.doAll();
    night.close();
    const QString file = write(test::signedRecordOf(night), u"visit.zip"_s);
    const QString pdf = write("%PDF-1.4 of yesterday", u"visit.pdf"_s);

    EXPECT_EQ(reportCommand({file, u"-o"_s, pdf}), 0);

    EXPECT_GT(read(pdf).size(), 10'000);
}

TEST_F(ReportCommandTest, AnOpenVisitThatNobodySignedHasAReportThatSaysSo)
{
    Night night;
    night.doUntil(u"gear-on"_s);
    record::Record record = *record::recordFromBytes(test::signedRecordOf(night));
    record.signatures.clear();
    record.keys.clear();
    const auto report = ReportOut::of(*record::bytesOf(record), QTimeZone::utc());

    ASSERT_TRUE(report) << report.error().detail.toStdString();
    const QString pdf = folder.filePath(u"open.pdf"_s);
    ASSERT_TRUE(report->save(pdf, QPageSize::A4));
    const QString text = test::pagesOf(pdf).join(u'\n');
    EXPECT_TRUE(text.contains(u"Not closed yet"_s));
    EXPECT_TRUE(text.contains(u"Nobody has signed the work."_s));
    EXPECT_TRUE(text.contains(u"No key signed here."_s));
    EXPECT_FALSE(report->save(folder.filePath(u"nowhere/open.pdf"_s), QPageSize::A4));
    ASSERT_TRUE(report->saveReadings(folder.filePath(u"open.csv"_s)));
}

class ReportOfKeysTest : public ReportCommandTest {
protected:
    void SetUp() override
    {
        night.doAll();
        night.close();
        record = *record::recordFromBytes(test::signedRecordOf(night));
    }
    [[nodiscard]] std::vector<report::SignatureLine> signatures() const
    {
        const auto out = ReportOut::of(*record::bytesOf(record), QTimeZone::utc());
        EXPECT_TRUE(out) << (out ? std::string() : out.error().detail.toStdString());
        return out ? out->report().signatures : std::vector<report::SignatureLine>();
    }

    Night night;
    record::Record record;
    people::SigningKey key = keyOf(7); // as the night is signed
    people::SigningKey office = keyOf(8);
};

TEST_F(ReportOfKeysTest, AnUnknownKeyThatClaimsAPersonIsVouchedForByNobody)
{
    for (const report::SignatureLine& line : signatures()) {
        if (line.key == report::SignatureLine::Key::Good) {
            EXPECT_EQ(line.thumbprint, people::thumbprint(key.publicKey()));
            EXPECT_TRUE(line.isUnvouched());
        }
    }
    const QString pdf = folder.filePath(u"unknown.pdf"_s);
    ASSERT_EQ(reportCommand({write(*record::bytesOf(record), u"unknown.zip"_s), u"-o"_s, pdf}), 0);
    EXPECT_TRUE(
        test::squeezed(test::pagesOf(pdf).first()).contains(test::squeezed(u"Nobody vouches for a key"_s)));
}

TEST_F(ReportOfKeysTest, AnOfficeThatVouchesStandsWithItsDays)
{
    const people::Day from = *people::dayFromIso(u"2020-01-01"_s);
    const people::Day until = *people::dayFromIso(u"2039-12-31"_s);
    record.vouching.offices.push_back(office.publicKey());
    record.vouching.certificates.push_back(*people::certify(
        {key.publicKey(), night.ada(), u"Ada Okoro"_s, people::Role::Supervisor, from, until, {}}, office));

    const auto lines = signatures();

    ASSERT_FALSE(lines.empty());
    EXPECT_EQ(lines.front().vouchedBy,
              (QList{review::VouchedBy{people::thumbprint(office.publicKey()), u"Ada Okoro"_s,
                                       people::Role::Supervisor, from, until}}));
}

TEST_F(ReportOfKeysTest, AFormerSignatureNamesNobody)
{
    people::HeadStatement said{record.visit, 0, record.chain.front(), people::Meaning::SignedIn, {}, {}};
    record.signatures.clear();
    record.former.push_back(
        {said, people::thumbprint(key.publicKey()), key.sign(*people::formerMessage(said))});

    const auto lines = signatures();

    ASSERT_FALSE(lines.empty());
    EXPECT_TRUE(lines.front().isFormer);
    EXPECT_EQ(lines.front().name, QString());
    EXPECT_EQ(lines.front().at, WallTime());
}

TEST_F(ReportCommandTest, APictureThatWasTakenOutOfTheRecordIsMissed)
{
    Night night;
    const QByteArray picture = pictureOfALabel();
    ASSERT_TRUE(night.tell(visit::PictureKept{night.swap().id, {}, u"box"_s, sha256(picture)}));
    night.doAll();
    night.close();
    record::Record record = *record::recordFromBytes(test::signedRecordOf(night, {picture}));
    record.pictures.clear();
    const QString pdf = folder.filePath(u"lacking.pdf"_s);

    ASSERT_EQ(reportCommand({write(*record::bytesOf(record), u"lacking.zip"_s), u"-o"_s, pdf}), 0);

    EXPECT_TRUE(test::pagesOf(pdf).join(u'\n').contains(u"Picture not in the record."_s));
}

TEST(ReportArgumentsTest, TakesARecordAFileAndAPaperInAnyOrder)
{
    EXPECT_EQ(reportArguments({u"-o"_s, u"b"_s, u"a"_s}), (ReportArguments{u"a"_s, u"b"_s, false}));
    EXPECT_EQ(reportArguments({u"a"_s, u"--paper"_s, u"letter"_s, u"-o"_s, u"b"_s}),
              (ReportArguments{u"a"_s, u"b"_s, true}));
    for (const QStringList& wrong : {QStringList{},
                                     {u"a"_s},
                                     {u"a"_s, u"-o"_s},
                                     {u"a"_s, u"b"_s, u"-o"_s, u"c"_s},
                                     {u"a"_s, u"-o"_s, u"b"_s, u"--paper"_s, u"a5"_s},
                                     {u"--what"_s, u"a"_s, u"-o"_s, u"b"_s}})
        EXPECT_EQ(reportArguments(wrong), std::nullopt) << wrong.join(u' ').toStdString();
}

TEST(HeadCodeTest, AHashMakesACodeAndNothingIsMadeOfAWholeBook)
{
    const ui::CodeModules code = codeOf(QString(64, u'f'));
    EXPECT_GE(code.side, 21);
    EXPECT_EQ(code.dark.size(), static_cast<std::size_t>(code.side * code.side));
    EXPECT_TRUE(code.dark.front()) << "the corner of a finder pattern";
    EXPECT_EQ(codeOf(QString(9000, u'f')).side, 0);
}

} // namespace
} // namespace coldarc::app
