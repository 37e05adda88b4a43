#include "app/label_command.h"

#include "app/decode_ladder.h"
#include "app/decode_picture.h"
#include "core/catalogue/catalogue.h"
#include "core/label/payload.h"
#include "core/lamps/taught_rule_store.h"
#include "core/people/people_store.h"
#include "core/store/workspace_file.h"
#include "tests/app/label_pictures.h"
#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"

#include <QBuffer>
#include <QDir>
#include <QFileInfo>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QPainter>
#include <QProcess>
#include <QStandardPaths>
#include <QTemporaryDir>

namespace coldarc::app {
namespace {

using namespace Qt::StringLiterals;

constexpr int kYear = 2026;

// All types and serials are invented.

const QList<catalogue::LampType>& lampTypes()
{
    static const QList<catalogue::LampType> types =
        catalogue::loadCatalogue(test::sourceFile("resources/catalogue")).catalogue.lampTypes();
    return types;
}

class LabelCommandTest : public ::testing::Test {
protected:
    /// A label made by an independent program; its file. The program is one of .ci/packages.
    QString madeBy(const QString& program, const QStringList& arguments, const QString& name,
                   const QByteArray& in = {})
    {
        const QString found = QStandardPaths::findExecutable(program);
        EXPECT_FALSE(found.isEmpty()) << program.toStdString() << " is missing: run .ci/install";
        const QString file = folder.filePath(name);
        QProcess process;
        process.start(found, QStringList(arguments).replaceInStrings(u"OUT"_s, file));
        process.write(in);
        process.closeWriteChannel();
        EXPECT_TRUE(process.waitForFinished());
        EXPECT_TRUE(QFile::exists(file)) << process.readAllStandardError().toStdString();
        return file;
    }

    QString zint(const QString& kind, const QString& text, const QString& name, const QStringList& more = {})
    {
        return madeBy(u"zint"_s,
                      QStringList{u"-o"_s, u"OUT"_s, u"-b"_s, kind, u"--scale=3"_s, u"-w"_s, u"10"_s,
                                  u"--vwhitesp=10"_s, u"-d"_s, text} +
                          more,
                      name);
    }

    static QList<LabelFile> looked(const QStringList& files)
    {
        return lookAtFiles(files, QStringLiteral(COLDARC_DECODER), lampTypes(), kYear);
    }

    static LabelReport report(const QStringList& files) { return labelReport(looked(files), kYear, false); }

    QTemporaryDir folder;
};

struct Made {
    const char* name;
    QString kind; ///< zint's number of the symbology
    QString text;
    QStringList more;
    QString type;
    QString serial;

    friend void PrintTo(const Made& made, std::ostream* out) { *out << made.name; }
};

class MadeByZintTest : public LabelCommandTest, public ::testing::WithParamInterface<Made> {};

TEST_P(MadeByZintTest, IsReadAsTheCatalogueHasIt)
{
    const QString file = zint(GetParam().kind, GetParam().text, u"label.png"_s, GetParam().more);

    const QList<LabelFile> files = looked({file});

    ASSERT_EQ(files.front().texts.size(), 1);
    const label::LabelText& text = files.front().texts.front();
    EXPECT_EQ(text.verdict, label::LabelText::Verdict::Read);
    EXPECT_EQ(text.type, GetParam().type);
    EXPECT_EQ(text.serial, GetParam().serial);
    EXPECT_EQ(labelReport(files, kYear, false).status, 0);
}

const QString kGs1 = u"[01]02900041701028[21]HB-20417[11]240331[10]LOT7/A"_s;

INSTANTIATE_TEST_SUITE_P(
    All, MadeByZintTest,
    ::testing::Values(
        Made{"Gs1DataMatrix", u"71"_s, kGs1, {u"--gs1"_s}, u"2900041701028"_s, u"HB-20417"_s},
        Made{"Gs1Code128", u"16"_s, kGs1, {}, u"2900041701028"_s, u"HB-20417"_s},
        Made{"Gs1Qr", u"58"_s, kGs1, {u"--gs1"_s}, u"2900041701028"_s, u"HB-20417"_s},
        Made{"LinkInQr",
             u"58"_s,
             u"https://maker.example/01/02900041701042/21/TK4-51577?11=240300"_s,
             {},
             u"2900041701042"_s,
             u"TK4-51577"_s},
        Made{"Ean13", u"13"_s, u"2900041701035"_s, {}, u"2900041701035"_s, {}},
        Made{"TypeInCode39", u"8"_s, u"HVQ30-408"_s, {}, u"HVQ30-408"_s, {}},
        Made{"BothInCode128", u"20"_s, u"TWA-K42R5/TK4-51577"_s, {}, u"TWA-K42R5"_s, u"TK4-51577"_s}),
    [](const auto& instance) { return std::string(instance.param.name); });

/// The characters of the envelope are from memory, see readPayload; that zint and the decoder keep them is
/// seen here.
TEST_F(LabelCommandTest, AnEnvelopeComesThroughAndIsTakenApart)
{
    const QString file =
        zint(u"71"_s, u"[)>\\R06\\G1PHVQ30-40B\\GSHB-20417\\R\\E"_s, u"envelope.png"_s, {u"--esc"_s});

    const QList<LabelFile> files = looked({file});

    ASSERT_EQ(files.front().reading.codes.size(), 1);
    const QString scanned = files.front().reading.codes.front().scanned;
    EXPECT_EQ(scanned, u"]d1[)>\u001E06\u001D1PHVQ30-40B\u001DSHB-20417\u001E\u0004"_s);
    EXPECT_EQ(label::readPayload(scanned, kYear).keyed.size(), 2);
    const auto taught = label::teach({scanned, u"HVQ30-40B"_s, u"HB-20417"_s, LampTypeId(u"hollin-30b"_s)},
                                     {}, lampTypes(), kYear);
    ASSERT_TRUE(taught.teaching);
    EXPECT_EQ(taught.teaching->rule.serial, u"S"_s);
}

TEST_F(LabelCommandTest, ReadsWhatTwoOtherProgramsMake)
{
    const QString qr =
        madeBy(u"qrencode"_s, {u"-s"_s, u"6"_s, u"-o"_s, u"OUT"_s, u"TYPE: HVQ21-40A\nS/N: HA-62544"_s},
               u"qr.png"_s);
    const QString matrix = madeBy(u"dmtxwrite"_s, {u"-o"_s, u"OUT"_s}, u"dm.png"_s, "HA-62544");

    const QList<LabelFile> files = looked({qr, matrix});

    ASSERT_EQ(files[0].texts.size(), 1);
    EXPECT_EQ(files[0].texts[0].type, u"HVQ21-40A"_s);
    ASSERT_EQ(files[1].texts.size(), 1);
    EXPECT_EQ(files[1].texts[0].serial, u"HA-62544"_s);
    EXPECT_EQ(labelReport(files, kYear, false).status, 0) << "both are of one lamp type";
}

TEST_F(LabelCommandTest, TheStatusTellsWhetherAllOfThemAreOfOneLampType)
{
    const QString box = zint(u"71"_s, kGs1, u"box.png"_s, {u"--gs1"_s});
    const QString sister = zint(u"8"_s, u"HVQ30-408"_s, u"sister.png"_s);
    const QString foreign = zint(u"20"_s, u"HELLO"_s, u"foreign.png"_s);
    QImage blank(300, 200, QImage::Format_RGB32);
    blank.fill(Qt::white);
    blank.save(folder.filePath(u"blank.png"_s));

    EXPECT_EQ(report({box}).status, 0);
    EXPECT_EQ(report({box, sister}).status, 1);
    EXPECT_EQ(report({box, foreign}).status, 1);
    EXPECT_EQ(report({folder.filePath(u"blank.png"_s)}).status, 1);
    const LabelReport half = report({box, folder.filePath(u"blank.png"_s)});
    EXPECT_EQ(half.status, 1) << "nobody knows what stands on the blank one";
    EXPECT_TRUE(half.text.contains("blank.png: looked at, codes: 0")) << half.text.toStdString();
    EXPECT_TRUE(half.text.contains("together: not every picture and code was read"))
        << half.text.toStdString();
    EXPECT_TRUE(report({box, sister}).text.contains("together: the lamp types differ"));
    const LabelReport none = report({box, folder.filePath(u"none.png"_s)});
    EXPECT_EQ(none.status, 2);
    EXPECT_TRUE(none.text.contains("none.png: no such file")) << none.text.toStdString();
    const LabelReport text = report({test::sourceFile("README.md")});
    EXPECT_EQ(text.status, 2);
    EXPECT_TRUE(text.text.contains("README.md: not a picture that can be read")) << text.text.toStdString();
}

TEST_F(LabelCommandTest, WithoutItsDecoderItSaysSo)
{
    const QString box = zint(u"71"_s, kGs1, u"box.png"_s, {u"--gs1"_s});

    const LabelReport said =
        labelReport(lookAtFiles({box}, u"/nowhere/decoder"_s, lampTypes(), kYear), kYear, false);

    EXPECT_EQ(said.status, 2);
    EXPECT_TRUE(said.text.contains("the program that reads codes did not start")) << said.text.toStdString();
}

TEST_F(LabelCommandTest, AFileThatCannotBeReadToItsEndIsNotLookedAt)
{
    // The memory of this program can be opened, and not be read from its beginning.
    const QList<LabelFile> files =
        lookAtFiles({u"/proc/self/mem"_s}, u"/nowhere/decoder"_s, lampTypes(), kYear);

    EXPECT_FALSE(files.front().isReadable);
    EXPECT_FALSE(files.front().failure) << "it was not handed on";
    EXPECT_EQ(labelReport(files, kYear, false).status, 2);
}

class LabelRunTest : public LabelCommandTest {
protected:
    /// Status of one run on a file, whose catalogue is the program's or stands in the folder.
    int run(const QString& file, const QString& resources, const QString& output,
            const QStringList& more = {})
    {
        QFile out(output);
        QFile err(folder.filePath(u"err"_s));
        EXPECT_TRUE(out.open(QIODevice::WriteOnly | QIODevice::Unbuffered));
        EXPECT_TRUE(err.open(QIODevice::ReadWrite | QIODevice::Truncate));
        const QString programs = QFileInfo(QStringLiteral(COLDARC_DECODER)).path();
        const int status = labelCommand(QStringList(more) << file, programs, resources, {out, err});
        err.seek(0);
        complaints = err.readAll();
        return status;
    }
    [[nodiscard]] QString output() const { return folder.filePath(u"out"_s); }

    QByteArray complaints;
};

TEST_F(LabelRunTest, ACatalogueFileThatIsRefusedIsSaidAndIsNoSuccess)
{
    const QString box = zint(u"71"_s, kGs1, u"box.png"_s, {u"--gs1"_s});
    const QString shipped = test::sourceFile("resources");
    EXPECT_EQ(run(box, shipped, output()), 0);
    EXPECT_EQ(complaints, QByteArray());
    const QDir catalogue(shipped + u"/catalogue"_s);
    ASSERT_TRUE(QDir(folder.path()).mkdir(u"catalogue"_s));
    for (const QString& name : catalogue.entryList(QDir::Files))
        QFile::copy(catalogue.filePath(name), folder.filePath(u"catalogue/"_s + name));
    QFile broken(folder.filePath(u"catalogue/broken.json"_s));
    ASSERT_TRUE(broken.open(QIODevice::WriteOnly));
    broken.write("{\"kind\": \"lamp-type\"}");
    broken.close();

    EXPECT_EQ(run(box, folder.path(), output()), 2);

    EXPECT_TRUE(complaints.contains("broken.json")) << complaints.toStdString();
}

TEST_F(LabelRunTest, WhatWasTaughtInAWorkspaceIsUsedAndTheWorkspaceStaysAsItWas)
{
    const QString box = zint(u"20"_s, u"ORDER 77120/00417"_s, u"box.png"_s);
    const QString workspace = folder.filePath(u"taught.coldarc"_s);
    const test::FakeClock clock;
    {
        auto opened = store::openWorkspace(workspace, {u"w"_s, clock.now().wall});
        ASSERT_TRUE(opened.database);
        const std::chrono::year_month_day today(std::chrono::floor<std::chrono::days>(clock.now().wall));
        people::Holder boss;
        boss.person = {PersonId(u"boss"_s), u"B. Oss"_s, people::Role::Supervisor, {}, {}, {}};
        boss.authorisations = {{people::AuthorisationId(u"a"_s), boss.person.id, people::Duty::Supervise,
                                std::nullopt, today, today, boss.person.id, std::nullopt}};
        ASSERT_TRUE(people::PeopleStore(*opened.database).add(boss.person));
        const auto taught =
            lamps::TaughtRuleStore(*opened.database)
                .teach(lamps::TaughtRuleId(u"r"_s),
                       {u"]C0ORDER 77120/00418"_s, u"77120"_s, u"00418"_s, LampTypeId(u"hollin-30b"_s)},
                       lampTypes(), boss, today, clock.now().wall);
        ASSERT_TRUE(taught && std::holds_alternative<lamps::RuleKept>(*taught));
    }
    const QString resources = test::sourceFile("resources");
    const auto bytes = [&] {
        QFile file(workspace);
        EXPECT_TRUE(file.open(QIODevice::ReadOnly));
        return file.readAll();
    };
    const QByteArray before = bytes();

    EXPECT_EQ(run(box, resources, output()), 1) << "the catalogue alone does not know it";
    EXPECT_EQ(run(box, resources, output(), {u"--workspace"_s, workspace}), 0) << complaints.toStdString();

    EXPECT_EQ(bytes(), before);
    EXPECT_EQ(run(box, resources, output(), {u"--workspace"_s, folder.filePath(u"none"_s)}), 2);
    EXPECT_TRUE(complaints.startsWith("workspace: ")) << complaints.toStdString();
}

TEST_F(LabelRunTest, AnAnswerThatCannotBeWrittenIsNoSuccess)
{
    const QString box = zint(u"71"_s, kGs1, u"box.png"_s, {u"--gs1"_s});

    EXPECT_EQ(run(box, test::sourceFile("resources"), u"/dev/full"_s), 2);
}

TEST_F(LabelCommandTest, ADecoderThatCannotAnswerEndsInAFault)
{
    QProcess decoder;
    decoder.setStandardOutputFile(u"/dev/full"_s);
    decoder.start(QStringLiteral(COLDARC_DECODER), {});
    decoder.closeWriteChannel();
    ASSERT_TRUE(decoder.waitForFinished());

    EXPECT_EQ(decoder.exitCode(), 1);
}

TEST_F(LabelCommandTest, JsonSaysTheSameForPrograms)
{
    const QString box = zint(u"71"_s, kGs1, u"box.png"_s, {u"--gs1"_s});

    const QJsonObject object = QJsonDocument::fromJson(labelReport(looked({box}), kYear, true).text).object();

    EXPECT_EQ(object.value(u"verdict").toString(), u"agree"_s);
    const QJsonObject code =
        object.value(u"files").toArray().at(0).toObject().value(u"codes").toArray().at(0).toObject();
    EXPECT_EQ(code.value(u"symbology").toString(), u"data-matrix"_s);
    EXPECT_EQ(code.value(u"scanned").toString(), u"]d2010290004170102821HB-20417\u001D1124033110LOT7/A"_s);
    EXPECT_EQ(code.value(u"made").toString(), u"2024-03-31"_s);
    EXPECT_EQ(code.value(u"corners").toArray().size(), 4);
}

// ---- What is found in pictures ----

TEST(FindCodesTest, FindsSeveralCodesAndWhereEachStands)
{
    const QImage upper = test::cleanCode(test::Code::Code128, u"TK4-51577"_s, 3);
    const QImage lower = test::cleanCode(test::Code::Code128, u"TK4-51578"_s, 3);
    const QImage beside = test::cleanCode(test::Code::Qr, u"TYPE: TWA-K42R5"_s, 5);
    QImage sheet(1100, 500, QImage::Format_Grayscale8);
    sheet.fill(Qt::white);
    QPainter painter(&sheet);
    painter.drawImage(20, 20, upper);
    painter.drawImage(20, 40 + upper.height(), lower);
    painter.drawImage(700, 60, beside);
    painter.end();

    const label::PictureReading reading{sheet.width(), sheet.height(), findCodes(greyOf(sheet))};

    QMap<QString, label::Place> at;
    for (const label::FoundCode& code : reading.codes)
        at.insert(label::scanText(code.scanned).text, code.corners[0]);
    EXPECT_EQ(at.keys(), (QStringList{u"TK4-51577"_s, u"TK4-51578"_s, u"TYPE: TWA-K42R5"_s}));
    EXPECT_LT(at[u"TK4-51577"_s].y, 20 + upper.height());
    EXPECT_GT(at[u"TK4-51578"_s].y, 40 + upper.height());
    EXPECT_GT(at[u"TYPE: TWA-K42R5"_s].x, 700);
}

TEST(FindCodesTest, ATwinOfALinearCodeEndsNothing)
{
    // Two codes that say the same far apart end the library's own search for several with an assertion.
    const QImage code = test::cleanCode(test::Code::Code128, u"TK4-51577"_s, 3);
    QImage sheet(code.width() + 40, 1400, QImage::Format_Grayscale8);
    sheet.fill(Qt::white);
    QPainter painter(&sheet);
    painter.drawImage(20, 20, code);
    painter.drawImage(20, 1200, code);
    painter.end();

    EXPECT_EQ(findCodes(greyOf(sheet)).size(), 1) << "said once";
}

/// A strip of a linear code so thin that no row crosses all of its bars once it is turned by some degrees.
label::GreyPicture thinStripOf(test::Code kind)
{
    const QImage code = test::cleanCode(kind, u"HB-20417"_s, 3);
    constexpr int kHigh = 14; // px
    QImage sheet(code.width() + 80, 200, QImage::Format_Grayscale8);
    sheet.fill(Qt::white);
    QPainter painter(&sheet);
    painter.drawImage(QPoint(40, 90), code, QRect(0, code.height() / 2, code.width(), kHigh));
    painter.end();
    return greyOf(sheet);
}

TEST(FindCodesTest, ACodeWithAWeakCheckIsBelievedOnlyIfItIsReadAskewToo)
{
    EXPECT_EQ(findCodes(thinStripOf(test::Code::Code128)).size(), 1);
    EXPECT_TRUE(findCodes(thinStripOf(test::Code::Code39)).isEmpty());
    EXPECT_EQ(findCodes(greyOf(test::cleanCode(test::Code::Code39, u"HB-20417"_s, 3))).size(), 1);
    // Of an EAN one digit is the check, and a Code 128 of two digits has few bars: stripes that are no code
    // may fit, and these do.
    for (const std::uint32_t number : {7'589U, 11'828U}) {
        const test::LabelPicture stripes = test::pictureOfRow(number);
        ASSERT_TRUE(stripes.text.isEmpty());
        EXPECT_TRUE(findCodes(greyOf(stripes.image)).isEmpty()) << "picture " << number;
    }
    EXPECT_EQ(findCodes(greyOf(test::cleanCode(test::Code::Code128, u"25"_s, 3))).size(), 1) << "a real one";
}

TEST(FindCodesTest, PlacesOfATurnedPictureLieInTheOneThatWasGiven)
{
    const test::LabelPicture picture =
        test::labelPicture(test::Code::DataMatrix, test::Distortion::Rotation, 3);

    const QList<label::FoundCode> codes = findCodes(greyOf(picture.image));

    ASSERT_EQ(codes.size(), 1);
    for (const label::Place& corner : codes.front().corners) {
        EXPECT_GT(corner.x, 0);
        EXPECT_GT(corner.y, 0);
        EXPECT_LT(corner.x, picture.image.width());
        EXPECT_LT(corner.y, picture.image.height());
    }
}

TEST(FindCodesTest, ReadsOneEasyPictureOfEveryCodeThroughEveryDistortion)
{
    // How often of many stands in tests/bench; here one picture of each.
    for (const test::Code code : test::kEveryCode)
        for (const test::Distortion distortion : test::kEveryDistortion) {
            const test::LabelPicture picture = test::labelPicture(code, distortion, 5);
            const QList<label::FoundCode> codes = findCodes(greyOf(picture.image));
            ASSERT_EQ(codes.size(), 1)
                << test::nameOf(code).toStdString() << ' ' << test::nameOf(distortion).toStdString();
            EXPECT_EQ(label::scanText(codes.front().scanned).text, picture.text);
        }
}

TEST(FindCodesTest, FindsNothingWhereThereIsNothing)
{
    EXPECT_TRUE(findCodes({}).isEmpty());
    EXPECT_TRUE(findCodes(label::GreyPicture(1, 1)).isEmpty());
    for (std::uint32_t seed = 0; seed < 14; ++seed)
        EXPECT_TRUE(
            findCodes(greyOf(test::pictureWithoutCode(test::kEveryDistortion.at(seed % 7), seed).image))
                .isEmpty());
}

TEST(PictureFileTest, HalfTheSizeKeepsThePlacesAndJunkIsNoPicture)
{
    const QImage code = test::cleanCode(test::Code::Qr, u"TYPE: TWA-K42R5"_s, 8);
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    code.save(&buffer, "PNG");

    const label::PictureReading whole = readingOf(bytes);
    const label::PictureReading half = readingOf(bytes, LookAt::Half);

    ASSERT_EQ(whole.codes.size(), 1);
    ASSERT_EQ(half.codes.size(), 1);
    EXPECT_EQ(half.width, code.width());
    EXPECT_NEAR(half.codes[0].corners[2].x, whole.codes[0].corners[2].x, 8);
    EXPECT_EQ(readingOf("junk"), label::PictureReading());
    EXPECT_EQ(readingOf({}), label::PictureReading());
}

} // namespace
} // namespace coldarc::app
