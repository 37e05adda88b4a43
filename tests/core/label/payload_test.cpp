#include "core/label/payload.h"

#include "tests/core/label/any_payload.h"
#include "tests/support/testing.h"

#include <QDir>
#include <QFile>

#include <random>

namespace coldarc::label {
namespace {

using namespace Qt::StringLiterals;

constexpr int kYear = 2026;

Payload read(const QString& scanned)
{
    return readPayload(scanned, kYear);
}

// All types and serials are invented.

TEST(PayloadTest, BelievesAReaderThatSaysGs1AndThenAFaultIsOne)
{
    const Payload sound = read(u"]d2010950600013435221AB12-34567\u001D1124033110LOT7/A"_s);
    EXPECT_EQ(sound.form, Form::Gs1);
    EXPECT_TRUE(sound.isSound());
    EXPECT_EQ(sound.gs1.value(u"21"), u"AB12-34567"_s);
    EXPECT_EQ(sound.made, (LabelDate{2024, 3, 31}));
    EXPECT_FALSE(sound.useBy);

    // Source: scandata.c, READ: refused are an empty one, and these.
    for (const QString& bad :
         {u"]d2"_s, u"]C101123123123133^10ABC"_s, u"]E02112345678901"_s, u"]C1HELLO"_s}) {
        EXPECT_EQ(read(bad).form, Form::Gs1) << bad.toStdString();
        EXPECT_FALSE(read(bad).isSound()) << bad.toStdString();
    }
    EXPECT_TRUE(read(u"]E02112345678900"_s).isSound());
}

TEST(PayloadTest, WithoutASymbologyItIsGs1OnlyIfItIsSoundAndNamesAnItem)
{
    EXPECT_EQ(read(u"010950600013435221AB12"_s).form, Form::Gs1);
    EXPECT_EQ(read(u"(01)09506000134352(21)AB12"_s).form, Form::Gs1);
    EXPECT_EQ(read(u"010950600013435121AB12"_s).form, Form::Plain) << "the check digit is wrong";
    EXPECT_EQ(read(u"21AB12"_s).form, Form::Plain) << "a serial may begin like an identifier";
    EXPECT_EQ(read(u"]C0010950600013435221AB12"_s).form, Form::Plain)
        << "the reader says that it is not GS1's";
}

TEST(PayloadTest, AnItemNumberStandsAsGtin)
{
    EXPECT_EQ(read(u"2900041701028"_s).gs1.value(u"01"), u"02900041701028"_s);
    EXPECT_EQ(read(u"]E02900041701028"_s).gs1.value(u"01"), u"02900041701028"_s);
    EXPECT_EQ(read(u"2900041701029"_s).form, Form::Plain) << "its last digit does not fit: some other number";
}

TEST(PayloadTest, ALinkIsReadAndOtherAddressesArePlain)
{
    EXPECT_EQ(read(u"]Q1https://maker.example/01/09520123456788/21/A7"_s).gs1.value(u"21"), u"A7"_s);
    EXPECT_EQ(read(u"https://maker.example/lamp?type=7"_s).form, Form::Plain);
}

TEST(PayloadTest, ReadsKeysWhereEveryLineHasOne)
{
    const Payload payload = read(u"]Q1Type: KHM-25 16\r\nS/N = 00471 \n"_s);

    EXPECT_EQ(payload.form, Form::Keyed);
    EXPECT_EQ(payload.keyed, (QList<KeyedValue>{{u"Type"_s, u"KHM-25 16"_s}, {u"S/N"_s, u"00471"_s}}));
    EXPECT_EQ(read(u"T:A;S:B"_s).keyed.size(), 2);
    for (const QString& text : {u"KHM2516"_s, u"KHM: "_s, u": 7"_s, u"12:30"_s, u"A: 1\nB"_s, u""_s})
        EXPECT_EQ(read(text).form, Form::Plain) << text.toStdString();
}

// ---- Any text whatever ----

TEST(PayloadTest, ReadsAnyTextWithoutAFaultAndKeepsItWhole)
{
    std::mt19937 chance(20'261'125); // a million of them in tests/long
    for (int i = 0; i < 20'000; ++i) {
        const QString text = test::anyPayload(chance);
        ASSERT_TRUE(test::readsSafely(text)) << text.toStdString();
    }
    EXPECT_EQ(read(QString(100'000, u'1')).text.size(), kLongestPayload);
}

// Written out again, a sound element string reads the same: nothing is lost between the separators.
TEST(PayloadTest, ReadsItsOwnElementsAgain)
{
    std::mt19937 chance(7);
    const QString letters = u"0123456789ABCXYZabcxyz-/.+"_s;
    for (int i = 0; i < 2'000; ++i) {
        QList<Element> elements{{u"01"_s, u"09506000134352"_s}};
        for (const QString& ai : {u"10"_s, u"21"_s, u"240"_s}) {
            QString value;
            for (auto n = 1 + chance() % 20; n > 0; --n)
                value += letters.at(static_cast<qsizetype>(chance() % static_cast<size_t>(letters.size())));
            elements.append({ai, value});
        }
        std::shuffle(elements.begin(), elements.end(), chance);
        QString text = u"]C1"_s;
        for (const Element& element : elements)
            text += element.ai + element.value + QChar(kGroupSeparator);

        const Payload payload = read(text);

        ASSERT_TRUE(payload.isSound()) << text.toStdString();
        ASSERT_EQ(payload.gs1.elements, elements);
    }
}

// Format and identifiers from memory: ISO/IEC 15434, ANSI MH10.8.2.
TEST(PayloadTest, TakesAnEnvelopeApartByItsDataIdentifiers)
{
    const Payload part = read(u"]d1[)>\u001E06\u001D1PKHM-25B\u001DSKB-20417\u001D1TL7\u001E\u0004"_s);

    EXPECT_EQ(part.form, Form::Keyed);
    EXPECT_EQ(part.keyed,
              (QList<KeyedValue>{{u"1P"_s, u"KHM-25B"_s}, {u"S"_s, u"KB-20417"_s}, {u"1T"_s, u"L7"_s}}));
    EXPECT_EQ(read(u"[)>\u001E06\u001DSKB-20417\u001E"_s).keyed, (QList<KeyedValue>{{u"S"_s, u"KB-20417"_s}}))
        << "some scanners drop the last character, which is none of the text";
}

TEST(PayloadTest, AnEnvelopeOfGs1ElementsIsGs1)
{
    const Payload sound = read(u"]d1[)>\u001E05\u001D010950600013435221AB12\u001E\u0004"_s);
    EXPECT_EQ(sound.form, Form::Gs1);
    EXPECT_EQ(sound.gs1.value(u"21"), u"AB12"_s);

    EXPECT_FALSE(read(u"]d1[)>\u001E05\u001D010950600013435321AB12\u001E\u0004"_s).isSound());
}

TEST(PayloadTest, ABrokenEnvelopeIsAPlainTextThatSaysNothing)
{
    for (const QString& text : {u"[)>\u001E06\u001DSKB-20417"_s, u"[)>\u001E06\u001D\u001E\u0004"_s,
                                u"[)>\u001E06SKB-20417\u001E\u0004"_s, u"[)>\u001E07\u001DSKB-20417\u001E"_s,
                                u"[)>\u001E06\u001DKB\u001E05\u001D0109506000134352\u001E"_s,
                                u"[)>\u001E06\u001D1P\u001DSKB-20417\u001E"_s, u"[)>\u001E"_s}) {
        EXPECT_EQ(read(text).form, Form::Plain) << text.toStdString();
        EXPECT_TRUE(read(text).keyed.isEmpty());
    }
}

// The texts that tests/fuzz/run begins with, and whatever it found.
TEST(PayloadTest, EveryTextOfTheFuzzersCorpusIsReadSafely)
{
    const QDir corpus(test::sourceFile("tests/fuzz/payload"));
    const QStringList names = corpus.entryList(QDir::Files);
    ASSERT_GE(names.size(), 30);

    for (const QString& name : names) {
        QFile file(corpus.filePath(name));
        ASSERT_TRUE(file.open(QIODevice::ReadOnly)) << name.toStdString();
        EXPECT_TRUE(test::readsSafely(QString::fromUtf8(file.readAll()))) << name.toStdString();
    }
}

} // namespace
} // namespace coldarc::label
