#include "ui/report/report_content.h"

#include "core/people/calendar.h"
#include "core/report/time_scale.h"
#include "core/review/replay.h"
#include "ui/alignment/view_of_light.h"
#include "ui/alignment/words_light.h"
#include "ui/parts/quantities.h"
#include "ui/people/people_words.h"
#include "ui/photometry/view_of_sheet.h"
#include "ui/photometry/words_sheet.h"
#include "ui/review/view_of_review.h"
#include "ui/review/words_review.h"
#include "ui/visit/sign_off_presenter.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/visit_summary.h"
#include "ui/visit/words_entry.h"
#include "ui/visit/words_incident.h"

#include <QCoreApplication>
#include <QLocale>

#include <algorithm>
#include <array>
#include <cmath>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using machine::kNone;
using report::Caution;
using report::LampPart;
using report::Report;
using report::SignatureLine;
using report::SwapPart;
using review::Span;

constexpr qsizetype kDateChars = 10; // "2026-11-25"
constexpr qsizetype kShownOfHash = 16;
constexpr int kHashGroups = 16;
constexpr double kChapterGap = 16;
constexpr double kHeadGap = 6;
constexpr double kChartHeight = 148;
constexpr double kTraceHeight = 96;
constexpr double kScreenHeight = 112;
constexpr double kPictureHeight = 170;
constexpr double kRowHeight = 13;
constexpr double kCompactGap = 9; // several screens have one page together

QString words(const char* text)
{
    return QCoreApplication::translate("report", text);
}

PaperText small(const QString& text)
{
    return {text, PaperRole::Small};
}

/// Paragraphs of one role, without those that say nothing.
PaperColumn lines(const QStringList& texts, PaperRole role = PaperRole::Body)
{
    PaperColumn column;
    for (const QString& text : texts) {
        if (!text.isEmpty())
            column.append({text, role});
    }
    return column;
}

class Writer {
public:
    Writer(const Report& report, const QTimeZone& zone, const PictureBytes& pictures, RecordPlace record)
        : m_report(report)
        , m_state(report.state)
        , m_zone(zone)
        , m_pictures(pictures)
        , m_record(record)
    {
    }

    QList<PaperBlock> write()
    {
        writeCustomerPage();
        m_blocks.append({PaperBreak{}});
        add({words("For the file"), PaperRole::Title}, 0, true);
        writeExceptions();
        writeTimeLine();
        writeGates();
        writeEntries(words("Isolation, locks and absence of voltage"), m_report.lists.lockout);
        writeEntries(words("Gear and the zone"), m_report.lists.gear);
        writeIncidents();
        writeLabels();
        for (const SwapPart& part : m_report.swaps)
            writeLight(part);
        for (const SwapPart& part : m_report.swaps)
            writeScreen(part);
        writeEveryEntry();
        writeSignatures();
        writeHowToVerify();
        return std::move(m_blocks);
    }

private:
    void add(const PaperText& text, double before = 0, bool keeps = false)
    {
        m_blocks.append({text, before, keeps});
    }
    void add(const PaperColumns& columns, double before = 0, bool keeps = false)
    {
        m_blocks.append({columns, before, keeps});
    }
    void chapter(const QString& title) { add({title, PaperRole::Heading}, kChapterGap, true); }
    void table(const PaperTable& table)
    {
        if (!table.rows.isEmpty())
            m_blocks.append({table, kHeadGap});
    }

    [[nodiscard]] const visit::SwapState& swapOf(const SwapPart& part) const
    {
        return *m_state.swap(part.swap);
    }
    [[nodiscard]] QString placeOfPart(const SwapPart& part) const
    {
        return placeOf(m_state, swapOf(part).lamphouse);
    }
    /// "Light, Screen 2": the screen only where there are several.
    [[nodiscard]] QString withPlace(const QString& title, const SwapPart& part) const
    {
        return m_report.swaps.size() < 2 ? title : words("%1, %2").arg(title, placeOfPart(part));
    }
    [[nodiscard]] QString timeAt(WallTime at) const { return wallTextWithOffset(at, m_zone); }
    /// With the offset, and with the date where the entries have more than one.
    [[nodiscard]] QString timeOf(qint64 entry) const
    {
        const auto dateOf = [this](const visit::Entry& one) { return timeAt(one.at.wall).left(kDateChars); };
        const bool isOneDay = dateOf(m_report.entries.first()) == dateOf(m_report.entries.last());
        const QString time = timeAt(m_report.entries[entry].at.wall);
        return isOneDay ? time.mid(kDateChars + 1) : time;
    }
    [[nodiscard]] QString hours(double hours) const { return hoursText(hours, m_locale); }

    // ---- The customer's page ------------------------------------------------------------------------------

    void writeCustomerPage()
    {
        const site::Site& site = m_state.ground->opening.site.site;
        const QString reason = m_state.ground->opening.reason;
        PaperColumn head = lines({words("Report of a visit")}, PaperRole::Section);
        head += lines({site.name}, PaperRole::Title);
        head += lines({site.town, words("%1 to %2").arg(timeAt(m_report.from), timeAt(m_report.until)),
                       reason.isEmpty() ? QString() : words("Why: %1").arg(reason),
                       words("End: %1").arg(endWords(m_state.end))});
        add(PaperColumns{{0.82, 0.18}, {head, {}}, PaperColumns::Look::Bare, kCodeSide});
        writeCautions();
        for (const SwapPart& part : m_report.swaps)
            writeSwap(part);
        writeWho();
    }

    void writeCautions()
    {
        if (m_report.cautions.empty())
            return;
        PaperColumn cautions{{words("Please note"), PaperRole::Section}};
        for (const Caution caution : m_report.cautions)
            cautions.append({wordsOf(caution), PaperRole::Strong});
        add(PaperColumns{{1.0}, {cautions}, PaperColumns::Look::Framed}, kChapterGap);
    }

    [[nodiscard]] PaperColumn lampColumn(const QString& title, const LampPart& lamp) const
    {
        PaperColumn column{{title, PaperRole::Section}, {lampName(m_state, lamp.lamp), PaperRole::Strong}};
        if (lamp.counter)
            column.append({words("Counter: %1").arg(hours(*lamp.counter))});
        if (lamp.hours)
            column.append({words("On record: %1").arg(hours(*lamp.hours))});
        if (!lamp.cause.isEmpty())
            column.append({words("Why: %1").arg(lamp.cause)});
        if (!lamp.custody.isEmpty())
            column.append({words("Where it goes: %1").arg(custodyWords(lamp.custody))});
        return column;
    }

    void tellDue(PaperColumn& column, const SwapPart& part) const
    {
        if (!part.due)
            return;
        column.append({words("Alert at: %1").arg(hours(part.due->thresholdHours))});
        if (part.due->hoursLeft == 0.0) {
            column.append({words("Next due: the counter stands at the alert, or above")});
        } else if (part.due->expected) {
            column.append({words("Next due: about %1, at %2 h a week")
                               .arg(timeAt(*part.due->expected).left(kDateChars),
                                    m_locale.toString(*part.due->weeklyHours, 'f', 0))});
        } else {
            column.append({words("Next due: not known, since the weekly hours or the hours left are not")});
        }
    }

    /// One swap has its screen drawn on the customer's page, several stand there in a few lines each.
    [[nodiscard]] bool isCompact() const { return m_report.swaps.size() > 1; }

    void writeSwap(const SwapPart& part)
    {
        add({placeOfPart(part), PaperRole::Heading}, isCompact() ? kCompactGap : kChapterGap, true);
        QList<PaperColumn> lamps{
            lampColumn(part.wasExchanged ? words("Lamp out") : words("Lamp found"), part.out)};
        if (part.in) {
            PaperColumn in =
                lampColumn(part.wasExchanged ? words("Lamp in") : words("Lamp brought"), *part.in);
            tellDue(in, part);
            lamps.append(in);
        }
        if (isCompact())
            lamps.append(compactLight(part));
        const QList<double> shares =
            isCompact() ? (lamps.size() == 3 ? QList<double>{0.29, 0.31, 0.4} : QList<double>{0.5, 0.5})
                        : (lamps.size() == 2 ? QList<double>{0.5, 0.5} : QList<double>{1.0});
        add(PaperColumns{shares, lamps, PaperColumns::Look::Framed}, kHeadGap);
        if (!isCompact())
            writeLightOfPage(part);
        QStringList owed;
        for (const StepId& id : part.owed) {
            const procedure::Step* step = swapOf(part).procedure->step(id);
            owed.append(step ? step->title : id.text());
        }
        if (!owed.isEmpty())
            add({words("Owed to a later visit: %1").arg(owed.join(u"; "_s)), PaperRole::Strong}, kHeadGap);
    }

    [[nodiscard]] static PaperColumn lightColumn(const QString& title, const visit::SheetOfSwap& sheet)
    {
        const auto& centre = sheet.sheet.at(photometry::Place::Centre);
        return {
            {title, PaperRole::Section},
            {centre ? withUnit(centre->luminance, photometry::LuminanceUnit::CdPerM2) : words("not measured"),
             centre ? PaperRole::Figure : PaperRole::Body}};
    }

    [[nodiscard]] static PaperColumn changeColumn(const SwapPart& part)
    {
        PaperColumn column{{words("Change"), PaperRole::Section}};
        if (const QString times = changeWords(part); !times.isEmpty())
            column.append({times, PaperRole::Figure});
        else
            column.append(small(comparisonWords(part.comparison)));
        return column;
    }
    /// At the centre; empty: nothing was compared there.
    [[nodiscard]] static QString changeWords(const SwapPart& part)
    {
        const auto& changes = part.comparison ? part.comparison->changes : std::vector<photometry::Change>();
        const auto centre = std::ranges::find(changes, photometry::Place::Centre, &photometry::Change::place);
        return centre == changes.end() ? QString()
                                       : words("%1 times").arg(QLocale().toString(centre->factor, 'f', 2));
    }

    void writeLightOfPage(const SwapPart& part)
    {
        if (part.before.isEmpty() && part.after.isEmpty())
            return add({notMeasuredWords()}, kHeadGap);
        const QString after =
            part.wasExchanged ? words("Light after") : words("Light under the lamp that is in");
        add(PaperColumns{{0.3, 0.3, 0.4},
                         {lightColumn(words("Light before"), part.before), lightColumn(after, part.after),
                          changeColumn(part)},
                         PaperColumns::Look::Bare},
            kHeadGap, true);
        add({screenWords(part)}, kHeadGap);
        if (sheetOfPage(part).points.size() > 1)
            m_blocks.append({PaperDrawings{{screenOf(sheetOfPage(part))}, kScreenHeight}, kHeadGap});
    }

    [[nodiscard]] static const visit::SheetOfSwap& sheetOfPage(const SwapPart& part)
    {
        return part.after.isEmpty() ? part.before : part.after;
    }
    [[nodiscard]] static QString screenWords(const SwapPart& part)
    {
        return (part.after.isEmpty() ? words("Screen on arrival, under the lamp that was found: %1")
                                     : words("Screen: %1"))
            .arg(sheetSummary(sheetOfPage(part)));
    }

    [[nodiscard]] static QString centreWords(const QString& text, const visit::SheetOfSwap& sheet)
    {
        const auto& centre = sheet.sheet.at(photometry::Place::Centre);
        return text.arg(centre ? withUnit(centre->luminance, photometry::LuminanceUnit::CdPerM2)
                               : words("not measured"));
    }
    [[nodiscard]] static PaperColumn compactLight(const SwapPart& part)
    {
        PaperColumn column{{words("Light"), PaperRole::Section}};
        if (part.before.isEmpty() && part.after.isEmpty())
            return column + lines({notMeasuredWords()});
        column += lines({centreWords(words("Before: %1"), part.before)});
        column += lines(
            {centreWords(part.wasExchanged ? words("After: %1") : words("Under the lamp that is in: %1"),
                         part.after)},
            PaperRole::Strong);
        const QString times = changeWords(part);
        column += times.isEmpty() ? lines({comparisonWords(part.comparison)}, PaperRole::Small)
                                  : lines({words("Change: %1").arg(times)}, PaperRole::Strong);
        return column + lines({screenWords(part)}, PaperRole::Small);
    }
    [[nodiscard]] static QString notMeasuredWords()
    {
        return words("The light on the screen was not measured.");
    }

    [[nodiscard]] static PaperScreen screenOf(const visit::SheetOfSwap& sheet)
    {
        const auto& screen = sheet.sheet.conditions().screen;
        return {screen ? screen->aspect() : kUsualAspect,
                pointViewsOf(sheet, photometry::LuminanceUnit::CdPerM2, photometry::Place::Centre)};
    }

    void writeWho()
    {
        add({words("Who"), PaperRole::Heading}, kChapterGap, true);
        PaperTable table{{0.34, 0.36, 0.3}, {words("Name"), words("Signed for"), words("When")}, {}};
        for (const SignatureLine& line : m_report.signatures) {
            if (line.isOfWork && line.key != SignatureLine::Key::Missing)
                table.rows.append({nameColumn(line), lines({meaningWords(line.meaning), badWords(line)}),
                                   lines({momentOf(line)})});
        }
        if (table.rows.isEmpty())
            add({words("Nobody has signed the work.")}, kHeadGap);
        this->table(table);
        if (std::ranges::any_of(m_report.signatures, &SignatureLine::isUnvouched))
            add({words("Nobody vouches for a key that signed here: that it belongs to the person named, this "
                       "record alone does not show."),
                 PaperRole::Strong},
                kHeadGap);
        add(small(words("The pages behind this one are for the file. %1 The square code is the head of that "
                        "record.")
                      .arg(recordWords())),
            kHeadGap);
    }

    [[nodiscard]] bool isUnsigned() const { return m_report.signedUpTo < 0; }
    [[nodiscard]] qint64 behindTheLastSignature() const
    {
        return m_report.entries.size() - 1 - m_report.signedUpTo;
    }
    /// What lies where, and how far it is signed.
    [[nodiscard]] QString recordWords() const
    {
        const bool isInside = m_record == RecordPlace::Inside;
        const QString count = QString::number(m_report.entries.size());
        if (isUnsigned())
            return (isInside ? words("The record of %1 entries, which nobody has signed, lies inside this "
                                     "PDF as an attachment.")
                             : words("The record of %1 entries, which nobody has signed, is not on this "
                                     "paper: whoever printed it has the record."))
                .arg(count);
        const QString record = behindTheLastSignature() == 0
                                   ? words("The signed record of %1 entries").arg(count)
                                   : words("The record of %1 entries, signed up to entry %2,")
                                         .arg(count)
                                         .arg(m_report.signedUpTo);
        return (isInside ? words("%1 lies inside this PDF as an attachment and can be verified without this "
                                 "program's maker.")
                         : words("%1 is not on this paper: whoever printed it has the record, which can be "
                                 "verified without this program's maker."))
            .arg(record);
    }

    [[nodiscard]] static QString roleText(const QString& role)
    {
        const auto known = people::roleFromWord(role.toStdString());
        return known ? wordFor(*known) : role;
    }
    [[nodiscard]] QString momentOf(const SignatureLine& line) const
    {
        return line.isFormer ? words("no moment named") : timeAt(line.at);
    }
    [[nodiscard]] static PaperColumn nameColumn(const SignatureLine& line)
    {
        if (line.isFormer)
            return lines({words("nobody named")});
        return lines({line.role.isEmpty() ? line.name : words("%1, %2").arg(line.name, roleText(line.role))});
    }
    /// What is wrong with a signature; empty: nothing is.
    [[nodiscard]] static QString badWords(const SignatureLine& line)
    {
        switch (line.key) {
        case SignatureLine::Key::Good:
        case SignatureLine::Key::Witness:
            return {};
        case SignatureLine::Key::Bad:
            return words("The signature does not verify.");
        case SignatureLine::Key::OutOfUse:
            return words("The key was out of use: the signature does not count.");
        case SignatureLine::Key::Missing:
            return words("No key signed here.");
        }
        Q_UNREACHABLE();
    }

    // ---- For the file -------------------------------------------------------------------------------------

    void writeExceptions()
    {
        chapter(words("Out of the ordinary"));
        if (m_report.exceptions.isEmpty())
            add({words("Nothing.")}, kHeadGap);
        PaperTable table{
            {0.17, 0.08, 0.34, 0.41}, {words("Time"), words("Entry"), words("What"), words("More")}, {}};
        for (const review::Exception& one : m_report.exceptions) {
            const ExceptionWords told = wordsOf(one, m_state, m_report.entries);
            table.rows.append({lines({timeOf(one.entry)}), lines({QString::number(one.entry)}),
                               lines({told.title}, PaperRole::Strong), lines({told.more})});
        }
        this->table(table);
    }

    [[nodiscard]] double minutesAt(WallTime at) const { return report::minutesBetween(m_report.from, at); }

    void writeTimeLine()
    {
        chapter(words("Time line"));
        add(small(words("Solid: a gate was proved. Hatched: a wait ran. Pale: how the machine stood. A "
                        "dotted line with a "
                        "number: an entry that is out of the ordinary.")),
            kHeadGap, true);
        for (const LamphouseId& lamphouse : m_state.ground->lamphouses) {
            PaperTimeLine line = timeLineOf(lamphouse);
            if (line.rows.isEmpty())
                continue;
            const double height = kRowHeight * static_cast<double>(line.rows.size()) + 2 * kRowHeight;
            m_blocks.append(
                {PaperText{placeOf(m_state, m_state.ground->lamphouse(lamphouse)), PaperRole::Strong},
                 kHeadGap, true});
            m_blocks.append({PaperDrawings{{line}, height}, kHeadGap});
        }
        for (const QString& after : linesAfterClosing(m_report.entries, m_state, m_zone))
            add({after}, kHeadGap);
    }

    [[nodiscard]] PaperTimeLine timeLineOf(const LamphouseId& lamphouse) const
    {
        PaperTimeLine line;
        line.minutes = report::minutesShown(m_report);
        for (const double at : report::ticksOver(line.minutes))
            line.ticks.append({at, wallText(report::after(m_report.from, at), m_zone)});
        line.rows =
            timeLineRowsOf(m_report.timeLine, lamphouse, [this](WallTime at) { return minutesAt(at); });
        QList<qint64> marked;
        const qint64 end = review::endOfWork(m_report.entries);
        for (const review::Exception& one : m_report.exceptions) {
            if (one.entry <= end && !marked.contains(one.entry))
                marked.append(one.entry);
        }
        std::ranges::sort(marked);
        for (const qint64 entry : marked)
            line.marks.append({minutesAt(m_report.entries[entry].at.wall), QString::number(entry)});
        return line;
    }

    void writeGates()
    {
        PaperTable table{{0.12, 0.2, 0.34, 0.34},
                         {words("Gate"), words("Where"), words("Proved"), words("Waits again, or end")},
                         {}};
        for (const Span& span : m_report.timeLine) {
            if (review::kindOf(span.row) != review::SpanKind::Gate)
                continue;
            const QString until = span.until < 0
                                      ? words("held to the end")
                                      : words("%1, entry %2").arg(timeAt(span.endedAt)).arg(span.until);
            table.rows.append({lines({nameOf(span.row)}, PaperRole::Strong),
                               lines({placeOf(m_state, m_state.ground->lamphouse(span.lamphouse))}),
                               lines({words("%1, entry %2").arg(timeAt(span.beganAt)).arg(span.from)}),
                               lines({until})});
        }
        if (table.rows.isEmpty())
            return;
        chapter(words("Gates"));
        this->table(table);
    }

    [[nodiscard]] QList<PaperColumn> rowOf(qint64 number) const
    {
        const visit::Entry& entry = m_report.entries[number];
        const EntryWords told = wordsOf(m_report.entries, number, m_state);
        PaperColumn what = lines({told.what}, PaperRole::Strong);
        what += lines(told.more);
        if (m_state.withdrawn.contains(number))
            what += lines({words("Withdrawn later: it does not count.")}, PaperRole::Strong);
        if (number > m_report.signedUpTo)
            what += lines({words("Signed by nobody.")}, PaperRole::Strong);
        for (const Hash& picture : visit::picturesOf(entry)) {
            if (m_pictures && m_pictures(picture).isEmpty())
                what += lines({words("Picture not in the record.")}, PaperRole::Strong);
        }
        return {lines({QString::number(number)}), lines({timeOf(number)}),
                lines({nameOfPerson(m_state, entry.by)}), what};
    }

    void writeEntries(const QString& title, const std::vector<qint64>& entries)
    {
        if (entries.empty())
            return;
        chapter(title);
        PaperTable table{entryShares(), entryHead(), {}};
        for (const qint64 number : entries)
            table.rows.append(rowOf(number));
        this->table(table);
    }
    [[nodiscard]] static QList<double> entryShares() { return {0.08, 0.17, 0.2, 0.55}; }
    [[nodiscard]] static QStringList entryHead()
    {
        return {words("Entry"), words("Time"), words("Who"), words("What")};
    }

    void writeIncidents()
    {
        if (m_state.incidents.isEmpty())
            return;
        chapter(words("What went wrong"));
        PaperTable table{{0.08, 0.17, 0.3, 0.45},
                         {words("Entry"), words("Time"), words("What"), words("What was done about it")},
                         {}};
        for (const visit::IncidentState& one : m_state.incidents) {
            table.rows.append({lines({QString::number(one.entry)}), lines({timeOf(one.entry)}),
                               lines({nameOf(one.kind)}, PaperRole::Strong),
                               lines({one.isAnswered ? one.answer : words("not answered")})});
        }
        this->table(table);
    }

    [[nodiscard]] static std::optional<Hash> pictureIn(const visit::Body& body)
    {
        if (const auto* kept = std::get_if<visit::PictureKept>(&body))
            return kept->picture;
        if (const auto* read = std::get_if<visit::LampRead>(&body))
            return read->picture;
        const auto* passed = std::get_if<visit::SerialPassed>(&body);
        return passed ? passed->picture : std::nullopt;
    }

    void writeLabels()
    {
        writeEntries(words("What was read of the lamps"), m_report.lists.labels);
        QList<PaperPicture> shown;
        QSet<QString> seen;
        for (const qint64 number : m_report.lists.labels) {
            const auto picture = pictureIn(m_report.entries[number].body);
            if (!picture || seen.contains(picture->hex()))
                continue;
            seen.insert(picture->hex());
            const QByteArray bytes = m_pictures ? m_pictures(*picture) : QByteArray();
            if (!bytes.isEmpty())
                shown.append(
                    {bytes,
                     words("Entry %1: %2").arg(number).arg(wordsOf(m_report.entries, number, m_state).what)});
        }
        for (qsizetype index = 0; index < shown.size(); index += 2) {
            PaperDrawings row{{shown[index]}, kPictureHeight};
            row.drawings.append(index + 1 < shown.size() ? shown[index + 1] : PaperPicture());
            m_blocks.append({row, kHeadGap});
        }
    }

    void writeLight(const SwapPart& part)
    {
        const visit::LightOfSwap& light = part.light;
        if (light.points.empty())
            return;
        chapter(withPlace(words("Bringing up the light"), part));
        add(small(words("Lights as the meter showed them.")), kHeadGap, true);
        PaperTable facts{{0.35, 0.65}, {words("What"), words("Said")}, {}};
        for (const QStringList& row : rowsOf(light))
            facts.rows.append({lines({row.value(0)}), lines({row.value(1)})});
        table(facts);
        const QList<ScanChartView> scans = lastScansOf(light, m_state.ground->model(swapOf(part).lamphouse));
        for (qsizetype index = 0; index < scans.size(); index += 2) {
            PaperDrawings row{{PaperScan{scans[index]}}, kChartHeight};
            if (index + 1 < scans.size())
                row.drawings.append(PaperScan{scans[index + 1]});
            else
                row.drawings.append(PaperPicture()); // as wide as the others
            m_blocks.append({row, kHeadGap});
        }
        add(small(words("Every reading against time; a dotted line where a search began")), kHeadGap, true);
        m_blocks.append({PaperDrawings{{PaperTrace{traceChartOf(light)}}, kTraceHeight}, kHeadGap});
    }

    void writeScreen(const SwapPart& part)
    {
        const QString after = part.wasExchanged ? words("Screen under the new lamp")
                                                : words("Screen under the lamp that is in");
        writeSheet(withPlace(words("Screen on arrival"), part), part.before);
        writeSheet(withPlace(after, part), part.after);
        const QStringList changes = part.comparison
                                        ? changeLinesOf(*part.comparison, photometry::LuminanceUnit::CdPerM2)
                                        : QStringList();
        if (!part.comparison)
            return;
        chapter(withPlace(words("Before and after"), part));
        add({comparisonWords(part.comparison)}, kHeadGap);
        for (const QString& line : changes)
            add({line});
    }

    void writeSheet(const QString& title, const visit::SheetOfSwap& sheet)
    {
        if (sheet.isEmpty())
            return;
        chapter(title);
        if (sheet.points.size() > 1)
            m_blocks.append({PaperDrawings{{screenOf(sheet)}, kScreenHeight}, kHeadGap, true});
        PaperTable rows{{0.26, 0.37, 0.37}, {words("What"), words("Read"), words("How it stands")}, {}};
        for (const QStringList& row : sheetRows(sheet)) {
            QList<PaperColumn> columns;
            for (const QString& cell : row)
                columns.append(lines({cell}));
            rows.rows.append(columns);
        }
        table(rows);
    }

    void writeEveryEntry()
    {
        chapter(words("Every entry"));
        PaperTable table{entryShares(), entryHead(), {}};
        for (qint64 number = 0; number < m_report.entries.size(); ++number)
            table.rows.append(rowOf(number));
        this->table(table);
    }

    void writeSignatures()
    {
        chapter(words("Signatures"));
        add(small(words(
                "Times are those of the laptop on which was signed. A key signs the chain of entries up to "
                "the one "
                "named; the witness of the site has no key and is vouched for by those who sign behind.")),
            kHeadGap, true);
        PaperTable table{{0.2, 0.44, 0.27, 0.09},
                         {words("Name"), words("Meaning"), words("When"), words("Over entry")},
                         {}};
        for (const SignatureLine& line : m_report.signatures) {
            PaperColumn meaning = lines({meaningWords(line.meaning)});
            meaning += lines({badWords(line)}, PaperRole::Strong);
            if (line.key == SignatureLine::Key::Witness)
                meaning += lines({words("witness, without a key")}, PaperRole::Small);
            meaning += lines({formWords(line), keyWords(line)}, PaperRole::Small);
            table.rows.append(
                {nameColumn(line), meaning, lines({momentOf(line)}), lines({QString::number(line.entry)})});
        }
        this->table(table);
    }

    [[nodiscard]] static QString formWords(const SignatureLine& line)
    {
        return line.isFormer ? words("a signature of the former form, which names neither person nor moment")
                             : QString();
    }
    /// Which key signed, and who says whose it is; empty where none did.
    [[nodiscard]] static QString keyWords(const SignatureLine& line)
    {
        if (line.thumbprint.isEmpty())
            return {};
        if (line.vouchedBy.isEmpty())
            return words("key %1; nobody vouches for this key").arg(line.thumbprint);
        QStringList said{words("key %1").arg(line.thumbprint)};
        for (const review::VouchedBy& one : line.vouchedBy)
            said.append(words("vouched for by office %1 (%2 to %3) as that of %4, %5")
                            .arg(one.office, people::isoText(one.from), people::isoText(one.until), one.name,
                                 wordFor(one.role)));
        return said.join(u"; "_s);
    }

    void writeHowToVerify()
    {
        chapter(words("How this is verified"));
        QString head = m_report.head.hex();
        for (qsizetype at = head.size() - kHashGroups; at > 0; at -= kHashGroups)
            head.insert(at, u' ');
        add({words("Visit %1, %2 entries. The hash of the last one is")
                 .arg(m_state.ground->opening.visit.text())
                 .arg(m_report.entries.size())},
            kHeadGap, true);
        add({head, PaperRole::Strong}, 2);
        if (behindTheLastSignature() > 0)
            add({unsignedWords(), PaperRole::Strong}, kHeadGap);
        const QString place = m_record == RecordPlace::Inside
                                  ? words("take it out of the PDF (pdfdetach -saveall FILE)")
                                  : words("ask whoever printed this for it");
        const QString check =
            isUnsigned() ? words("There is no signature in it to check.")
                         : words("Run coldarc verify on it, or check its signatures with any JOSE library; "
                                 "hold the keys against the list of the office. It shows what was changed "
                                 "after it was signed.");
        add({words("This paper is a copy. What counts is the record: %1. %2 It does not prove that a clock "
                   "was right, or that what was written is true.")
                 .arg(place, check)},
            kHeadGap);
    }

    /// Of what no signature says anything. Pre: there is some of it.
    [[nodiscard]] QString unsignedWords() const
    {
        if (isUnsigned())
            return words("Nobody has signed this record: whose word it is, and whether it was changed, "
                         "nothing shows.");
        return words("Signed up to entry %1. Of the entries behind it, %2 of them, no signature shows "
                     "whose word they are, or whether they were changed.")
            .arg(m_report.signedUpTo)
            .arg(behindTheLastSignature());
    }

    const Report& m_report;
    const visit::VisitState& m_state;
    const QTimeZone& m_zone;
    const PictureBytes& m_pictures;
    RecordPlace m_record;
    QLocale m_locale;
    QList<PaperBlock> m_blocks;
};

} // namespace

QList<PaperBlock> reportContent(const Report& report, const QTimeZone& zone, const PictureBytes& pictures,
                                RecordPlace record)
{
    return Writer(report, zone, pictures, record).write();
}

QString footOf(const Report& report, const QTimeZone& zone)
{
    return words("%1 \u00b7 %2 \u00b7 head %3\u2026")
        .arg(report.state.ground->opening.site.site.name,
             wallTextWithOffset(report.from, zone).left(kDateChars), report.head.hex().left(kShownOfHash));
}

QString codeText(const Report& report)
{
    return report.head.hex();
}

QString wordsOf(Caution caution)
{
    struct Row {
        Caution caution;
        const char* words;
    };
    static constexpr std::array<Row, 7> kRows{{
        {Caution::OutOfUse,
         QT_TRANSLATE_NOOP("report", "Out of use: locked and tagged. Nobody switches it on before "
                                     "whoever is named on the tag has given it free.")},
        {Caution::NotFinished, QT_TRANSLATE_NOOP("report", "The work was ended before it was finished.")},
        {Caution::Owed,
         QT_TRANSLATE_NOOP("report", "Something is left to a later visit; it stands with its screen.")},
        {Caution::LightBelow, QT_TRANSLATE_NOOP("report", "The light is below the limits that were chosen.")},
        {Caution::AlertPassed,
         QT_TRANSLATE_NOOP("report", "The alert stands at or above the hours under warranty.")},
        {Caution::SomethingWrong,
         QT_TRANSLATE_NOOP("report", "Something went wrong during the visit; what was done about "
                                     "it stands in the part for the file.")},
        {Caution::NotClosed,
         QT_TRANSLATE_NOOP("report", "Not closed yet: this shows the visit as far as it has come.")},
    }};
    return words(std::ranges::find(kRows, caution, &Row::caution)->words);
}

} // namespace coldarc::ui
