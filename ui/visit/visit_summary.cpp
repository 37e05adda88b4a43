#include "ui/visit/visit_summary.h"

#include "core/lamps/custody.h"
#include "core/visit/sheet_of_visit.h"
#include "ui/machine/machine_words.h"
#include "ui/parts/quantities.h"
#include "ui/photometry/view_of_sheet.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/words_exception.h"
#include "ui/visit/words_incident.h"

#include <QCoreApplication>
#include <QLocale>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using machine::Index;
using Status = visit::StepRecord::Status;

QString words(const char* text)
{
    return QCoreApplication::translate("summary", text);
}

/// What was last answered under this name at a step that is not about the new lamp's controller.
QString lastAnswer(const visit::SwapState& swap, const QString& capture)
{
    QString last;
    for (const procedure::Step& step : swap.steps) {
        const visit::StepRecord record = swap.record(step.id);
        const QString answer = record.answers.value(capture).toString();
        if (record.status == Status::Done && step.effect != machine::Effect::KeyController &&
            !answer.isEmpty())
            last = answer;
    }
    return last;
}

/// "HVQ30-40B, HB-10233; counter 1380 h; hours reached; to the maker or dealer".
QString lampOut(const visit::VisitState& state, const visit::SwapState& swap)
{
    QStringList parts{lampName(state, swap.oldLamp)};
    const QString hours = lastAnswer(swap, u"hours"_s);
    if (!hours.isEmpty())
        parts.append(words("counter %1 h").arg(hours));
    const QString cause = lastAnswer(swap, u"cause"_s);
    if (!cause.isEmpty())
        parts.append(cause.toLower());
    const QString custody = state.custody.value(state.ground->lamps[swap.oldLamp].id);
    if (!custody.isEmpty())
        parts.append(custodyWords(custody).toLower());
    return parts.join(u"; "_s);
}

/// "Lit and clamped; no lock hangs there".
QString leftAs(const visit::VisitState& state, const visit::SwapState& swap)
{
    const MachineView view = machineViewOf(state, swap.lamphouse);
    QStringList parts;
    for (const MachineView::Lamphouse& lamphouse : view.lamphouses) {
        if (lamphouse.name == placeOf(state, swap.lamphouse))
            parts << lampWords(lamphouse) << coverWords(lamphouse);
    }
    QStringList locked;
    for (const MachineView::Point& point : view.points) {
        if (point.locks > 0)
            locked.append(point.name);
    }
    parts.append(locked.isEmpty() ? words("no lock hangs there")
                                  : words("locked at %1").arg(locked.join(u", "_s)));
    return parts.join(u"; "_s);
}

/// Titles of what an earlier visit had left and this one did.
QString owedDone(const visit::VisitState& state, const visit::SwapState& swap)
{
    QStringList done;
    for (const StepId& id : visit::owedSteps(state, swap.id)) {
        const procedure::Step* step = swap.step(id);
        if (step && swap.record(id).status == Status::Done)
            done.append(step->title);
    }
    return done.join(u"; "_s);
}

SummarySection swapSection(const visit::VisitState& state, const visit::SwapState& swap)
{
    const bool wasChanged = !swap.followsUp && swap.newLamp == state.machine.lamphouse[swap.lamphouse].lamp;
    SummarySection section{placeOf(state, swap.lamphouse), {}};
    section.rows.append({wasChanged ? words("Lamp out") : words("Lamp found"), lampOut(state, swap)});
    if (!swap.followsUp)
        section.rows.append(
            {wasChanged ? words("Lamp in") : words("Lamp brought"), lampName(state, swap.newLamp)});
    if (const QString done = owedDone(state, swap); !done.isEmpty())
        section.rows.append({words("Owed before, done now"), done});
    if (swap.thresholdHours)
        section.rows.append({words("Alert at"), hoursText(*swap.thresholdHours, QLocale())});
    if (const QString screen = sheetSummary(visit::sheetOf(state, swap.id, visit::SheetTime::After));
        !screen.isEmpty())
        section.rows.append({words("Screen"), screen});
    QStringList owed;
    for (const procedure::Step& step : swap.steps) {
        if (swap.record(step.id).status == Status::Owed)
            owed.append(step.title);
    }
    if (!owed.isEmpty())
        section.rows.append({words("Owed to a later visit"), owed.join(u"; "_s)});
    section.rows.append({words("Left"), leftAs(state, swap)});
    return section;
}

SummarySection incidentSection(const visit::VisitState& state, const QTimeZone& zone)
{
    SummarySection section{words("What went wrong"), {}};
    for (const visit::IncidentState& one : state.incidents) {
        const QString answer = one.isAnswered ? one.answer : words("not answered");
        section.rows.append({wallText(one.at.wall, zone), u"%1: %2"_s.arg(nameOf(one.kind), answer)});
    }
    return section;
}

SummarySection exceptionSection(const visit::VisitState& state, const QList<visit::Entry>& entries,
                                const QList<review::HeadSigned>& signatures, const Stamp& now,
                                const QTimeZone& zone)
{
    SummarySection section{words("Out of the ordinary"), {}};
    for (const review::Exception& one : review::exceptionsIfClosed(state, entries, now, &signatures)) {
        const ExceptionWords told = wordsOf(one, state, entries);
        const Stamp& at = one.entry < entries.size() ? entries.at(one.entry).at : now;
        section.rows.append({wallText(at.wall, zone),
                             told.more.isEmpty() ? told.title : u"%1: %2"_s.arg(told.title, told.more)});
    }
    if (section.rows.isEmpty())
        section.rows.append({QString(), words("Nothing.")});
    return section;
}

} // namespace

QString custodyWords(const QString& custody)
{
    struct Row {
        lamps::Custody custody;
        const char* words;
    };
    static constexpr std::array<Row, 5> kRows{{
        {lamps::Custody::Unused, "Not needed, back to the stock"},
        {lamps::Custody::Returned, "To the maker or dealer"},
        {lamps::Custody::Recycled, "To somebody trained to let it down"},
        {lamps::Custody::KeptBySite, "Kept by the site, boxed"},
        {lamps::Custody::InVan, "Stays in the van"},
    }};
    for (const Row& row : kRows) {
        if (lamps::wordOf(row.custody) == custody)
            return QCoreApplication::translate("custody", row.words);
    }
    return custody;
}

QList<SummarySection> summaryForSigning(const visit::VisitState& state, const QList<visit::Entry>& entries,
                                        const QList<review::HeadSigned>& signatures, const Stamp& now,
                                        const QTimeZone& zone)
{
    QList<SummarySection> sections;
    for (const visit::SwapState& swap : state.swaps)
        sections.append(swapSection(state, swap));
    if (!state.incidents.isEmpty())
        sections.append(incidentSection(state, zone));
    sections.append(exceptionSection(state, entries, signatures, now, zone));
    return sections;
}

} // namespace coldarc::ui
