#include "ui/visit/printed_page.h"

#include "core/visit/sheet_of_visit.h"
#include "ui/alignment/words_light.h"
#include "ui/parts/quantities.h"
#include "ui/photometry/view_of_sheet.h"
#include "ui/visit/sign_off_presenter.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/words_effect.h"
#include "ui/visit/words_entry.h"
#include "ui/visit/words_exception.h"
#include "ui/visit/words_incident.h"

#include <QCoreApplication>
#include <QFile>
#include <QPagedPaintDevice>
#include <QPdfWriter>
#include <QTextDocument>

#include <cmath>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using machine::Effect;
using machine::Index;

QString words(const char* text)
{
    return QCoreApplication::translate("printedPage", text);
}

QString table(const QList<QStringList>& rows)
{
    QString html = u"<table border=\"0\" width=\"99%\" cellspacing=\"0\" cellpadding=\"3\">"_s;
    for (const QStringList& row : rows) {
        html += u"<tr>"_s;
        for (const QString& cell : row)
            html += u"<td>%1</td>"_s.arg(cell.toHtmlEscaped());
        html += u"</tr>"_s;
    }
    return html + u"</table>"_s;
}

QString section(const QString& title, const QList<QStringList>& rows)
{
    return rows.isEmpty() ? QString() : u"<h3>%1</h3>%2"_s.arg(title.toHtmlEscaped(), table(rows));
}

/// The steps that prove a gate, or that the job turns on: those whose times a reader looks for.
bool isTold(Effect effect)
{
    switch (effect) {
    case Effect::Find:
    case Effect::LampOff:
    case Effect::Isolate:
    case Effect::LockOn:
    case Effect::TryStart:
    case Effect::ProveAbsence:
    case Effect::ExposeLamp:
    case Effect::LampOut:
    case Effect::ClampLamp:
    case Effect::ShutGuard:
    case Effect::LockOff:
    case Effect::BookIn:
    case Effect::KeyController:
    case Effect::Strike:
    case Effect::PeakAgain:
    case Effect::MeasureScreen:
        return true;
    default:
        return false;
    }
}

QString answersText(const QJsonObject& answers)
{
    QStringList texts;
    for (auto it = answers.begin(); it != answers.end(); ++it) {
        if (!it.value().toString().isEmpty())
            texts.append(it.value().toString());
    }
    return texts.join(u", "_s);
}

QList<QStringList> lampRows(const visit::VisitState& state, const visit::SwapState& swap)
{
    const QLocale locale;
    const auto row = [&](const QString& what, Index lamp) {
        const visit::LampFacts& facts = state.ground->lamps[lamp];
        return QStringList{what, lampName(state, lamp),
                           facts.hours ? hoursText(*facts.hours, locale) : words("hours not known")};
    };
    QList<QStringList> rows{row(words("Lamp found"), swap.oldLamp)};
    if (!swap.followsUp)
        rows.append(row(words("Lamp brought"), swap.newLamp));
    for (const procedure::Step& step : swap.steps) {
        const visit::StepRecord record = swap.record(step.id);
        for (const procedure::Capture& capture : step.captures) {
            const QString value = record.answers.value(capture.id).toString();
            if (capture.kind == procedure::CaptureKind::Counter && !value.isEmpty())
                rows.append({step.title, capture.label, u"%1 %2"_s.arg(value, capture.unit)});
        }
    }
    if (swap.thresholdHours)
        rows.append({words("Alert set at"), hoursText(*swap.thresholdHours, locale), QString()});
    return rows;
}

QList<QStringList> stepRows(const visit::VisitState& state, const visit::SwapState& swap,
                            const QTimeZone& zone)
{
    QList<QStringList> rows;
    for (const procedure::Step& step : swap.steps) {
        const visit::StepRecord record = swap.record(step.id);
        const bool isDone = record.status == visit::StepRecord::Status::Done;
        const bool isOwed = record.status == visit::StepRecord::Status::Owed;
        if (isOwed || (isDone && (isTold(step.effect) || step.stop)))
            rows.append({wallText(record.at.wall, zone), step.title,
                         isOwed ? words("owed to a later visit") : answersText(record.answers),
                         nameOfPerson(state, record.by)});
    }
    return rows;
}

/// What was added or corrected: when, who, what, and the text or reason.
template<class... Kinds>
QList<QStringList> textRows(const QList<visit::Entry>& entries, const visit::VisitState& state,
                            const QTimeZone& zone)
{
    QList<QStringList> rows;
    for (qsizetype number = 0; number < entries.size(); ++number) {
        const visit::Entry& entry = entries[number];
        if (!(std::holds_alternative<Kinds>(entry.body) || ...))
            continue;
        const EntryWords told = wordsOf(entries, number, state);
        rows.append({wallTextWithOffset(entry.at.wall, zone), nameOfPerson(state, entry.by),
                     (QStringList{told.what} + told.more).join(u"; "_s)});
    }
    return rows;
}

/// When the visit was closed; while it is open, when it was last written in. A remark after closing does not
/// prolong it.
WallTime endOf(const QList<visit::Entry>& entries, const visit::VisitState& state)
{
    for (const visit::Entry& entry : entries) {
        if (std::holds_alternative<visit::Closed>(entry.body))
            return entry.at.wall;
    }
    return state.last.wall;
}

QList<QStringList> changeRows(const photometry::Comparison& comparison)
{
    QList<QStringList> rows{{comparisonWords(comparison)}};
    for (const QString& line : changeLinesOf(comparison, photometry::LuminanceUnit::CdPerM2))
        rows.append({line});
    return rows;
}

std::unique_ptr<QTextDocument> documentOf(const QString& html, double width)
{
    auto document = std::make_unique<QTextDocument>();
    document->setDefaultFont(QFont(u"Inter"_s, 9));
    document->setDefaultStyleSheet(
        u"td { vertical-align: top; } h3 { margin-top: 12px; margin-bottom: 2px; }"_s);
    document->setHtml(html);
    document->setTextWidth(width);
    return document;
}

} // namespace

QString printedPage(const visit::VisitState& state, const QList<visit::Entry>& entries, const Hash& head,
                    const QTimeZone& zone)
{
    const site::Site& site = state.ground->opening.site.site;
    const QString opened = entries.isEmpty() ? QString() : wallTextWithOffset(entries.first().at.wall, zone);
    const QString closed = wallTextWithOffset(endOf(entries, state), zone);
    QString html = u"<h2>%1</h2>"_s.arg(words("Lamp exchange at %1").arg(site.name).toHtmlEscaped());
    html += table({{words("Visit"), state.ground->opening.visit.text()},
                   {words("Reason"), state.ground->opening.reason},
                   {words("From, to"), words("%1 to %2").arg(opened, closed)},
                   {words("End"), endWords(state.end)}});
    QList<QStringList> people;
    for (const visit::PersonFacts& person : state.people) {
        const auto role = people::wordOf(person.role);
        people.append({person.name, QString::fromLatin1(role.data(), static_cast<qsizetype>(role.size()))});
    }
    html += section(words("Who"), people);
    for (const visit::SwapState& swap : state.swaps) {
        html += section(words("Lamps at %1").arg(placeOf(state, swap.lamphouse)), lampRows(state, swap));
        html += section(words("Light at %1").arg(placeOf(state, swap.lamphouse)),
                        rowsOf(visit::lightOf(state, swap.id)));
        const QString place = placeOf(state, swap.lamphouse);
        html += section(words("Screen on arrival, %1").arg(place),
                        sheetRows(visit::sheetOf(state, swap.id, visit::SheetTime::Arrival)));
        const QString after = swap.followsUp ? words("Screen under the lamp that is in, %1")
                                             : words("Screen under the new lamp, %1");
        html += section(after.arg(place), sheetRows(visit::sheetOf(state, swap.id, visit::SheetTime::After)));
        if (const auto comparison = visit::comparisonOf(state, swap.id))
            html += section(words("Before and after, %1").arg(place), changeRows(*comparison));
        html += section(words("Gates and work at %1").arg(placeOf(state, swap.lamphouse)),
                        stepRows(state, swap, zone));
    }
    QList<QStringList> incidents;
    for (const visit::IncidentState& one : state.incidents)
        incidents.append({wallText(one.at.wall, zone), nameOf(one.kind),
                          one.isAnswered ? one.answer : words("not answered")});
    html += section(words("What went wrong"), incidents);
    QList<QStringList> exceptions;
    for (const visit::Exception& one : state.exceptions) {
        const bool isThere = one.entry < entries.size();
        exceptions.append({isThere ? wallText(entries[one.entry].at.wall, zone) : QString(),
                           wordsOf(one.kind), words("entry %1").arg(one.entry)});
    }
    html += section(words("Out of the ordinary"), exceptions);
    html += section(words("Notes"), textRows<visit::Noted>(entries, state, zone));
    html += section(words("Corrections"), textRows<visit::Withdrawn>(entries, state, zone));
    html += section(words("Added after closing"), textRows<visit::Addendum>(entries, state, zone));
    QList<QStringList> signatures;
    for (const visit::SignedBy& one : state.signatures)
        signatures.append(
            {one.name, one.role, meaningWords(one.meaning), wallTextWithOffset(one.at.wall, zone)});
    html += section(words("Signatures"), signatures);
    html += u"<p><small>%1</small></p>"_s.arg(
        words("Made from %1 entries; the last one's hash is %2. This paper is a copy: the logbook and the "
              "keys of "
              "those who signed are what is verified.")
            .arg(entries.size())
            // Broken into groups, so that it can be read out and never runs off the sheet.
            .arg(QString(head.hex()).insert(48, u' ').insert(32, u' ').insert(16, u' ')));
    return html;
}

void printPage(const QString& html, QPagedPaintDevice& paper)
{
    const auto document = documentOf(html, paper.pageLayout().paintRectPoints().width());
    document->print(&paper);
}

bool writePdf(const QString& html, const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::WriteOnly))
        return false;
    QPdfWriter writer(&file);
    writer.setPageSize(QPageSize(QPageSize::A4));
    writer.setPageMargins(QMarginsF(18, 18, 18, 18), QPageLayout::Millimeter);
    printPage(html, writer);
    return file.flush() && file.error() == QFileDevice::NoError;
}

double widthLaidOut(const QString& html, double sheetWidth)
{
    return documentOf(html, sheetWidth)->size().width();
}

} // namespace coldarc::ui
