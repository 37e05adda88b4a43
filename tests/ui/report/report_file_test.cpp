#include "ui/report/report_file.h"

#include "tests/support/pdf_tools.h"
#include "tests/ui/report/report_night.h"
#include "ui/parts/quantities.h"
#include "ui/visit/sign_off_presenter.h"

#include <QTemporaryDir>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using test::Night;
using test::squeezed;

class ReportFileTest : public ::testing::Test {
protected:
    QString pdfOf(const report::Report& report, QPageSize::PageSizeId paper = QPageSize::A4,
                  const QByteArray& record = "a record")
    {
        const QString path = folder.filePath(u"report.pdf"_s);
        QFile file(path);
        EXPECT_TRUE(file.open(QIODevice::WriteOnly));
        EXPECT_TRUE(writeReport({report, QTimeZone::utc(), {}, {}}, paper, record, file));
        return path;
    }
    QTemporaryDir folder;
};

// 21 CFR 11.50(a) and (b): the printed name, the date and time, and the meaning of every signature stand on
// every form that people read (READ in the handbook's source list); 11.70: bound to its record, here by the
// hash.
TEST_F(ReportFileTest, EverySignatureStandsInTheTextWithNameMomentMeaningAndTheHashOfItsRecord)
{
    const Night night = test::fullNight(Night().opening());
    const report::Report report = test::reportOfNight(night);

    const QString text = test::pagesOf(pdfOf(report)).join(u'\n');

    ASSERT_GE(report.signatures.size(), 7U);
    const QString whole = squeezed(text);
    for (const report::SignatureLine& line : report.signatures) {
        const QString row = squeezed(line.name);
        EXPECT_TRUE(whole.contains(row));
        EXPECT_TRUE(whole.contains(squeezed(meaningWords(line.meaning)))) << line.meaning.toStdString();
        const QString moment = wallTextWithOffset(line.at, QTimeZone::utc());
        EXPECT_TRUE(text.contains(moment)) << moment.toStdString();
        bool isOneRow = false;
        for (const QString& one : text.split(u'\n'))
            isOneRow = isOneRow || (one.contains(line.name) && one.contains(moment) &&
                                    one.contains(meaningWords(line.meaning)));
        EXPECT_TRUE(isOneRow) << "name, meaning and moment stand side by side: " << moment.toStdString();
    }
    EXPECT_TRUE(whole.contains(report.head.hex()));
}

TEST_F(ReportFileTest, PagesAreCountedAndTheCustomerHasOneOfThem)
{
    for (int swaps = 1; swaps <= 3; ++swaps) {
        const visit::Opening opening = Night(u"larkmoor-teal"_s, Night::Crew::Alone, {}, {}, swaps).opening();
        const report::Report report = test::reportOfNight(test::fullNight(opening));
        ASSERT_EQ(report.swaps.size(), static_cast<std::size_t>(swaps));
        for (const auto paper : {QPageSize::A4, QPageSize::Letter}) {
            const QStringList pages = test::pagesOf(pdfOf(report, paper));

            ASSERT_GT(pages.size(), 3);
            for (qsizetype page = 0; page < pages.size(); ++page)
                EXPECT_TRUE(pages[page].contains(u"%1 of %2"_s.arg(page + 1).arg(pages.size())));
            EXPECT_TRUE(pages[0].contains(u"REPORT OF A VISIT"_s));
            EXPECT_TRUE(pages[1].contains(u"For the file"_s))
                << "the customer's part is one page, of " << swaps << " swaps too";
        }
    }
}

TEST_F(ReportFileTest, TheRecordInsideComesOutByteForByte)
{
    const Night night = test::fullNight(Night().opening());
    QByteArray record(100'000, '\0');
    for (qsizetype index = 0; index < record.size(); ++index)
        record[index] = static_cast<char>((index * 31) % 251);

    const QString pdf = pdfOf(test::reportOfNight(night), QPageSize::A4, record);

    QTemporaryDir out;
    EXPECT_EQ(test::detachedFrom(pdf, out.path()), record);
    EXPECT_EQ(QDir(out.path()).entryList(QDir::Files), QStringList{u"signed-record.zip"_s});
}

TEST_F(ReportFileTest, PaperAloneDoesNotSayThatTheRecordLiesInsideAPdf)
{
    const report::Report report = test::reportOfNight(test::fullNight(Night().opening()));
    const auto textOf = [&](const QByteArray& record) {
        return test::squeezed(test::pagesOf(pdfOf(report, QPageSize::A4, record)).join(u'\n'));
    };
    const QString inside = test::squeezed(u"lies inside this PDF as an attachment"_s);
    const QString elsewhere = test::squeezed(u"is not on this paper"_s);

    EXPECT_TRUE(textOf("a record").contains(inside));
    EXPECT_FALSE(textOf("a record").contains(elsewhere));
    const QString paper = textOf({});
    EXPECT_TRUE(paper.contains(elsewhere));
    EXPECT_FALSE(paper.contains(inside) || paper.contains(u"pdfdetach"_s));
}

TEST_F(ReportFileTest, ARecordThatNobodySignedIsNotCalledASignedOne)
{
    const Night night;
    const report::Report report = report::reportOf(night.entries, Hash(), {}).value();

    QTemporaryDir out;
    EXPECT_EQ(test::detachedFrom(pdfOf(report), out.path()), "a record");
    EXPECT_EQ(QDir(out.path()).entryList(QDir::Files), QStringList{u"record.zip"_s});
}

TEST_F(ReportFileTest, NothingIsCutOffWithTheLongestNamesOnEitherPaper)
{
    const Night night = test::fullNight(test::withLongNames(Night().opening()));
    const report::Report report = test::reportOfNight(night);
    constexpr double kMargin = 18 / 25.4 * 72; // as the sheet has it, in points
    for (const auto paper : {QPageSize::A4, QPageSize::Letter}) {
        const QString pdf = pdfOf(report, paper);
        const QList<test::PdfWord> words = test::wordsIn(pdf);
        ASSERT_GT(words.size(), 1000);
        const QSizeF sheet = QPageSize(paper).sizePoints();
        for (const test::PdfWord& word : words) {
            EXPECT_NEAR(word.sheet.width(), sheet.width(), 1);
            EXPECT_GE(word.box.left(), kMargin - 2) << word.page << word.text.toStdString();
            EXPECT_LE(word.box.right(), word.sheet.width() - kMargin + 2)
                << word.page << word.text.toStdString();
            EXPECT_GE(word.box.top(), kMargin - 6) << word.page;
            EXPECT_LE(word.box.bottom(), word.sheet.height() - kMargin + 6) << word.page;
        }
        const QString whole = squeezed(test::pagesOf(pdf).join(u'\n'));
        const site::SiteDocument& site = report.state.ground->opening.site;
        // Each piece of a wrapped name is there, though another column may stand between two lines.
        for (const QString& name :
             {site.site.name, site.screens.front().name, site.site.town, report.state.people.first().name}) {
            for (const QString& piece : name.split(u' ')) {
                if (piece.size() < 50) {
                    EXPECT_TRUE(whole.contains(piece)) << piece.toStdString();
                }
            }
        }
    }
}

TEST_F(ReportFileTest, ADeviceThatTakesNothingIsSaid)
{
    const Night night;
    QFile nowhere(folder.filePath(u"nowhere/report.pdf"_s));
    EXPECT_FALSE(
        writeReport({test::reportOfNight(night), QTimeZone::utc(), {}, {}}, QPageSize::A4, {}, nowhere));
}

} // namespace
} // namespace coldarc::ui
