#include "ui/review/words_review.h"

#include "tests/core/visit/night.h"

#include <QSet>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using review::Exception;
using test::Night;
using Kind = Exception::Kind;

TEST(WordsReviewTest, EveryKindHasATitleOfItsOwn)
{
    QSet<QString> titles;
    for (int index = 0; index < review::kExceptionKinds; ++index)
        titles.insert(titleOf(static_cast<Kind>(index)));
    EXPECT_EQ(titles.size(), review::kExceptionKinds);
    for (const QString& title : titles)
        EXPECT_TRUE(!title.isEmpty() && !title.contains(u"%"_s)) << title.toStdString();
}

TEST(WordsReviewTest, TellsWhatHowMuchAndByWhom)
{
    Night night;
    night.doUntil(u"match-box"_s);
    const auto more = [&](Exception one) { return wordsOf(one, night.state, night.entries).more; };
    Exception one{Kind::CounterBelowRecord};
    one.figure = 900;
    one.against = 1380;
    EXPECT_EQ(more(one), u"read 900 h, on record 1380 h"_s);
    one = {Kind::LightBelowTolerance};
    one.words = {u"centre-luminance"_s, u"centre"_s};
    one.figure = 30.5;
    one.against = 37.8;
    EXPECT_TRUE(more(one).contains(u"30.5"_s) && more(one).contains(u"37.8"_s)) << more(one).toStdString();
    one = {Kind::WorkUnsigned, 3, -1, {}, night.ada(), {u"stop"_s}};
    EXPECT_TRUE(more(one).startsWith(u"A. Okoro, "_s));
    EXPECT_TRUE(more(one).endsWith(u"no later signature covers it"_s));
    one.other = 9;
    EXPECT_TRUE(more(one).endsWith(u"covered by their signature over entry 9"_s));
    one.words = {u"stop"_s, u"ben"_s};
    EXPECT_TRUE(more(one).endsWith(u"; only ben signed behind it, entry 9"_s)) << more(one).toStdString();
    one.words = {u"stop"_s, QString()};
    EXPECT_TRUE(more(one).endsWith(u"; only somebody not named signed behind it, entry 9"_s));
    one = {Kind::SignedBefore, 3, -1, {}, night.ada(), {u"stop"_s}};
    one.figure = 1500; // 25 h
    EXPECT_TRUE(more(one).endsWith(u"the signature is dated 25 h before its entry was written"_s))
        << more(one).toStdString();
    one = {Kind::GateSkipped, 2};
    one.words = {u"cold"_s, u"clear"_s};
    EXPECT_TRUE(more(one).endsWith(u"waiting: Cold, all shut and free of locks and people"_s))
        << more(one).toStdString();
    one = {Kind::OtherClockBehind, 2};
    one.figure = 154;
    EXPECT_EQ(more(one), u"by 2:34"_s);
    one = {Kind::IncidentMet};
    one.words = {u"voltage-found"_s};
    EXPECT_EQ(more(one), u"Voltage was found"_s);
    one = {Kind::SafeWardWithGateWaiting, 2};
    one.words = {u"cold"_s, u"dead"_s};
    EXPECT_TRUE(more(one).endsWith(u"waiting: Cold, Dead"_s));
    one = {Kind::ReadingCorrected, 7, 5};
    one.words = {u"right"_s};
    one.figure = 49.34;
    one.against = 14.4;
    EXPECT_EQ(more(one), u"right: 14.4 became 49.34 cd/m\u00b2, entry 5"_s);
    one = {Kind::TookLong, 7};
    one.figure = 554.9;
    one.against = 107;
    EXPECT_EQ(more(one), u"9 h 14, where 1 h 47 are foreseen"_s);
    one = {Kind::StepOwed, 7, -1, night.swap().id};
    one.words = {u"measure-screen"_s};
    EXPECT_EQ(more(one), night.swap().procedure->step(StepId(u"measure-screen"_s))->title);
}

TEST(WordsReviewTest, ARemarkASerialThatPassedAndLabelsThatDisagreedAreToldInTheirOwnWords)
{
    Night night;
    night.doUntil(u"match-box"_s);
    const auto read = [&](label::Source source, const QString& serial) {
        visit::LampRead one;
        one.lamp = night.state.ground->lamps[night.swap().newLamp].id;
        one.reading.source = source;
        one.reading.type = u"HVQ30-40B"_s;
        one.reading.serial = serial;
        EXPECT_TRUE(night.tell(one));
    };
    read(label::Source::Box, u"X1"_s);
    read(label::Source::Paper, u"X2"_s);
    const auto more = [&](Kind kind) {
        return wordsOf(Exception{kind, night.entries.size() - 1}, night.state, night.entries).more;
    };
    EXPECT_EQ(more(Kind::LabelsDisagreed),
              u"read of it until then: Box: HVQ30-40B, X1; Paper: HVQ30-40B, X2"_s);

    visit::SerialPassed passed;
    passed.lamp = night.state.ground->lamps[night.swap().newLamp].id;
    passed.pass.source = label::Source::Paper;
    passed.pass.reason = u"the paper is of another box"_s;
    night.entries.append(night.entries.last());
    night.entries.last().body = passed;
    EXPECT_EQ(more(Kind::SerialPassed), u"on the paper, because: the paper is of another box"_s);
    night.entries.last().body = visit::Addendum{u"the fan rattles"_s};
    EXPECT_EQ(more(Kind::Addendum), u"the fan rattles"_s);
}

TEST(WordsReviewTest, NamesTheScreenWhereAVisitHasSeveral)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::Alone, {}, {}, 2);
    Exception one{Kind::MadeSafe, 0, -1, night.swap(1).id};
    one.words = {u"as-it-was"_s};

    EXPECT_EQ(wordsOf(one, night.state, night.entries).more, u"Screen 2: as it was"_s);
}

TEST(WordsReviewTest, EveryKindAndRowCanBeSaidOfAnyVisitWithoutItsFacts)
{
    Night night;
    for (int index = 0; index < review::kExceptionKinds; ++index) {
        const Exception bare{static_cast<Kind>(index), -1};
        EXPECT_FALSE(wordsOf(bare, night.state, night.entries).title.isEmpty());
    }
    QSet<QString> rows;
    for (int index = 0; index < review::kSpanRows; ++index)
        rows.insert(nameOf(static_cast<review::Span::Row>(index)));
    EXPECT_EQ(rows.size(), review::kSpanRows);
}

} // namespace
} // namespace coldarc::ui
