#include "core/review/history.h"

#include "core/base/words.h"
#include "core/people/jws.h"
#include "core/review/exceptions.h"
#include "core/visit/settlement.h"
#include "core/visit/sheet_of_visit.h"
#include "core/visit/unit.h"

#include <algorithm>
#include <tuple>

using namespace Qt::StringLiterals;

namespace coldarc::review {
namespace {

using Kind = HistoryLine::Kind;
using machine::Index;
using machine::kNone;

constexpr Words<About, 3> kAbouts{
    {{About::Lamp, u"lamp"}, {About::Lamphouse, u"lamphouse"}, {About::Person, u"person"}}};

constexpr Words<Kind, kHistoryKinds> kKinds{{{Kind::Visited, u"visited"},
                                             {Kind::Fitted, u"fitted"},
                                             {Kind::TakenOut, u"taken-out"},
                                             {Kind::WentTo, u"went-to"},
                                             {Kind::BookedIn, u"booked-in"},
                                             {Kind::CounterRead, u"counter-read"},
                                             {Kind::CentreRead, u"centre-read"},
                                             {Kind::Unusual, u"unusual"},
                                             {Kind::LeftOwed, u"left-owed"},
                                             {Kind::OwedDone, u"owed-done"},
                                             {Kind::Signed, u"signed"},
                                             {Kind::Came, u"came"},
                                             {Kind::Went, u"went"},
                                             {Kind::PassedOn, u"passed-on"},
                                             {Kind::TookOver, u"took-over"},
                                             {Kind::Authorised, u"authorised"},
                                             {Kind::AuthorisationWithdrawn, u"authorisation-withdrawn"},
                                             {Kind::KeyEnrolled, u"key-enrolled"},
                                             {Kind::KeyRetired, u"key-retired"},
                                             {Kind::KeyVouchedFor, u"key-vouched-for"},
                                             {Kind::KeyCalledOutOfUse, u"key-called-out-of-use"}}};

/// The number of the entry that a settlement made this id of: "visit/entry/what".
qint64 entryOf(const QString& id, const VisitId& visit)
{
    const QStringView rest = QStringView(id).mid(visit.text().size() + 1);
    bool isNumber = false;
    const qint64 entry = rest.left(rest.indexOf(u'/')).toLongLong(&isNumber);
    return isNumber ? entry : -1;
}

template<class T>
std::optional<double> hoursOf(const std::optional<T>& hours)
{
    return hours ? std::optional(hours->hours()) : std::nullopt;
}

/// One visit, line by line.
class Chronicle {
public:
    Chronicle(const visit::VisitState& state, const QList<visit::Entry>& entries)
        : m_state(state)
        , m_entries(entries)
        , m_opening(state.ground->opening)
    {
    }

    VisitHistory told()
    {
        tellVisit();
        tellPeople();
        const auto settlement = visit::settlementOf(m_entries);
        if (settlement)
            tell(*settlement);
        for (const visit::SwapState& swap : m_state.swaps) {
            tellBookIn(swap);
            tellLight(swap);
        }
        for (const Exception& one : exceptionsOf(m_state, m_entries)) {
            if (!settlement || one.kind != Exception::Kind::StepOwed) // that was told with what is owed
                tell(one);
        }
        std::ranges::stable_sort(m_told.lines, {}, &HistoryLine::entry);
        nameSubjects();
        return std::move(m_told);
    }

private:
    /// A line of this visit, by whoever wrote that entry.
    HistoryLine& add(Kind kind, qint64 entry)
    {
        const visit::Entry& written = m_entries[std::clamp(entry, qint64{0}, m_entries.size() - 1)];
        m_told.lines.append({kind, written.at.wall, m_opening.visit, entry});
        m_told.lines.last().person = written.by;
        return m_told.lines.last();
    }

    [[nodiscard]] LamphouseId lamphouseOf(const visit::SwapState& swap) const
    {
        return m_state.ground->lamphouses[swap.lamphouse];
    }
    [[nodiscard]] LampId lampAt(Index lamp) const
    {
        return lamp == kNone ? LampId() : visit::unitOf(m_state, lamp).id;
    }
    [[nodiscard]] QString stateWord() const
    {
        return !m_state.end.isEmpty() ? m_state.end : m_state.isMakingSafe ? u"making-safe"_s : u"open"_s;
    }

    // ---- Who and where ------------------------------------------------------------------------------------

    void tellVisit()
    {
        const auto visited = [this](const QString& part) -> HistoryLine& {
            HistoryLine& line = add(Kind::Visited, 0);
            line.person = PersonId();
            line.words = QStringList{stateWord(), part, m_opening.site.site.name};
            return line;
        };
        for (const visit::SwapState& swap : m_state.swaps) {
            visited(swap.followsUp ? u"follow-up"_s : u"swap"_s).lamphouse = lamphouseOf(swap);
            visited(u"found"_s).lamp = lampAt(swap.oldLamp);
            if (!swap.followsUp)
                visited(u"brought"_s).lamp = lampAt(swap.newLamp);
        }
        for (Index index = 0; index < m_state.people.size(); ++index) {
            const visit::PersonFacts& person = m_state.people[index];
            visited(index == m_state.lead ? u"lead"_s : wordText(people::wordOf(person.role))).person =
                person.id;
        }
    }

    void tellPeople()
    {
        for (qint64 number = 0; number < m_entries.size(); ++number) {
            const visit::Body& body = m_entries[number].body;
            if (const auto* joined = std::get_if<visit::Joined>(&body))
                add(Kind::Came, number).person = joined->person.id;
            if (const auto* left = std::get_if<visit::Left>(&body))
                add(Kind::Went, number).person = left->person;
            if (const auto* passed = std::get_if<visit::PassedOn>(&body)) {
                HistoryLine& from = add(Kind::PassedOn, number);
                from.person = passed->from;
                from.other = passed->to;
                HistoryLine& to = add(Kind::TookOver, number);
                to.person = passed->to;
                to.other = passed->from;
            }
            if (const auto* signature = std::get_if<visit::Signed>(&body))
                add(Kind::Signed, number).words = QStringList{signature->meaning};
        }
    }

    // ---- What became of lamps and counters ----------------------------------------------------------------

    void tell(const visit::Settlement& settlement)
    {
        for (const visit::SeatSettlement& seat : settlement.seats) {
            for (const visit::SeatDeed& deed : seat.deeds)
                std::visit([this](const auto& one) { tell(one); }, deed);
            for (const visit::Handed& handed : seat.handed)
                tell(handed);
        }
        for (const lamps::CounterReading& reading : settlement.readings) {
            HistoryLine& line = add(Kind::CounterRead, entryOf(reading.id.text(), m_opening.visit));
            line.lamphouse = reading.lamphouse;
            line.figure = reading.hours.hours();
            line.person = PersonId();
        }
        for (const visit::OwedStep& owed : settlement.owed)
            tellStep(Kind::LeftOwed, owed.swap, owed.step, owed.lamphouse, owed.lamp);
        for (const visit::OwedDone& done : settlement.owedDone)
            tellStep(Kind::OwedDone, done.swap, done.step, done.lamphouse, done.lamp);
    }
    void tell(const visit::StayBegan& began)
    {
        HistoryLine& line = add(Kind::Fitted, entryOf(began.move.text(), m_opening.visit));
        line.lamp = began.lamp.id;
        line.lamphouse = began.fit.lamphouse;
        line.figure = hoursOf(began.fit.counterIn);
    }
    void tell(const visit::StayEnded& ended)
    {
        HistoryLine& line = add(Kind::TakenOut, entryOf(ended.move.id.text(), m_opening.visit));
        line.lamp = ended.lamp.id;
        line.lamphouse = ended.lamphouse;
        line.figure = hoursOf(ended.counterOut);
        line.words = QStringList{lamps::wordOf(ended.cause)};
    }
    void tell(const visit::Handed& handed)
    {
        HistoryLine& line = add(Kind::WentTo, entryOf(handed.move.id.text(), m_opening.visit));
        line.lamp = handed.lamp.id;
        line.words = QStringList{lamps::wordOf(handed.later.value_or(handed.move.custody))};
        if (handed.later)
            line.words << u"later"_s;
        line.person = PersonId();
    }
    void tellStep(Kind kind, const SwapId& swapId, const StepId& step, const LamphouseId& lamphouse,
                  const LampId& lamp)
    {
        const visit::SwapState* swap = m_state.swap(swapId);
        const qint64 written = swap ? swap->record(step).entry : -1;
        // What was not come to was left by whoever closed the visit.
        HistoryLine& line = add(kind, written >= 0 ? written : closingEntry());
        line.lamp = lamp;
        line.lamphouse = lamphouse;
        line.words = QStringList{titleOf(swap, step.text())};
    }

    [[nodiscard]] qint64 closingEntry() const
    {
        for (qint64 number = m_entries.size() - 1; number >= 0; --number) {
            if (std::holds_alternative<visit::Closed>(m_entries[number].body))
                return number;
        }
        return m_entries.size() - 1;
    }

    [[nodiscard]] static QString titleOf(const visit::SwapState* swap, const QString& step)
    {
        const procedure::Step* found =
            swap && swap->procedure ? swap->procedure->step(StepId(step)) : nullptr;
        return found ? found->title : step;
    }

    void tellBookIn(const visit::SwapState& swap)
    {
        for (const procedure::Step& step : swap.steps) {
            const visit::StepRecord record = swap.record(step.id);
            if (step.effect != machine::Effect::BookIn || record.status != visit::StepRecord::Status::Done)
                continue;
            HistoryLine& line = add(Kind::BookedIn, record.entry);
            line.lamp = lampAt(swap.newLamp);
            line.lamphouse = lamphouseOf(swap);
            line.figure = swap.thresholdHours;
        }
    }

    void tellLight(const visit::SwapState& swap)
    {
        const auto tellCentre = [&](visit::SheetTime time, const QString& word, Index lamp) {
            const visit::SheetOfSwap sheet = visit::sheetOf(m_state, swap.id, time);
            const auto& centre = sheet.sheet.at(photometry::Place::Centre);
            const auto point = std::ranges::find(sheet.points, photometry::Place::Centre,
                                                 [](const visit::SheetPoint& one) { return one.read.place; });
            if (!centre || point == sheet.points.end())
                return;
            HistoryLine& line = add(Kind::CentreRead, point->entry);
            line.lamp = lampAt(lamp);
            line.lamphouse = lamphouseOf(swap);
            line.figure = centre->luminance.cdPerM2();
            line.words = QStringList{word};
            line.person = PersonId();
        };
        tellCentre(visit::SheetTime::Arrival, u"arrival"_s, swap.oldLamp);
        tellCentre(visit::SheetTime::After, u"after"_s, m_state.machine.lamphouse[swap.lamphouse].lamp);
    }

    // ---- What was out of the ordinary ---------------------------------------------------------------------

    /// What an act did is told of the lamphouse of that act; what is of no swap alone is met by every
    /// lamphouse that was worked on, and by somebody once.
    void tell(const Exception& one)
    {
        if (const Index place = placeOf(one); place != kNone) {
            HistoryLine& line = add(Kind::Unusual, one.entry);
            line.unusual = inTitles(one);
            line.lamphouse = m_state.ground->lamphouses[place];
            if (isOfTheLampThere(one.kind))
                line.lamp = lampAt(place); // the fitted ones come first, by lamphouse
            return;
        }
        const visit::SwapState* ofSwap = m_state.swap(one.swap);
        bool isFirst = true;
        for (const visit::SwapState& swap : m_state.swaps) {
            if (ofSwap && ofSwap->id != swap.id)
                continue;
            HistoryLine& line = add(Kind::Unusual, one.entry);
            line.unusual = inTitles(one);
            line.lamphouse = lamphouseOf(swap);
            line.lamp = lampOf(one, swap);
            if (!isFirst)
                line.person = PersonId();
            isFirst = false;
        }
        const bool isByAnother = one.entry >= 0 && one.entry < m_entries.size() && !one.person.isEmpty() &&
                                 m_entries[one.entry].by != one.person;
        if (isByAnother) {
            HistoryLine& line = add(Kind::Unusual, one.entry);
            line.unusual = inTitles(one);
            line.person = one.person;
        }
    }

    [[nodiscard]] Exception inTitles(Exception one) const
    {
        if (one.kind == Exception::Kind::StepOwed || one.kind == Exception::Kind::WrongAnswerAtAStop) {
            for (QString& word : one.words)
                word = titleOf(m_state.swap(one.swap), word);
        }
        return one;
    }

    [[nodiscard]] static bool isOfTheLampThere(Exception::Kind kind)
    {
        return kind == Exception::Kind::LitOfUnknownHours || kind == Exception::Kind::NeighbourLeftDark;
    }

    /// The lamphouse where something was done that is out of the ordinary by itself; kNone: of the swap.
    [[nodiscard]] Index placeOf(const Exception& one) const
    {
        const bool isOfAnAct = one.kind == Exception::Kind::LitOfUnknownHours ||
                               one.kind == Exception::Kind::GateSkipped ||
                               one.kind == Exception::Kind::SafeWardWithGateWaiting;
        const visit::SwapState* swap = m_state.swap(one.swap);
        if (one.kind == Exception::Kind::NeighbourLeftDark)
            return swap ? visit::contextOf(m_state, *swap, kNone).otherLamphouse : kNone;
        if (!isOfAnAct || one.entry < 0 || one.entry >= m_entries.size())
            return kNone;
        const visit::Body& body = m_entries[one.entry].body;
        const auto* did = std::get_if<visit::Did>(&body);
        const auto* acted = std::get_if<visit::Acted>(&body);
        const visit::ActRecord* act = acted ? &acted->act : did && did->act ? &*did->act : nullptr;
        return act ? m_state.ground->lamphouse(act->lamphouse) : kNone;
    }

    /// The lamp that an entry names, as the one that it turned out to be.
    [[nodiscard]] LampId lampNamed(const LampId& id) const { return lampAt(m_state.ground->lamp(id)); }

    /// The lamp that it is about; none where it is about the work.
    [[nodiscard]] LampId lampOf(const Exception& one, const visit::SwapState& swap) const
    {
        const visit::Body& body = m_entries[std::clamp(one.entry, qint64{0}, m_entries.size() - 1)].body;
        switch (one.kind) {
        case Exception::Kind::LabelsDisagreed:
            if (const auto* read = std::get_if<visit::LampRead>(&body))
                return lampNamed(read->lamp);
            return lampAt(swap.newLamp);
        case Exception::Kind::SerialPassed:
            if (const auto* passed = std::get_if<visit::SerialPassed>(&body))
                return lampNamed(passed->lamp);
            return lampAt(swap.newLamp);
        case Exception::Kind::IncidentMet:
            if (const auto* happened = std::get_if<visit::Happened>(&body))
                return lampNamed(happened->lamp);
            return {};
        case Exception::Kind::ThresholdAtOrAboveWarranty:
        case Exception::Kind::LampDoubted:
        case Exception::Kind::OnOneCode:
        case Exception::Kind::OnOneTyping:
        case Exception::Kind::StepOwed:
            return lampAt(swap.newLamp);
        case Exception::Kind::CounterBelowRecord:
            return lampAt(swap.oldLamp);
        case Exception::Kind::LightBelowTolerance:
            return lampAt(m_state.machine.lamphouse[swap.lamphouse].lamp);
        default:
            return {};
        }
    }

    // ---- Names --------------------------------------------------------------------------------------------

    void nameSubjects()
    {
        for (const LamphouseId& lamphouse : m_state.ground->lamphouses)
            name(About::Lamphouse, lamphouse.text(), m_opening.site.site.name,
                 site::placeOf(m_opening.site, lamphouse));
        for (Index index = 0; index < m_state.plant.lamps; ++index) {
            const visit::LampFacts lamp = visit::unitOf(m_state, index);
            const auto* type = lamp.type ? m_state.ground->catalogue.lampType(*lamp.type) : nullptr;
            const QString id = lamp.type ? lamp.type->text() : QString();
            name(About::Lamp, lamp.id.text(), serialOf(lamp, m_state.ground->lamps[index].id),
                 type ? type->code : id, id);
        }
        for (const visit::PersonFacts& person : m_state.people)
            name(About::Person, person.id.text(), person.name, wordText(people::wordOf(person.role)));
    }

    /// Only what a line tells something of.
    void name(About about, const QString& id, const QString& text, const QString& more,
              const QString& type = {})
    {
        const bool isTold = std::ranges::any_of(m_told.lines, [&](const HistoryLine& line) {
            return (about == About::Lamp && line.lamp.text() == id) ||
                   (about == About::Lamphouse && line.lamphouse.text() == id) ||
                   (about == About::Person && line.person.text() == id);
        });
        if (isTold && !id.isEmpty())
            m_told.subjects.append({about, id, text, more, type, m_entries.first().at.wall});
    }

    /// As it is on record; else as its own marking was read last, else any other source.
    [[nodiscard]] QString serialOf(const visit::LampFacts& lamp, const LampId& planned) const
    {
        QString serial = lamp.serial;
        for (const label::Reading& reading : m_state.papers.value(planned).readings) {
            const bool isBetter = serial.isEmpty() || reading.source == label::Source::OwnMarking;
            if (lamp.serial.isEmpty() && isBetter && !reading.serial.isEmpty())
                serial = reading.serial;
        }
        return serial;
    }

    const visit::VisitState& m_state;
    const QList<visit::Entry>& m_entries;
    const visit::Opening& m_opening;
    VisitHistory m_told;
};

WallTime momentOf(people::Day day)
{
    return WallTime(std::chrono::sys_days(day));
}

void tellAuthorisation(const PersonId& person, const people::Authorisation& one, QList<HistoryLine>& lines)
{
    HistoryLine given{Kind::Authorised, momentOf(one.from)};
    given.person = person;
    given.other = one.givenBy;
    given.words = QStringList{wordText(people::wordOf(one.duty)), people::isoText(one.from),
                              people::isoText(one.until)};
    for (const ModelId& model : one.models.value_or(std::vector<ModelId>()))
        given.words.append(model.text());
    lines.append(given);
    if (!one.withdrawnOn)
        return;
    HistoryLine withdrawn{Kind::AuthorisationWithdrawn, momentOf(*one.withdrawnOn)};
    withdrawn.person = person;
    withdrawn.words = QStringList{wordText(people::wordOf(one.duty)), people::isoText(*one.withdrawnOn)};
    lines.append(withdrawn);
}

/// One deed, told by two.
bool isOneDeed(const HistoryLine& one, const HistoryLine& other)
{
    return one.kind == other.kind && one.lamp == other.lamp && one.at == other.at;
}

bool isSame(const Stay& stay, const HistoryLine& line)
{
    return stay.lamp == line.lamp && stay.lamphouse == line.lamphouse && !stay.to;
}

/// Nothing where the counters raise a question: hours are not guessed.
std::optional<double> ranIn(const Stay& stay)
{
    if (!stay.counterIn || !stay.counterOut)
        return std::nullopt;
    lamps::Counters counters{lamps::CounterHours::fromHours(*stay.counterIn),
                             lamps::CounterHours::fromHours(*stay.counterOut), std::nullopt, std::nullopt};
    if (stay.from && stay.to && *stay.to >= *stay.from)
        counters.stay = *stay.to - *stay.from;
    const auto run = lamps::hoursRun(counters);
    const auto* hours = std::get_if<lamps::LampHours>(&run);
    return hours ? std::optional(hours->hours()) : std::nullopt;
}

/// The stay in which this lamp is in this lamphouse; one whose beginning nobody told where there is none.
Stay& runningStay(std::vector<Stay>& stays, const HistoryLine& line)
{
    const auto found =
        std::find_if(stays.rbegin(), stays.rend(), [&](const Stay& stay) { return isSame(stay, line); });
    if (found != stays.rend())
        return *found;
    stays.push_back({line.lamp, line.lamphouse});
    return stays.back();
}

void tellStay(std::vector<Stay>& stays, const HistoryLine& line)
{
    switch (line.kind) {
    case Kind::Fitted:
        stays.push_back({line.lamp, line.lamphouse, line.at, line.figure, line.visit, line.entry});
        return;
    case Kind::TakenOut: {
        Stay& stay = runningStay(stays, line);
        stay.to = line.at;
        stay.counterOut = line.figure;
        stay.cause = line.words.value(0);
        stay.visitOut = line.visit;
        stay.entryOut = line.entry;
        stay.run = line.against ? line.against : ranIn(stay);
        return;
    }
    case Kind::CentreRead: {
        Stay& stay = runningStay(stays, line);
        if (line.words.value(0) == u"arrival")
            stay.lightBefore = line.figure;
        else if (!stay.lightAfter)
            stay.lightAfter = line.figure;
        return;
    }
    default:
        return;
    }
}

} // namespace

QString wordOf(About about)
{
    return wordIn(kAbouts, about);
}

std::optional<About> aboutFromWord(const QString& word)
{
    return valueIn(kAbouts, word);
}

QString wordOf(Kind kind)
{
    return wordIn(kKinds, kind);
}

std::optional<Kind> historyKindFromWord(const QString& word)
{
    return valueIn(kKinds, word);
}

VisitHistory historyOf(const visit::VisitState& state, const QList<visit::Entry>& entries)
{
    if (!state.ground || entries.isEmpty())
        return {};
    return Chronicle(state, entries).told();
}

QList<HistoryLine> linesOf(const std::vector<lamps::CustodyMove>& moves, const std::vector<lamps::Fit>& fits)
{
    QList<HistoryLine> lines;
    for (const lamps::CustodyMove& move : moves) {
        const bool isOfAFit =
            move.custody == lamps::Custody::Fitted || std::ranges::any_of(fits, [&](const lamps::Fit& fit) {
                return fit.lamp == move.lamp && fit.end && fit.end->to == move.at;
            });
        if (isOfAFit)
            continue; // the fit says more
        HistoryLine line{Kind::WentTo, move.at};
        line.lamp = move.lamp;
        line.words = QStringList{lamps::wordOf(move.custody)};
        lines.append(line);
    }
    for (const lamps::Fit& fit : fits) {
        HistoryLine in{Kind::Fitted, fit.from};
        in.lamp = fit.lamp;
        in.lamphouse = fit.lamphouse;
        in.figure = hoursOf(fit.counterIn);
        lines.append(in);
        if (!fit.end)
            continue;
        HistoryLine out{Kind::TakenOut, fit.end->to};
        out.lamp = fit.lamp;
        out.lamphouse = fit.lamphouse;
        out.figure = hoursOf(fit.end->counterOut);
        out.against = hoursOf(fit.end->run);
        out.words = QStringList{lamps::wordOf(fit.end->cause)};
        lines.append(out);
    }
    return lines;
}

QList<HistoryLine> linesOf(const PersonId& person, const std::vector<people::Authorisation>& authorisations,
                           const std::vector<people::EnrolledKey>& keys, const people::Trust& heard)
{
    QList<HistoryLine> lines;
    for (const people::Authorisation& one : authorisations)
        tellAuthorisation(person, one, lines);
    for (const people::EnrolledKey& key : keys) {
        const auto tellKey = [&](Kind kind, WallTime at) {
            HistoryLine line{kind, at};
            line.person = person;
            line.words = QStringList{people::thumbprint(key.publicKey)};
            lines.append(line);
        };
        tellKey(Kind::KeyEnrolled, key.enrolledAt);
        if (key.retiredAt)
            tellKey(Kind::KeyRetired, *key.retiredAt);
    }
    const auto tellPaper = [&](Kind kind, WallTime at, const QStringList& words) {
        HistoryLine line{kind, at};
        line.person = person;
        line.words = words;
        lines.append(line);
    };
    for (const auto& one : heard.heardCertificates()) {
        const people::Enrolment& said = one.said.enrolment;
        if (said.person == person)
            tellPaper(Kind::KeyVouchedFor, said.at,
                      {one.key, one.said.office, people::isoText(said.from), people::isoText(said.until)});
    }
    for (const auto& one : heard.heardRetirements()) {
        const people::Retirement& said = one.said.retirement;
        tellPaper(Kind::KeyCalledOutOfUse, said.at, {one.key, one.said.office, people::isoText(said.since)});
    }
    return lines;
}

QList<HistoryLine> together(const QList<HistoryLine>& visits, const QList<HistoryLine>& own)
{
    QList<HistoryLine> lines = visits;
    for (const HistoryLine& line : own) {
        const auto told = std::ranges::find_if(
            lines, [&](const HistoryLine& one) { return !one.visit.isEmpty() && isOneDeed(one, line); });
        if (told == lines.end())
            lines.append(line);
        else if (line.against)
            told->against = line.against;
    }
    std::ranges::stable_sort(lines, [](const HistoryLine& one, const HistoryLine& other) {
        return std::tie(one.at, one.entry) > std::tie(other.at, other.entry);
    });
    return lines;
}

std::vector<Stay> staysOf(const QList<HistoryLine>& lines)
{
    std::vector<Stay> stays;
    for (auto line = lines.rbegin(); line != lines.rend(); ++line)
        tellStay(stays, *line);
    return stays;
}

} // namespace coldarc::review
