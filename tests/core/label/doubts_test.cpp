#include "core/label/doubts.h"

#include "tests/support/testing.h"

namespace coldarc::label {
namespace {

using namespace Qt::StringLiterals;
using Cause = Doubt::Cause;
using Where = KnownLamp::Where;

const LampTypeId kType(u"hollin-30b"_s);
const LampTypeId kOther(u"hollin-30s"_s);
const VisitId kVisit(u"tonight"_s);
const VisitId kEarlier(u"last-month"_s);
const Hash kPicture = sha256("a picture");

// All lamps, seats and visits are invented.
Incoming incoming()
{
    Incoming lamp;
    lamp.visit = kVisit;
    lamp.lamphouse = LamphouseId(u"pier-street-1-main"_s);
    lamp.type = kType;
    lamp.serial = u"HB-20417"_s;
    return lamp;
}

Memory memory(const QList<KnownLamp>& lamps = {})
{
    Memory known;
    known.lamps = lamps;
    known.taken = {kType};
    known.today = std::chrono::sys_days(std::chrono::year(2026) / 11 / 25);
    return known;
}

QList<Cause> causesOf(const QList<Doubt>& list)
{
    QList<Cause> causes;
    for (const Doubt& doubt : list)
        causes.append(doubt.cause);
    return causes;
}

TEST(DoubtsTest, ALampFromTheVanRaisesNone)
{
    EXPECT_TRUE(doubts(incoming(), memory({{kType, u"hb 20417"_s}})).isEmpty());
    EXPECT_TRUE(doubts(incoming(), memory()).isEmpty()) << "nor one that nobody knew";
}

struct WhereCase {
    const char* name;
    Where where;
    Cause cause;

    friend void PrintTo(const WhereCase& c, std::ostream* out) { *out << c.name; }
};

class DoubtByPlaceTest : public ::testing::TestWithParam<WhereCase> {};

TEST_P(DoubtByPlaceTest, ASerialThatIsElsewhereIsSaid)
{
    const KnownLamp known{kType, u"HB20417"_s, GetParam().where, LamphouseId(u"corn-exchange-2-main"_s)};

    const QList<Doubt> found = doubts(incoming(), memory({known}));

    ASSERT_EQ(causesOf(found), QList<Cause>{GetParam().cause});
    EXPECT_EQ(found.front().lamphouse, known.lamphouse);
    EXPECT_FALSE(stops(found.front().cause))
        << "a lone engineer is never left without a way on over a serial";
}

INSTANTIATE_TEST_SUITE_P(All, DoubtByPlaceTest,
                         ::testing::Values(WhereCase{"Fitted", Where::Fitted, Cause::SerialFitted},
                                           WhereCase{"Boxed", Where::Boxed, Cause::SerialBoxed},
                                           WhereCase{"Returned", Where::Returned, Cause::SerialReturned},
                                           WhereCase{"Recycled", Where::Recycled, Cause::SerialRecycled}),
                         [](const auto& instance) { return std::string(instance.param.name); });

TEST(DoubtsTest, TheSameSerialUnderAnotherTypeIsSaidWithThatType)
{
    const QList<Doubt> found = doubts(incoming(), memory({{kOther, u"HB-20417"_s}}));

    EXPECT_EQ(found, (QList<Doubt>{{.cause = Cause::SerialOfAnother, .type = kOther}}));
}

TEST(DoubtsTest, ALampThatAnotherVisitCountsOnIsSaid)
{
    const KnownLamp booked{kType, u"HB-20417"_s, Where::AtHand, {}, {kVisit, kEarlier}};
    const KnownLamp ours{kType, u"HB-20417"_s, Where::AtHand, {}, {kVisit}};

    EXPECT_EQ(doubts(incoming(), memory({booked})),
              (QList<Doubt>{{.cause = Cause::BookedElsewhere, .visit = kEarlier}}));
    EXPECT_TRUE(doubts(incoming(), memory({ours})).isEmpty());
}

TEST(DoubtsTest, ALampThatBurntOtherHoursThanTheOneToBeFittedIsSaidWithThem)
{
    Incoming lamp = incoming();
    lamp.hours = 0;
    lamp.replaceBy = 1800;
    KnownLamp used{kType, u"HB-20417"_s};
    EXPECT_TRUE(doubts(lamp, memory({used})).isEmpty()) << "nobody knows its hours";
    used.hours = 0;
    EXPECT_TRUE(doubts(lamp, memory({used})).isEmpty());

    used.hours = 1790;
    EXPECT_EQ(doubts(lamp, memory({used})),
              (QList<Doubt>{{.cause = Cause::HoursDiffer, .serial = lamp.serial, .hours = 1790}}));
    lamp.hours.reset();
    EXPECT_TRUE(doubts(lamp, memory({used})).isEmpty()) << "those of the planned one are not known";
}

TEST(DoubtsTest, ALampPastItsLifeIsSaidWhateverWasPlanned)
{
    Incoming lamp = incoming();
    lamp.replaceBy = 1800;
    KnownLamp old{kType, u"HB-20417"_s};
    old.hours = 1800;

    EXPECT_EQ(doubts(lamp, memory({old})),
              (QList<Doubt>{{.cause = Cause::PastItsLife, .serial = lamp.serial, .hours = 1800}}));
}

TEST(DoubtsTest, ALampThatWasTakenOutBeforeBringsItsHoursToo)
{
    Incoming lamp = incoming();
    lamp.hours = 0;
    lamp.replaceBy = 1800;
    KnownLamp boxed{kType, u"HB-20417"_s, Where::Boxed};
    boxed.hours = 1500;

    EXPECT_EQ(causesOf(doubts(lamp, memory({boxed}))),
              (QList<Cause>{Cause::SerialBoxed, Cause::HoursDiffer}));
    boxed.hours = 1850;
    EXPECT_EQ(causesOf(doubts(lamp, memory({boxed}))),
              (QList<Cause>{Cause::PastItsLife, Cause::SerialBoxed}));
}

TEST(DoubtsTest, TheHoursOfAnAnswerAreThoseOfItsSerialAlone)
{
    EXPECT_EQ(hoursOfKept(u"hours-differ HB20417 1790"_s, u"hb-20417"_s), 1790.0);
    EXPECT_EQ(hoursOfKept(u"past-its-life HB20417 1850"_s, u"hb-20417"_s), 1850.0);
    for (const QString& other : {u"hours-differ HB20418 1790"_s, u"hours-differ HB20417 many"_s,
                                 u"hours-differ HB20417"_s, u"serial-near HB20417 1790"_s, QString()})
        EXPECT_EQ(hoursOfKept(other, u"hb-20417"_s), std::nullopt) << other.toStdString();
}

TEST(DoubtsTest, RecordsThatCouldNotBeReadSayNothingAndThatIsSaid)
{
    Memory unread = memory({});
    unread.isUnread = true;

    EXPECT_EQ(doubts(incoming(), unread), (QList<Doubt>{{.cause = Cause::RecordsUnread}}));
}

TEST(DoubtsTest, ASlipAgainstTheStockOfThisTypeIsAskedAbout)
{
    const KnownLamp near{kType, u"HB-20471"_s};
    const KnownLamp nearOfAnother{kOther, u"HB-20471"_s};
    const KnownLamp nearButFitted{kType, u"HB-20471"_s, Where::Fitted};

    const QList<Doubt> found = doubts(incoming(), memory({near}));

    ASSERT_EQ(causesOf(found), QList<Cause>{Cause::SerialNear});
    EXPECT_EQ(found.front().near->serial, u"HB-20471"_s);
    EXPECT_EQ(found.front().near->difference.segments.back().kind, Segment::Kind::Swapped);
    EXPECT_TRUE(doubts(incoming(), memory({nearOfAnother})).isEmpty());
    EXPECT_TRUE(doubts(incoming(), memory({nearButFitted})).isEmpty());
    EXPECT_TRUE(doubts(incoming(), memory({near, {kType, u"HB-20417"_s}})).isEmpty()) << "it is there itself";
}

TEST(DoubtsTest, AnEmptySerialIsNobodys)
{
    Incoming lamp = incoming();
    lamp.serial = u" - "_s;

    EXPECT_TRUE(doubts(lamp, memory({{kType, u""_s, Where::Recycled}})).isEmpty());
}

TEST(DoubtsTest, ATypeThatTheModelDoesNotTakeStopsAndIsSaidFirst)
{
    Memory known = memory({{kType, u"HB-20417"_s, Where::Recycled}});
    known.taken = {kOther};

    EXPECT_EQ(causesOf(doubts(incoming(), known)),
              (QList<Cause>{Cause::TypeNotTaken, Cause::SerialRecycled}));
    EXPECT_TRUE(stops(Cause::TypeNotTaken));
}

TEST(DoubtsTest, AnAdaptorThatIsNeededMustBeInTheKit)
{
    Memory known = memory();
    known.withAdaptor = {kType};
    EXPECT_EQ(causesOf(doubts(incoming(), known)), QList<Cause>{Cause::AdaptorMissing});

    known.adaptorInKit = true;
    EXPECT_TRUE(doubts(incoming(), known).isEmpty());
}

TEST(DoubtsTest, ADayOnTheLabelIsOverAfterItAndAMonthAfterItsLast)
{
    const auto until = [](int year, int month, std::optional<int> day) {
        Incoming lamp = incoming();
        lamp.useBy = LabelDate{year, month, day};
        return causesOf(doubts(lamp, memory()));
    };
    EXPECT_EQ(until(2026, 11, 24), QList<Cause>{Cause::PastUseBy});
    EXPECT_TRUE(until(2026, 11, 25).isEmpty());
    EXPECT_TRUE(until(2026, 11, std::nullopt).isEmpty());
    EXPECT_EQ(until(2026, 10, std::nullopt), QList<Cause>{Cause::PastUseBy});
}

TEST(DoubtsTest, ALampCannotBeMadeAfterToday)
{
    const auto made = [](int year, int month, std::optional<int> day) {
        Incoming lamp = incoming();
        lamp.made = LabelDate{year, month, day};
        return causesOf(doubts(lamp, memory()));
    };
    EXPECT_TRUE(made(2026, 11, 25).isEmpty());
    EXPECT_TRUE(made(2026, 11, std::nullopt).isEmpty());
    EXPECT_EQ(made(2026, 11, 26), QList<Cause>{Cause::MadeLater});
    EXPECT_EQ(made(2026, 12, std::nullopt), QList<Cause>{Cause::MadeLater});
}

TEST(DoubtsTest, APictureOfAnotherVisitProvesNothing)
{
    Incoming lamp = incoming();
    lamp.pictures = {kPicture};
    Memory known = memory();
    known.pictures = {{kPicture, kEarlier}, {sha256("another"), kEarlier}, {kPicture, kVisit}};

    EXPECT_EQ(doubts(lamp, known),
              (QList<Doubt>{{.cause = Cause::PictureUsedBefore, .visit = kEarlier, .picture = kPicture}}));
}

TEST(DoubtsTest, EveryCauseHasAWordOfItsOwn)
{
    QStringList all;
    for (int cause = 0; cause <= static_cast<int>(Doubt::Cause::PictureUsedBefore); ++cause)
        all.append(wordOf(static_cast<Doubt::Cause>(cause)));

    EXPECT_EQ(all.removeDuplicates(), 0);
    EXPECT_EQ(wordOf(Doubt::Cause::SerialReturned), QStringLiteral("serial-returned"));
    EXPECT_EQ(wordOf(Doubt::Cause::PictureUsedBefore), QStringLiteral("picture-used-before"));
}

TEST(DoubtKeptTest, SaysWhatItIsAboutWhereThereAreSeveralAndItsWordInFront)
{
    const Hash picture = sha256("a picture");
    const QList<std::pair<Doubt, QString>> rows{
        {{.cause = Cause::SerialReturned}, u"serial-returned"_s},
        {{.cause = Cause::SerialFitted, .lamphouse = LamphouseId(u"lh 2"_s)}, u"serial-fitted lh 2"_s},
        {{.cause = Cause::SerialOfAnother, .type = LampTypeId(u"t"_s)}, u"serial-of-another t"_s},
        {{.cause = Cause::BookedElsewhere, .visit = VisitId(u"v"_s)}, u"booked-elsewhere v"_s},
        {{.cause = Cause::SerialNear, .near = SerialNear{u"HB 7"_s, {}}}, u"serial-near HB 7"_s},
        {{.cause = Cause::SerialNear}, u"serial-near"_s},
        {{.cause = Cause::SerialOfThisVisit, .lamphouse = LamphouseId(u"screen-2"_s), .serial = u"hb-7"_s},
         u"serial-of-this-visit screen-2 HB7"_s},
        {{.cause = Cause::HoursDiffer, .serial = u"hb-7"_s, .hours = 1790}, u"hours-differ HB7 1790"_s},
        {{.cause = Cause::PastItsLife, .serial = u"hb-7"_s, .hours = 1850}, u"past-its-life HB7 1850"_s},
        {{.cause = Cause::PictureUsedBefore, .visit = VisitId(u"v"_s), .picture = picture},
         u"picture-used-before %1 v"_s.arg(picture.hex())}};
    for (const auto& [doubt, kept] : rows) {
        EXPECT_EQ(keptAs(doubt), kept);
        EXPECT_EQ(wordOfKept(kept), wordOf(doubt.cause));
    }
}

} // namespace
} // namespace coldarc::label
