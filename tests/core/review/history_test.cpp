#include "core/review/history.h"

#include "core/people/jws.h"
#include "core/visit/unit.h"
#include "tests/core/visit/night.h"

#include <algorithm>

namespace coldarc::review {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using test::Night;
using Kind = HistoryLine::Kind;

// All lamps, persons and places are invented.

const LampId kOld{u"old-1-main"_s};
const LampId kNew{u"new-1"_s};
const LamphouseId kLamphouse{u"lamphouse-1-main"_s};

VisitHistory historyOf(const Night& night)
{
    return review::historyOf(night.state, night.entries);
}

QList<HistoryLine> linesOf(const Night& night, Kind kind)
{
    QList<HistoryLine> lines = historyOf(night).lines;
    lines.removeIf([kind](const HistoryLine& line) { return line.kind != kind; });
    return lines;
}

/// The one line of this kind.
HistoryLine lineOf(const Night& night, Kind kind)
{
    const QList<HistoryLine> lines = linesOf(night, kind);
    EXPECT_EQ(lines.size(), 1) << wordOf(kind).toStdString();
    return lines.value(0);
}

std::optional<machine::Effect> effectAt(const Night& night, qint64 entry)
{
    if (entry < 0 || entry >= night.entries.size())
        return std::nullopt;
    const auto* did = std::get_if<visit::Did>(&night.entries[entry].body);
    return did && did->act ? std::optional(did->act->effect) : std::nullopt;
}

/// 1980 h on arrival, 0 h read back, everything else as the night has it.
Night swapped()
{
    Night night;
    for (const auto& [step, hours] :
         {std::pair(u"read-counters"_s, u"1980"_s), std::pair(u"key-controller"_s, u"0"_s)}) {
        night.doUntil(step);
        EXPECT_TRUE(night.doStep(step, [&](QJsonObject& answers) { answers[u"hours"_s] = hours; }));
    }
    night.doAll();
    night.close();
    return night;
}

TEST(HistoryTest, ASwapTellsWhichLampCameOutAndWhichWentInAtWhichCounter)
{
    const Night night = swapped();

    const HistoryLine out = lineOf(night, Kind::TakenOut);
    EXPECT_EQ(out.lamp, kOld);
    EXPECT_EQ(out.lamphouse, kLamphouse);
    EXPECT_EQ(out.figure, 1980);
    EXPECT_EQ(out.person, night.ada());
    const HistoryLine in = lineOf(night, Kind::Fitted);
    EXPECT_EQ(in.lamp, kNew);
    EXPECT_EQ(in.lamphouse, kLamphouse);
    EXPECT_EQ(in.figure, 0);
    const HistoryLine gone = lineOf(night, Kind::WentTo);
    EXPECT_EQ(gone.lamp, kOld);
    EXPECT_EQ(gone.words, (QStringList{u"returned"_s, u"later"_s}));
    EXPECT_EQ(lineOf(night, Kind::BookedIn).lamp, kNew);
}

TEST(HistoryTest, EveryLineNamesTheEntryThatSaysIt)
{
    const Night night = swapped();

    EXPECT_EQ(effectAt(night, lineOf(night, Kind::Fitted).entry), machine::Effect::LampIn);
    EXPECT_EQ(effectAt(night, lineOf(night, Kind::TakenOut).entry), machine::Effect::LampOut);
    EXPECT_EQ(effectAt(night, lineOf(night, Kind::BookedIn).entry), machine::Effect::BookIn);
    const QList<HistoryLine> lines = historyOf(night).lines;
    EXPECT_FALSE(lines.isEmpty());
    EXPECT_TRUE(std::ranges::is_sorted(lines, {}, &HistoryLine::entry));
    for (const HistoryLine& line : lines) {
        ASSERT_GE(line.entry, 0);
        ASSERT_LT(line.entry, night.entries.size());
        EXPECT_EQ(line.at, night.entries[line.entry].at.wall);
        EXPECT_EQ(line.visit, night.opening().visit);
    }
}

TEST(HistoryTest, TheLightAfterASwapIsTheNewLampsOwn)
{
    const HistoryLine light = lineOf(swapped(), Kind::CentreRead); // nobody measured on arrival

    EXPECT_EQ(light.lamp, kNew);
    EXPECT_EQ(light.lamphouse, kLamphouse);
    EXPECT_EQ(light.words, QStringList{u"after"_s});
    EXPECT_EQ(light.figure, 48);
}

TEST(HistoryTest, AVisitThatIsOpenTellsWhoIsThereAndNothingOfLampsYet)
{
    Night night;
    night.doUntil(u"lamp-in"_s);

    const QList<HistoryLine> visits = linesOf(night, Kind::Visited);

    ASSERT_EQ(visits.size(), 4); // the lamphouse, both lamps, whoever leads
    for (const HistoryLine& line : visits)
        EXPECT_EQ(line.words.first(), u"open"_s);
    EXPECT_EQ(visits[0].words.value(1), u"swap"_s);
    EXPECT_EQ(visits[1].words.value(1), u"found"_s);
    EXPECT_EQ(visits[2].words.value(1), u"brought"_s);
    EXPECT_EQ(visits[3].words.value(1), u"lead"_s);
    EXPECT_EQ(visits[3].person, night.ada());
    EXPECT_TRUE(linesOf(night, Kind::TakenOut).isEmpty());
    EXPECT_TRUE(review::historyOf({}, {}).lines.isEmpty());
}

TEST(HistoryTest, NamesEverythingThatItsLinesTellOfAndNothingElse)
{
    const VisitHistory told = historyOf(swapped());

    ASSERT_EQ(told.subjects.size(), 4);
    EXPECT_EQ(told.subjects[0].name, u"Pier Street"_s);
    EXPECT_EQ(told.subjects[0].more, u"Screen 1"_s);
    EXPECT_EQ(told.subjects[1].name, u"OLD000001"_s);
    EXPECT_EQ(told.subjects[2].name, u"NEW000001"_s);
    EXPECT_FALSE(told.subjects[2].more.isEmpty());
    EXPECT_FALSE(told.subjects[2].type.isEmpty());
    EXPECT_EQ(told.subjects[3].name, u"A. Okoro"_s);
    EXPECT_EQ(told.subjects[3].more, u"engineer"_s);
}

TEST(HistoryTest, ALampWithoutASerialOnRecordGoesByItsOwnMarking)
{
    visit::Opening opening = Night().opening();
    opening.visit = VisitId(u"visit-2"_s);
    opening.swaps.first().newLamp.serial.clear();
    Night night(opening);
    night.doUntil(u"match-box"_s);
    const auto read = [&](label::Source source, const QString& serial) {
        ASSERT_TRUE(
            night.tell(visit::LampRead{kNew, {source, label::Means::Typed, night.newType().code, serial}}));
    };
    read(label::Source::OwnMarking, u"HV 00123"_s);
    read(label::Source::Box, u"HV 99999"_s);

    const QList<Subject> subjects = historyOf(night).subjects;
    const auto lamp = std::ranges::find(subjects, kNew.text(), &Subject::id);
    ASSERT_NE(lamp, subjects.end());
    EXPECT_EQ(lamp->name, u"HV 00123"_s);
}

TEST(HistoryTest, WhatIsOwedStandsWithItsTitleAndSoDoesWhatALaterVisitDidOfIt)
{
    Night night;
    night.doUntil(u"measure-screen"_s);
    ASSERT_TRUE(night.tell(visit::Owed{night.swap().id, StepId(u"measure-screen"_s)}));
    const qint64 written = night.entries.size() - 1;
    const QString title = night.swap().step(StepId(u"measure-screen"_s))->title;
    const auto saysOwed = [&](const HistoryLine& line) {
        return line.unusual && line.unusual->kind == Exception::Kind::StepOwed &&
               line.unusual->words == QStringList{title};
    };
    EXPECT_EQ(std::ranges::count_if(historyOf(night).lines, saysOwed), 1); // open: it is known no better
    night.doAll();
    night.close();
    const HistoryLine owed = lineOf(night, Kind::LeftOwed);
    EXPECT_EQ(std::ranges::count_if(historyOf(night).lines, saysOwed), 0); // not told twice
    EXPECT_EQ(owed.words, QStringList{title});
    EXPECT_EQ(owed.entry, written);
    EXPECT_EQ(owed.lamp, kNew);
    EXPECT_EQ(owed.lamphouse, kLamphouse);

    Night later(followUpOf(night, {u"measure-screen"_s}));
    later.doAll();
    later.close();
    const HistoryLine done = lineOf(later, Kind::OwedDone);
    EXPECT_EQ(done.words, QStringList{title});
    EXPECT_EQ(done.lamp, kNew);
    EXPECT_EQ(linesOf(later, Kind::Visited).first().words.value(1), u"follow-up"_s);
    EXPECT_TRUE(linesOf(later, Kind::Fitted).isEmpty());
}

TEST(HistoryTest, WhatConcernsTheWholeVisitIsMetAtEachLamphouseAndOnceByWhoeverWroteIt)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::Alone, {}, {}, 2);
    ASSERT_TRUE(night.tell(visit::Happened())); // no time left

    QList<HistoryLine> lines = linesOf(night, Kind::Unusual);
    lines.removeIf([](const HistoryLine& line) {
        return !line.unusual || line.unusual->kind != Exception::Kind::IncidentMet;
    });
    ASSERT_EQ(lines.size(), 2);
    EXPECT_EQ(lines[0].lamphouse, LamphouseId(u"lamphouse-1-main"_s));
    EXPECT_EQ(lines[0].person, night.ada());
    EXPECT_EQ(lines[1].lamphouse, LamphouseId(u"lamphouse-2-main"_s));
    EXPECT_TRUE(lines[1].person.isEmpty());
    EXPECT_TRUE(lines[0].lamp.isEmpty());
}

TEST(HistoryTest, WhatSpeaksOfALampIsInItsHistory)
{
    const Night night = swapped(); // 1980 h, where 1200 h are on record: more, so nothing is said
    QList<HistoryLine> lines = linesOf(night, Kind::Unusual);
    EXPECT_TRUE(std::ranges::none_of(lines, [](const HistoryLine& line) {
        return line.unusual->kind == Exception::Kind::CounterBelowRecord;
    }));

    Night plain; // 900 h
    plain.doAll();
    plain.close();
    lines = linesOf(plain, Kind::Unusual);
    const auto counter = std::ranges::find_if(lines, [](const HistoryLine& line) {
        return line.unusual->kind == Exception::Kind::CounterBelowRecord;
    });
    ASSERT_NE(counter, lines.end());
    EXPECT_EQ(counter->lamp, kOld);
    EXPECT_EQ(counter->unusual->against, 1200);
}

QList<HistoryLine> unusual(const Night& night, Exception::Kind kind)
{
    QList<HistoryLine> lines = linesOf(night, Kind::Unusual);
    lines.removeIf([kind](const HistoryLine& line) { return line.unusual->kind != kind; });
    return lines;
}

TEST(HistoryTest, WhatSpeaksOfALampIsToldOfTheOneThatItTurnedOutToBe)
{
    Night night;
    night.takenFromTheVan = {{0, u"VAN000077"_s}}; // not the one that was planned
    night.doUntil(u"match-box"_s);
    night.readLabels();
    ASSERT_TRUE(night.tell(
        visit::LampRead{kNew, {label::Source::Box, label::Means::Typed, u"HVQ21-40A"_s, u"NEW00000I"_s}}));
    night.readLabels();
    night.doAll();
    night.close();

    const QList<HistoryLine> lines = unusual(night, Exception::Kind::LabelsDisagreed);

    ASSERT_FALSE(lines.isEmpty());
    EXPECT_EQ(lines.first().lamp, visit::unitOf(night.state, night.swap().newLamp).id);
    EXPECT_NE(lines.first().lamp, kNew);
}

TEST(HistoryTest, TheLampBesideASwapHasInItsHistoryThatItWasLitOrLeftOut)
{
    const auto end = [](bool isPastItsLife) {
        visit::Opening opening = Night(u"quillhaven-pair"_s).opening();
        opening.fitted[1].hours = isPastItsLife ? std::optional(100'000.0) : std::nullopt;
        Night night(opening);
        night.doAll();
        night.close();
        return night;
    };
    const Night lit = end(false);
    const LampId beside = lit.opening().fitted[1].id;

    for (const auto& [night, kind] : {std::pair(lit, Exception::Kind::LitOfUnknownHours),
                                      std::pair(end(true), Exception::Kind::NeighbourLeftDark)}) {
        const QList<HistoryLine> lines = unusual(night, kind);
        ASSERT_EQ(lines.size(), 1);
        EXPECT_EQ(lines.first().lamphouse, night.opening().fittedIn[1]);
        EXPECT_EQ(lines.first().lamp, beside);
    }
}

TEST(HistoryTest, PeopleStandInItByWhatTheyWereAndWhatTheySigned)
{
    Night night(u"larkmoor-teal"_s, Night::Crew::WithRelief);
    ASSERT_TRUE(night.tell(night.ben(), visit::PassedOn{night.ada(), night.ben()}));
    ASSERT_TRUE(night.tell(night.ada(), visit::Left{night.ada()}));
    ASSERT_TRUE(night.tell(night.ben(), visit::Joined{Night::electrician()}));

    const HistoryLine passed = lineOf(night, Kind::PassedOn);
    EXPECT_EQ(passed.person, night.ada());
    EXPECT_EQ(passed.other, night.ben());
    EXPECT_EQ(lineOf(night, Kind::TookOver).person, night.ben());
    EXPECT_EQ(lineOf(night, Kind::Went).person, night.ada());
    EXPECT_EQ(lineOf(night, Kind::Came).person, night.eva());
    QList<HistoryLine> visits = linesOf(night, Kind::Visited);
    visits.removeIf([](const HistoryLine& line) { return line.person.isEmpty(); });
    ASSERT_EQ(visits.size(), 3);
    EXPECT_EQ(visits[0].words.value(1), u"engineer"_s);
    EXPECT_EQ(visits[1].words.value(1), u"lead"_s); // who took over leads
    EXPECT_EQ(visits[2].words.value(1), u"electrician"_s);
    const HistoryLine signature = lineOf(swapped(), Kind::Signed);
    EXPECT_EQ(signature.words, QStringList{u"performed"_s});
}

// ---- What the workspace's own tables say ------------------------------------------------------------------

lamps::Fit ownFit(double in, std::optional<double> out, std::optional<double> run)
{
    lamps::Fit fit{lamps::FitId(u"f"_s), kOld, kLamphouse, lamps::CounterHours::fromHours(in),
                   WallTime(24h),        {}};
    if (out)
        fit.end = {lamps::CounterHours::fromHours(*out), WallTime(24h * 200), lamps::Cause::Dim, std::nullopt,
                   run ? std::optional(lamps::LampHours::fromHours(*run)) : std::nullopt};
    return fit;
}

TEST(HistoryTest, ALampThatCameOutGoesIntoItsBoxInOneLine)
{
    const lamps::CustodyMove van{lamps::MoveId(u"m1"_s), kOld, lamps::Custody::InVan,
                                 PersonId(u"p"_s),       {},   WallTime(1h)};
    lamps::CustodyMove in = van;
    in.custody = lamps::Custody::Fitted;
    in.at = WallTime(24h);
    lamps::CustodyMove boxed = van;
    boxed.custody = lamps::Custody::Boxed;
    boxed.at = WallTime(24h * 200);

    const QList<HistoryLine> lines = review::linesOf({van, in, boxed}, {ownFit(10, 1400, 1390)});

    ASSERT_EQ(lines.size(), 3);
    EXPECT_EQ(lines[0].kind, Kind::WentTo);
    EXPECT_EQ(lines[0].words, QStringList{u"in-van"_s});
    EXPECT_EQ(lines[1].kind, Kind::Fitted);
    EXPECT_EQ(lines[2].kind, Kind::TakenOut);
    EXPECT_EQ(lines[2].against, 1390);
    EXPECT_EQ(lines[2].words, QStringList{u"dim"_s});
}

TEST(HistoryTest, WhatAVisitAndTheLampsRecordsTellOfOneDeedIsToldOnceWithTheRecordsHours)
{
    HistoryLine out{Kind::TakenOut, WallTime(24h * 200), VisitId(u"v"_s), 17};
    out.lamp = kOld;
    out.lamphouse = kLamphouse;
    const QList<HistoryLine> own =
        review::linesOf(std::vector<lamps::CustodyMove>(), {ownFit(10, 1400, 990)});

    const QList<HistoryLine> lines = together({out}, own);

    ASSERT_EQ(lines.size(), 2); // newest first
    EXPECT_EQ(lines[0].visit, VisitId(u"v"_s));
    EXPECT_EQ(lines[0].against, 990);
    EXPECT_EQ(lines[1].kind, Kind::Fitted);
    EXPECT_TRUE(lines[1].visit.isEmpty());
}

TEST(HistoryTest, ALampThatWasTakenOutTwiceWasTakenOutTwice)
{
    HistoryLine out{Kind::TakenOut, WallTime(24h * 300), VisitId(u"v"_s), 17};
    out.lamp = kOld;
    out.lamphouse = kLamphouse;
    const QList<HistoryLine> own =
        review::linesOf(std::vector<lamps::CustodyMove>(), {ownFit(10, 1400, 990)}); // on day 200

    const QList<HistoryLine> lines = together({out}, own);

    EXPECT_EQ(std::ranges::count(lines, Kind::TakenOut, &HistoryLine::kind), 2);
    EXPECT_FALSE(lines.first().against);
}

TEST(HistoryTest, AStayHasItsHoursFromItsCountersOrNoneAtAll)
{
    const auto stays = [](double in, double out) {
        QList<HistoryLine> lines =
            together({}, review::linesOf(std::vector<lamps::CustodyMove>(), {ownFit(in, out, {})}));
        return staysOf(lines);
    };
    ASSERT_EQ(stays(10, 1400).size(), 1U);
    EXPECT_EQ(stays(10, 1400).front().run, 1390);
    EXPECT_EQ(stays(10, 1400).front().cause, u"dim"_s);
    EXPECT_EQ(stays(1400, 10).front().run, std::nullopt); // it ran backwards: asked about, never subtracted
    EXPECT_EQ(stays(0, 24 * 300).front().run, std::nullopt); // more hours than the 199 days had
    const auto running = staysOf(review::linesOf(std::vector<lamps::CustodyMove>(), {ownFit(10, {}, {})}));
    ASSERT_EQ(running.size(), 1U);
    EXPECT_FALSE(running.front().to);
    EXPECT_TRUE(running.front().cause.isEmpty());
}

TEST(HistoryTest, TheStaysOfALamphouseFollowOneAnotherWithTheLightOfEach)
{
    Night night = swapped();
    QList<HistoryLine> lines = together(historyOf(night).lines, {});
    HistoryLine arrival{Kind::CentreRead, night.entries[1].at.wall, night.opening().visit, 1};
    arrival.lamp = kOld;
    arrival.lamphouse = kLamphouse;
    arrival.figure = 31;
    arrival.words = QStringList{u"arrival"_s};
    lines = together(lines, {arrival});

    const std::vector<Stay> stays = staysOf(lines);

    ASSERT_EQ(stays.size(), 2U);
    EXPECT_EQ(stays[0].lamp, kOld);
    EXPECT_FALSE(stays[0].from); // nobody told when it went in
    EXPECT_EQ(stays[0].lightBefore, 31);
    EXPECT_EQ(stays[0].counterOut, 1980);
    EXPECT_EQ(stays[0].run, std::nullopt);
    EXPECT_EQ(stays[0].visitOut, night.opening().visit);
    EXPECT_EQ(stays[1].lamp, kNew);
    EXPECT_EQ(stays[1].lightAfter, 48);
    EXPECT_FALSE(stays[1].to);
}

TEST(HistoryTest, AuthorisationsAndKeysStandWithTheirDaysAndWhoeverVouches)
{
    using namespace std::chrono;
    const PersonId person(u"p-1"_s);
    people::Authorisation swap{people::AuthorisationId(u"a-1"_s),
                               person,
                               people::Duty::LampSwap,
                               {},
                               2026y / January / 5d,
                               2026y / December / 31d,
                               PersonId(u"p-9"_s),
                               2026y / June / 1d};
    const people::SigningKey key = people::SigningKey::generate();
    const people::SigningKey office = people::SigningKey::generate();
    const people::EnrolledKey enrolled{key.publicKey(), person, WallTime(24h * 100), WallTime(24h * 300)};
    const auto certificate =
        people::certify({key.publicKey(), person, u"A. Okoro"_s, people::Role::Engineer, 2026y / January / 5d,
                         2027y / January / 4d, WallTime(24h * 101)},
                        office);
    ASSERT_TRUE(certificate);
    people::Certificate broken = *certificate;
    broken.jws.payload = "{}";

    people::Trust heard({office.publicKey()});
    ASSERT_TRUE(heard.add(*certificate));
    EXPECT_FALSE(heard.add(broken));
    const auto retirement =
        people::retire({key.publicKey(), 2026y / November / 20d, WallTime(24h * 20'777)}, office);
    ASSERT_TRUE(retirement && heard.add(*retirement));

    QList<HistoryLine> lines = together({}, review::linesOf(person, {swap}, {enrolled}, heard));

    ASSERT_EQ(lines.size(), 6);
    EXPECT_EQ(lines[0].kind, Kind::KeyCalledOutOfUse);
    EXPECT_EQ(lines[0].words, (QStringList{people::thumbprint(key.publicKey()),
                                           people::thumbprint(office.publicKey()), u"2026-11-20"_s}));
    lines.removeFirst();
    EXPECT_EQ(lines[0].kind, Kind::AuthorisationWithdrawn);
    EXPECT_EQ(lines[0].words, (QStringList{u"lamp-swap"_s, u"2026-06-01"_s}));
    EXPECT_EQ(lines[1].kind, Kind::Authorised);
    EXPECT_EQ(lines[1].words, (QStringList{u"lamp-swap"_s, u"2026-01-05"_s, u"2026-12-31"_s}));
    EXPECT_EQ(lines[1].other, PersonId(u"p-9"_s));
    EXPECT_EQ(lines[2].kind, Kind::KeyRetired);
    EXPECT_EQ(lines[3].kind, Kind::KeyVouchedFor);
    EXPECT_EQ(lines[3].words,
              (QStringList{people::thumbprint(key.publicKey()), people::thumbprint(office.publicKey()),
                           u"2026-01-05"_s, u"2027-01-04"_s}));
    EXPECT_EQ(lines[4].kind, Kind::KeyEnrolled);
    for (const HistoryLine& line : lines)
        EXPECT_EQ(line.person, person);
}

TEST(HistoryTest, EachWordLeadsBackToItsKind)
{
    for (int number = 0; number < kHistoryKinds; ++number) {
        const auto kind = static_cast<Kind>(number);
        EXPECT_FALSE(wordOf(kind).isEmpty());
        EXPECT_EQ(historyKindFromWord(wordOf(kind)), kind);
    }
    for (const About about : kEveryAbout)
        EXPECT_EQ(aboutFromWord(wordOf(about)), about);
    EXPECT_EQ(aboutFromWord(u"bulb"_s), std::nullopt);
    EXPECT_EQ(historyKindFromWord(u""_s), std::nullopt);
}

} // namespace
} // namespace coldarc::review
