#include "ui/visit/words_entry.h"

#include "ui/label/words_picture.h"
#include "ui/people/people_words.h"
#include "ui/photometry/view_of_sheet.h"
#include "ui/photometry/words_sheet.h"
#include "ui/visit/sign_off_presenter.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/view_of_steps.h"
#include "ui/visit/visit_summary.h"
#include "ui/visit/words_demand.h"
#include "ui/visit/words_doubt.h"
#include "ui/visit/words_effect.h"
#include "ui/visit/words_incident.h"
#include "ui/visit/words_label.h"

#include <QCoreApplication>
#include <QHash>
#include <QLocale>

#include <array>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using machine::Index;
using machine::kNone;

QString words(const char* text)
{
    return QCoreApplication::translate("entry", text);
}

QString joined(QStringList parts)
{
    parts.removeAll(QString());
    return parts.join(u" \u00b7 "_s);
}

class Teller {
public:
    Teller(const QList<visit::Entry>& entries, const visit::VisitState& state)
        : m_entries(entries)
        , m_state(state)
    {
    }

    EntryWords operator()(const visit::Opening& opening) const
    {
        QStringList people;
        for (const visit::PersonFacts& person : opening.people)
            people.append(u"%1, %2"_s.arg(person.name, wordFor(person.role)));
        QStringList owed;
        for (const visit::SwapPlan& plan : opening.swaps) {
            for (const visit::OwedPlan& one : plan.owed)
                owed.append(
                    words("%1, owed and taken up: %2").arg(placeOfSwap(plan.id), titleOf(plan.id, one.step)));
        }
        return {words("The visit was opened"), withText({opening.reason, people.join(u"; "_s)}) + owed, {}};
    }
    EntryWords operator()(const visit::Joined& joined) const
    {
        return {words("%1 came, %2").arg(joined.person.name, wordFor(joined.person.role)), {}, {}};
    }
    EntryWords operator()(const visit::Left& left) const
    {
        return {words("%1 left").arg(name(left.person)), {}, {}};
    }
    EntryWords operator()(const visit::Did& did) const
    {
        const visit::SwapState* swap = m_state.swap(did.swap);
        const procedure::Step* step = stepOf(did.swap, did.step);
        EntryWords told;
        told.what = titleOf(did.swap, did.step);
        if (swap && step)
            told.section = joinedSection(*swap, *step);
        told.more = answerLines(step, did.answers);
        told.more += gateLines(did.gatesWaiting);
        if (!did.reason.isEmpty())
            told.more.append(words("Reason: %1").arg(did.reason));
        for (const QString& doubt : did.doubts)
            told.more.append(words("The records: %1").arg(shortWordsOfDoubt(doubt)));
        if (!did.doubtsAnswer.isEmpty())
            told.more.append(words("It goes in all the same: %1").arg(did.doubtsAnswer));
        if (did.onOneTyping)
            told.more.append(words("Box or paper was typed, and nothing else vouches for it"));
        told.more += countersignLines(did.countersignedBy);
        QStringList again;
        for (const QString& reopened : did.reopened)
            again.append(titleOf(did.swap, StepId(reopened)));
        if (!again.isEmpty())
            told.more.append(
                words("An answer did not fit, so these come again: %1").arg(again.join(u"; "_s)));
        return told;
    }
    EntryWords operator()(const visit::Acted& acted) const
    {
        EntryWords told;
        told.what = orderOf(acted.act.effect);
        const bool isOthers = !acted.act.person.isEmpty() && acted.act.person != m_by;
        told.more = withText({joined({place(acted.act.lamphouse), point(acted.act.point),
                                      lamp(acted.act.lamp), isOthers ? name(acted.act.person) : QString()})});
        if (acted.act.outcome == machine::Outcome::FanRuns)
            told.more.append(words("The fan: runs, air moves"));
        else if (acted.act.outcome == machine::Outcome::FanStill)
            told.more.append(words("The fan: stands still, or nobody can say"));
        else
            told.more += answerLines(stepWith(acted.act.effect), acted.answers);
        told.more += gateLines(acted.gatesWaiting);
        told.more += countersignLines(acted.countersignedBy);
        return told;
    }
    EntryWords operator()(const visit::Happened& happened) const
    {
        const bool isTheFan = happened.incident == visit::Incident::FanOrPower && happened.point.isEmpty();
        QStringList more{
            joined({place(happened.lamphouse), isTheFan ? words("the fan") : QString(), point(happened.point),
                    lamp(happened.lamp), happened.person.isEmpty() ? QString() : name(happened.person)})};
        for (const LamphouseId& lamphouse : happened.wentOut)
            more.append(words("The lamp is out: %1").arg(place(lamphouse)));
        more.append(happened.text);
        return {nameOf(happened.incident), withText(more), {}};
    }
    EntryWords operator()(const visit::IncidentAnswered& answered) const
    {
        for (const visit::IncidentState& one : m_state.incidents) {
            if (one.entry == answered.incident)
                return {words("%1: what was done about it").arg(nameOf(one.kind)),
                        QStringList{answered.text} + countersignLines(answered.countersignedBy),
                        {}};
        }
        return {words("What was done about entry %1").arg(answered.incident),
                QStringList{answered.text} + countersignLines(answered.countersignedBy),
                {}};
    }
    EntryWords operator()(const visit::LampRead& read) const
    {
        QString how = howWords({read.reading, read.scanned, read.picture, read.isAlsoElsewhere});
        if (how.isEmpty()) // of a logbook that kept no codes
            how = words("read by the scanner");
        QStringList codes;
        for (const QString& scanned : read.scanned)
            codes.append(words("Code: %1").arg(visibleText(scanned)));
        return {words("%1: %2, %3")
                    .arg(capitalised(nameOf(read.reading.source)),
                         read.reading.type.isEmpty() ? words("no type") : read.reading.type,
                         read.reading.serial.isEmpty() ? words("no serial") : read.reading.serial),
                withText({joined({lamp(read.lamp), how})}) + codes,
                {}};
    }
    EntryWords operator()(const visit::SerialPassed& passed) const
    {
        const QString evidence = passed.pass.evidence == label::SerialPass::Evidence::Picture
                                     ? words("by a picture")
                                     : words("typed again: %1").arg(passed.pass.typedAgain);
        return {words("A serial that does not agree was let pass"),
                withText({joined({lamp(passed.lamp),
                                  words("%1 on the %2, entered %3")
                                      .arg(passed.pass.read.isEmpty() ? words("not read") : passed.pass.read,
                                           nameOf(passed.pass.source), passed.pass.entry),
                                  evidence}),
                          words("Reason: %1").arg(passed.pass.reason)}),
                {}};
    }
    EntryWords operator()(const visit::LightRead& read) const
    {
        const QLocale locale;
        const procedure::Step* step = stepOf(read.swap, read.step);
        const QString light = locale.toString(read.value, 'g', 5);
        const QString turns = read.turns ? words("%1 turns").arg(locale.toString(*read.turns, 'g', 4))
                                         : words("turns not counted");
        return {read.replaces < 0
                    ? words("Light read: %1").arg(light)
                    : words("Light put right: %1, in place of entry %2").arg(light).arg(read.replaces),
                withText({joined({step ? step->title : QString(), read.axis, turns})}),
                {}};
    }
    EntryWords operator()(const visit::LightSet& set) const
    {
        QStringList knobs;
        for (auto knob = set.knobs.begin(); knob != set.knobs.end(); ++knob)
            knobs.append(words("%1 at %2 turns").arg(knob.key(), QLocale().toString(knob.value(), 'g', 4)));
        return {words("Knobs set, without a reading"),
                withText({joined({titleOf(set.swap, set.step), knobs.join(u", "_s)})}),
                {}};
    }
    EntryWords operator()(const visit::ScreenRead& read) const
    {
        QStringList points;
        QStringList colours;
        for (const visit::PointRead& point : read.points) {
            const QString name = nameOf(point.place);
            points.append(point.replaces < 0 ? u"%1 %2"_s.arg(name, plainText(point.value))
                                             : words("%1 %2 in place of entry %3")
                                                   .arg(name, plainText(point.value))
                                                   .arg(point.replaces));
            if (point.colour)
                colours.append(words("%1: x %2, y %3")
                                   .arg(name, plainText(point.colour->x()), plainText(point.colour->y())));
        }
        return {words("Screen read, in %1: %2").arg(nameOf(read.unit), points.join(u", "_s)),
                withText({joined({titleOf(read.swap, read.step), timeOf(read.time, read.swap)}),
                          colours.join(u"; "_s)}),
                {}};
    }
    EntryWords operator()(const visit::ScreenConditions& said) const
    {
        return {words("Under what conditions the screen is measured"),
                withText({joined({titleOf(said.swap, said.step), timeOf(said.time, said.swap)}),
                          conditionsText(said.conditions), lightText(said)}),
                {}};
    }
    EntryWords operator()(const visit::ScreenLimits& limits) const
    {
        const QString own = ownLimitsText(limits.set);
        return {words("The screen is held against: %1").arg(limits.set.name),
                withText({words("%1, edition %2").arg(limits.set.source, limits.set.edition),
                          own.isEmpty() ? own : words("Own targets: %1").arg(own)}),
                {}};
    }
    EntryWords operator()(const visit::FanAnswered& fan) const
    {
        return {fan.ranOn ? words("The fan ran on all the time")
                          : words("The fan stood still, or nobody could say: the longer wait began"),
                withText({place(fan.lamphouse)}) + countersignLines(fan.countersignedBy),
                {}};
    }
    EntryWords operator()(const visit::LocksSeen& seen) const
    {
        return {seen.asBefore ? words("All as it was left: locks, breakers, lamp")
                              : words("Not as it was left, or nobody could say: looked at anew"),
                withText({place(seen.lamphouse)}) + countersignLines(seen.countersignedBy),
                {}};
    }
    EntryWords operator()(const visit::Owed& owed) const
    {
        return {words("Left to a later visit: %1").arg(titleOf(owed.swap, owed.step)),
                withText({placeOfSwap(owed.swap)}),
                {}};
    }
    EntryWords operator()(const visit::Withdrawn& withdrawn) const
    {
        const bool isThere = withdrawn.entry >= 0 && withdrawn.entry < m_entries.size();
        const QString what = isThere ? wordsOf(m_entries, withdrawn.entry, m_state).what : QString();
        return {words("Withdrew entry %1: %2").arg(withdrawn.entry).arg(what),
                QStringList{words("Reason: %1").arg(withdrawn.reason)} +
                    countersignLines(withdrawn.countersignedBy),
                {}};
    }
    EntryWords operator()(const visit::Noted& noted) const
    {
        return {words("Note"), withText({noted.text, placeOfSwap(noted.swap)}), {}};
    }
    EntryWords operator()(const visit::PictureKept& kept) const
    {
        const procedure::Step* step = stepOf(kept.swap, kept.step);
        return {words("Picture kept"),
                withText({joined({placeOfSwap(kept.swap), step ? step->title : QString()})}),
                {}};
    }
    EntryWords operator()(const visit::Resumed&) const
    {
        return {words("Taken up again after a time that nobody watched"), {}, {}};
    }
    EntryWords operator()(const visit::SafeBegun& begun) const
    {
        return {words("MAKE SAFE was pressed"), withText({begun.reason}), {}};
    }
    EntryWords operator()(const visit::PassedOn& passed) const
    {
        return {words("%1 passed the visit on to %2").arg(name(passed.from), name(passed.to)), {}, {}};
    }
    EntryWords operator()(const visit::LockRemoved& removed) const
    {
        return {words("The lock of %1 was taken off while they were away").arg(name(removed.owner)),
                withText({joined({place(removed.lamphouse),
                                  words("supervisor: %1").arg(name(removed.supervisor))}),
                          removed.absence, removed.attempts}),
                {}};
    }
    EntryWords operator()(const visit::RemovalTold&) const
    {
        return {words("Was told that their lock had been taken off"), {}, {}};
    }
    EntryWords operator()(const visit::CustodyDecided& decided) const
    {
        return {words("Where it goes: %1").arg(custodyWords(decided.custody)),
                withText({lamp(decided.lamp)}),
                {}};
    }
    EntryWords operator()(const visit::Signed& signature) const
    {
        return {words("Signed: %1").arg(meaningWords(signature.meaning)), {}, {}};
    }
    EntryWords operator()(const visit::SiteSigned& signature) const
    {
        return {words("Signed for the site: %1").arg(signature.name), withText({signature.role}), {}};
    }
    EntryWords operator()(const visit::Closed& closed) const
    {
        return {words("The visit was closed: %1").arg(endWords(closed.end)), {}, {}};
    }
    EntryWords operator()(const visit::Addendum& addendum) const
    {
        return {words("Remark after closing"), {addendum.text}, {}};
    }
    EntryWords operator()(const visit::Unknown& unknown) const
    {
        return {words("Something that this program does not know (%1)").arg(unknown.kind), {}, {}};
    }

    void setBy(const PersonId& by) { m_by = by; }

private:
    static QStringList withText(QStringList lines)
    {
        lines.removeAll(QString());
        return lines;
    }
    static QString capitalised(QString text)
    {
        if (!text.isEmpty())
            text[0] = text[0].toUpper();
        return text;
    }
    QString name(const PersonId& id) const { return nameOfPerson(m_state, id); }
    QString timeOf(visit::SheetTime time, const SwapId& id) const
    {
        if (time != visit::SheetTime::After)
            return words("under the lamp that was found");
        const visit::SwapState* swap = m_state.swap(id);
        return swap && swap->followsUp ? words("under the lamp that is in") : words("under the new lamp");
    }
    QString place(const LamphouseId& id) const
    {
        const Index lamphouse = m_state.ground->lamphouse(id);
        return lamphouse == kNone ? QString() : placeOf(m_state, lamphouse);
    }
    QString placeOfSwap(const SwapId& id) const
    {
        const visit::SwapState* swap = m_state.swap(id);
        return swap ? placeOf(m_state, swap->lamphouse) : QString();
    }
    QString point(const PointId& id) const
    {
        const Index index = m_state.ground->point(id);
        return index == kNone ? QString() : pointName(m_state, index);
    }
    QString lamp(const LampId& id) const
    {
        const Index index = m_state.ground->lamp(id);
        return index == kNone ? QString() : lampName(m_state, index);
    }
    /// The procedure's own list: the step may no longer be among those that apply.
    const procedure::Step* stepOf(const SwapId& id, const StepId& step) const
    {
        const visit::SwapState* swap = m_state.swap(id);
        return swap && swap->procedure ? swap->procedure->step(step) : nullptr;
    }
    QString titleOf(const SwapId& swap, const StepId& id) const
    {
        const procedure::Step* step = stepOf(swap, id);
        return step ? step->title : id.text();
    }
    /// Some step of the visit that does this: an act outside the order asks what that step asks.
    const procedure::Step* stepWith(machine::Effect effect) const
    {
        for (const visit::SwapState& swap : m_state.swaps) {
            for (const procedure::Step& step : swap.procedure->steps) {
                if (step.effect == effect)
                    return &step;
            }
        }
        return nullptr;
    }
    QString joinedSection(const visit::SwapState& swap, const procedure::Step& step) const
    {
        return joined({placeOf(m_state, swap.lamphouse), nameOf(step.phase)});
    }
    /// Every answer in words, in the order in which the step asks; what it does not ask comes last.
    static QStringList answerLines(const procedure::Step* step, const QJsonObject& answers)
    {
        QStringList lines;
        QJsonObject rest = answers;
        for (const procedure::Capture& capture : step ? step->captures : QList<procedure::Capture>()) {
            const QString value = rest.take(capture.id).toString();
            if (!value.isEmpty())
                lines.append(joinedAnswer(capture.label, value, capture.unit));
        }
        for (auto it = rest.begin(); it != rest.end(); ++it) {
            if (!it.value().toString().isEmpty())
                lines.append(it.value().toString());
        }
        return lines;
    }
    static QString joinedAnswer(const QString& label, const QString& value, const QString& unit)
    {
        const QString said = unit.isEmpty() ? value : u"%1 %2"_s.arg(value, unit);
        return u"%1: %2"_s.arg(label, said);
    }
    static QStringList gateLines(const QStringList& gates)
    {
        if (gates.isEmpty())
            return {};
        QStringList names;
        for (const QString& gate : gates)
            names.append(gateByWord(gate));
        return {words("Done while waiting: %1").arg(names.join(u", "_s))};
    }
    QStringList countersignLines(const PersonId& by) const
    {
        return by.isEmpty() ? QStringList() : QStringList{words("Seen and agreed by %1").arg(name(by))};
    }

    const QList<visit::Entry>& m_entries;
    const visit::VisitState& m_state;
    PersonId m_by;
};

} // namespace

QString gateByWord(const QString& word)
{
    using machine::Gate;
    static const QHash<QString, Gate> kGates{{u"cold"_s, Gate::Cold},
                                             {u"dead"_s, Gate::Dead},
                                             {u"geared"_s, Gate::Geared},
                                             {u"matched"_s, Gate::Matched},
                                             {u"settled"_s, Gate::Settled}};
    return kGates.contains(word) ? nameOf(kGates.value(word)) : word;
}

QString nameOfPerson(const visit::VisitState& state, const PersonId& id)
{
    const Index person = state.person(id);
    return person == kNone ? id.text() : state.people[person].name;
}

QString endWords(const QString& end)
{
    if (end.isEmpty())
        return words("not closed yet");
    if (end == u"done")
        return words("done");
    const QString left = leftWords(end);
    return left == end ? end : words("made safe: %1").arg(left);
}

QString leftWords(const QString& end)
{
    struct Row {
        const char* end;
        const char* words;
    };
    static constexpr std::array<Row, 3> kRows{{{"as-it-was", "as it was"},
                                               {"as-it-is", "as it is, the rest is owed"},
                                               {"out-of-use", "out of use, locked and tagged"}}};
    for (const Row& row : kRows) {
        if (end == QLatin1String(row.end))
            return words(row.words);
    }
    return end;
}

EntryWords wordsOf(const QList<visit::Entry>& entries, qint64 number, const visit::VisitState& state)
{
    const visit::Entry& entry = entries.at(number);
    Teller teller(entries, state);
    teller.setBy(entry.by);
    return std::visit(teller, entry.body);
}

} // namespace coldarc::ui
