#include "ui/review/view_of_review.h"

#include "core/report/time_scale.h"
#include "core/review/replay.h"
#include "ui/alignment/view_of_light.h"
#include "ui/alignment/words_light.h"
#include "ui/parts/quantities.h"
#include "ui/people/people_words.h"
#include "ui/photometry/view_of_sheet.h"
#include "ui/review/words_review.h"
#include "ui/visit/done_lines.h"
#include "ui/visit/sign_off_presenter.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/words_entry.h"

#include <QCoreApplication>

#include <algorithm>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using report::SignatureLine;

constexpr qsizetype kTimeChars = 8;  // "13:02:19"
constexpr qsizetype kDateChars = 10; // "2026-11-25"

QString words(const char* text)
{
    return QCoreApplication::translate("review", text);
}

/// "Screen 2, Screen 3 and Screen 4".
QString listed(const QStringList& names)
{
    if (names.size() < 2)
        return names.join(QString());
    return words("%1 and %2").arg(names.first(names.size() - 1).join(u", "_s), names.last());
}

QString secondsText(WallTime at, const QTimeZone& zone)
{
    return wallTextWithOffset(at, zone).mid(kDateChars + 1, kTimeChars);
}

class Maker {
public:
    Maker(const VisitReading& reading, const QTimeZone& zone)
        : m_reading(reading)
        , m_report(reading.report)
        , m_state(reading.report.state)
        , m_zone(zone)
    {
    }

    [[nodiscard]] ReviewView whole() const
    {
        ReviewView view;
        view.head = head();
        view.title = titleOf(m_state);
        view.sub = sub();
        if (m_reading.cutOffAt)
            view.fault =
                words("Somebody signed entry %1, which is not there any more: the end was cut off behind "
                      "entry %2. This visit cannot be accepted. A backup may hold it whole.")
                    .arg(*m_reading.cutOffAt)
                    .arg(m_report.entries.size() - 1);
        else if (m_reading.breaksAt)
            view.fault =
                words("The chain breaks at entry %1: it is not as it was written. It and what stands "
                      "behind it are not shown, and this visit cannot be accepted. A backup may hold "
                      "it whole.")
                    .arg(*m_reading.breaksAt);
        view.cards = cards();
        if (view.cards.isEmpty())
            view.noCards = m_reading.breaksAt ? words("Nothing out of the ordinary in what can be read.")
                                              : words("Nothing out of the ordinary.");
        view.timeLine = timeLine();
        view.signatures = signatures();
        for (const report::SwapPart& part : m_report.swaps) {
            ReviewLight light = lightOf(part);
            if (!light.scans.isEmpty() || !light.trace.readings.isEmpty() || !light.screen.isEmpty())
                view.lights.append(light);
        }
        view.lines = doneLinesOf(m_report.entries, m_state, m_zone);
        view.pictures = pictures(view.lines);
        mark(view.lines);
        tellReviews(view);
        view.histories = histories();
        return view;
    }

private:
    [[nodiscard]] QString head() const
    {
        const QString lead = m_state.lead == machine::kNone ? QString() : m_state.people[m_state.lead].name;
        QStringList others;
        for (machine::Index index = 0; index < m_state.people.size(); ++index) {
            if (index != m_state.lead)
                others.append(m_state.people[index].name);
        }
        const QString who = others.isEmpty() ? lead : words("%1 with %2").arg(lead, listed(others));
        return words("Visit of %1, %2").arg(dayText(m_report.from, m_zone), who);
    }

    [[nodiscard]] QString sub() const
    {
        const QString entries = entriesWords(m_report.entries.size());
        if (m_reading.breaksAt) // until when it went on, and how it ended, stands behind the break
            return words("from %1 \u00b7 what can be read: %2").arg(wallText(m_report.from, m_zone), entries);
        return words("%1 to %2 \u00b7 %3 \u00b7 %4")
            .arg(wallText(m_report.from, m_zone), wallText(m_report.until, m_zone), endWords(m_state.end),
                 entries);
    }

    [[nodiscard]] QList<ReviewCard> cards() const
    {
        QList<ReviewCard> all;
        for (const review::Exception& one : m_report.exceptions) {
            const ExceptionWords told = wordsOf(one, m_state, m_report.entries);
            all.append({one.entry, told.title, told.more,
                        words("entry %1, %2").arg(one.entry).arg(timeOf(one.entry))});
        }
        return all;
    }
    [[nodiscard]] QString timeOf(qint64 entry) const
    {
        return wallText(m_report.entries[entry].at.wall, m_zone);
    }

    [[nodiscard]] double minutesAt(WallTime at) const { return m_reading.time.at(at); }

    [[nodiscard]] TimeLineView timeLine() const
    {
        TimeLineView view;
        view.minutes = m_reading.time.minutes();
        addTicks(view);
        for (const LamphouseId& lamphouse : m_state.ground->lamphouses) {
            const TimeLineView::Group group{
                placeOf(m_state, m_state.ground->lamphouse(lamphouse)),
                timeLineRowsOf(m_report.timeLine, lamphouse, [this](WallTime at) { return minutesAt(at); })};
            if (!group.rows.isEmpty())
                view.groups.append(group);
        }
        for (const review::Exception& one : m_report.exceptions) {
            if (one.entry <= m_end)
                view.marks.append(
                    {minutesAt(m_report.entries[one.entry].at.wall), one.entry, titleOf(one.kind)});
        }
        std::ranges::stable_sort(view.marks, {}, &TimeLineView::Mark::entry);
        view.after = linesAfterClosing(m_report.entries, m_state, m_zone);
        return view;
    }

    /// Of each stretch its beginning and what the scale of the whole has in it; days where there are several.
    void addTicks(TimeLineView& view) const
    {
        const bool isOneDay = dayText(m_report.from, m_zone) == dayText(m_report.until, m_zone);
        const std::vector<double> scale = report::ticksOver(view.minutes);
        QString day;
        for (const review::ShownTime::Stretch& stretch : m_reading.time.stretches()) {
            if (stretch.isCut) {
                view.cuts.append({stretch.from, stretch.until});
                continue;
            }
            for (const double at : scale) {
                if (stretch.from + at > stretch.until)
                    break;
                const WallTime moment = report::after(stretch.begins, at);
                const QString now = dayText(moment, m_zone);
                view.ticks.append(
                    {stretch.from + at, wallText(moment, m_zone), isOneDay || now == day ? QString() : now});
                day = now;
            }
        }
    }

    // ---- Signatures -----------------------------------------------------------------------------------

    [[nodiscard]] QList<SignedLine> signatures() const
    {
        QList<SignedLine> all;
        if (!m_reading.breaksAt)
            all.append({DoneMark::Kind::Signed,
                        words("The chain of %1 entries is whole").arg(m_report.entries.size()), QString()});
        int others = 0;
        for (const SignatureLine& line : m_report.signatures) {
            const bool isRemark = std::holds_alternative<visit::Addendum>(m_report.entries[line.entry].body);
            const bool isVouchedFor =
                line.key == SignatureLine::Key::Good && !vouching(line.vouchedBy, line.thumbprint).isEmpty();
            if (line.isOfWork || isRemark || !isVouchedFor)
                all.append(lineOf(line));
            else
                ++others;
        }
        if (others > 0)
            all.append({DoneMark::Kind::Signed,
                        words("Signatures given during the work that verify: %1").arg(others), QString()});
        const qint64 behind = m_report.entries.size() - 1 - m_report.signedUpTo;
        if (behind > 0)
            all.append({DoneMark::Kind::Missing,
                        m_report.signedUpTo < 0
                            ? words("Nobody has signed anything")
                            : words("Signed up to entry %1: what stands behind it is nobody's word")
                                  .arg(m_report.signedUpTo),
                        QString()});
        return all;
    }
    [[nodiscard]] SignedLine lineOf(const SignatureLine& line) const
    {
        const QString name = line.isFormer ? words("Nobody named") : line.name;
        const QString when = line.isFormer ? words("no moment named") : wallText(line.at, m_zone);
        const QString said =
            words("%1, %2, %3, entry %4").arg(name, meaningWords(line.meaning), when).arg(line.entry);
        switch (line.key) {
        case SignatureLine::Key::Bad:
            return {DoneMark::Kind::Broken, said, words("does not verify")};
        case SignatureLine::Key::Missing:
            return {DoneMark::Kind::Missing, said, words("no key signed here")};
        case SignatureLine::Key::Witness:
            return {DoneMark::Kind::Signed, said, words("witness, without a key")};
        case SignatureLine::Key::OutOfUse:
            return {DoneMark::Kind::Broken, said,
                    words("verifies, but the key was out of use: it does not count")};
        case SignatureLine::Key::Good:
            break;
        }
        const QString by = vouching(line.vouchedBy, line.thumbprint);
        return {by.isEmpty() ? DoneMark::Kind::Missing : DoneMark::Kind::Signed, said,
                by.isEmpty() ? words("verifies; nobody vouches for the key") : by};
    }
    /// Who says whose the key is: an office that is believed here, or the list of this workspace.
    [[nodiscard]] QString vouching(const QList<review::VouchedBy>& vouchedBy, const QString& key) const
    {
        QStringList by;
        for (const review::VouchedBy& one : vouchedBy) {
            if (m_reading.offices.contains(one.office))
                by.append(words("verifies; office %1 vouches for the key as that of %2, %3")
                              .arg(m_reading.offices[one.office], one.name, wordFor(one.role)));
        }
        if (by.isEmpty() && m_reading.ownKeys.contains(key))
            by.append(words("verifies; the key stands on this workspace's own list"));
        return by.join(u"; "_s);
    }

    // ---- Light, labels, entries -----------------------------------------------------------------------

    [[nodiscard]] ReviewLight lightOf(const report::SwapPart& part) const
    {
        const visit::SwapState& swap = *m_state.swap(part.swap);
        ReviewLight view;
        view.title = m_report.swaps.size() < 2 ? words("Light")
                                               : words("Light, %1").arg(placeOf(m_state, swap.lamphouse));
        if (!part.light.points.empty())
            view.trace = traceChartOf(part.light);
        view.scans = lastScansOf(part.light, m_state.ground->model(swap.lamphouse));
        if (const QString before = sheetSummary(part.before); !before.isEmpty())
            view.screen.append(words("On arrival: %1").arg(before));
        if (const QString after = sheetSummary(part.after); !after.isEmpty())
            view.screen.append(words("Under the lamp that is in: %1").arg(after));
        if (part.comparison)
            view.screen.append(comparisonWords(part.comparison));
        return view;
    }

    [[nodiscard]] static QList<ReviewPicture> pictures(const QList<DoneLine>& lines)
    {
        QList<ReviewPicture> all;
        for (const DoneLine& line : lines) {
            const bool isNew = std::ranges::find(all, line.picture, &ReviewPicture::hash) == all.end();
            if (!line.picture.isEmpty() && isNew)
                all.append({line.picture, words("Entry %1: %2").arg(line.entry).arg(line.what), line.entry});
        }
        return all;
    }

    void mark(QList<DoneLine>& lines) const
    {
        for (const review::Exception& one : m_report.exceptions) {
            const DoneMark said{DoneMark::Kind::Unusual, titleOf(one.kind)};
            if (!lines[one.entry].marks.contains(said))
                lines[one.entry].marks.append(said);
        }
        for (const SignatureLine& line : m_report.signatures) {
            const QString name = line.isFormer ? words("somebody not named") : line.name;
            lines[line.entry].marks.append(markOf(line, name));
        }
    }

    [[nodiscard]] DoneMark markOf(const SignatureLine& line, const QString& name) const
    {
        if (line.key == SignatureLine::Key::Bad)
            return {DoneMark::Kind::Broken, words("signature of %1 does not verify").arg(name)};
        if (line.key == SignatureLine::Key::Missing)
            return {DoneMark::Kind::Missing, words("signature of %1 missing").arg(name)};
        if (line.key == SignatureLine::Key::OutOfUse)
            return {DoneMark::Kind::Broken, words("signed for %1 by a key out of use").arg(name)};
        return {DoneMark::Kind::Signed, words("signed by %1").arg(name)};
    }

    // ---- What else is known ---------------------------------------------------------------------------

    [[nodiscard]] QList<RowView> histories() const
    {
        QList<RowView> rows;
        for (const HistoryOffer& one : historiesOf(m_state))
            rows.append({rowOf(one.link), one.name, kindWords(one.link.about), {}});
        return rows;
    }
    [[nodiscard]] static QString kindWords(HistoryLink::About about)
    {
        switch (about) {
        case HistoryLink::About::Lamphouse:
            return words("lamphouse");
        case HistoryLink::About::Lamp:
            return words("lamp");
        case HistoryLink::About::Person:
            return words("took part");
        }
        Q_UNREACHABLE();
    }

    // ---- Reviews before this one ----------------------------------------------------------------------

    void tellReviews(ReviewView& view) const
    {
        const qint64 entries = m_report.entries.size();
        for (const ReadReview& one : m_reading.reviews) {
            const bool isAccepted = one.review.verdict == record::Verdict::Accepted;
            PastReview past;
            past.title = isAccepted ? words("Accepted by %1, up to entry %2")
                                    : words("Sent back by %1, up to entry %2");
            past.title = past.title.arg(one.review.name).arg(one.review.entry);
            past.when = wallTextWithOffset(one.review.at, m_zone);
            past.text = one.review.text;
            past.signature = signatureOf(one);
            for (const record::ReviewRemark& remark : one.review.remarks) {
                past.remarks.append(words("Entry %1: %2").arg(remark.entry).arg(remark.text));
                if (remark.entry >= entries)
                    continue; // behind a break
                view.lines[remark.entry].marks.append(
                    {DoneMark::Kind::Remark, words("%1: %2").arg(one.review.name, remark.text)});
                if (remark.entry <= m_end)
                    view.timeLine.remarks.append(minutesAt(m_report.entries[remark.entry].at.wall));
            }
            view.past.append(past);
        }
        for (qsizetype number = 0; number < m_reading.alteredReviews; ++number)
            view.past.append(
                {words("A review that is not as it was written"),
                 {},
                 words("What this workspace kept of it was altered. A backup may hold it whole, "
                       "and so may the reviewer's own workspace."),
                 {},
                 {DoneMark::Kind::Broken, words("It does not count, whatever it says"), QString()}});
        const review::Stand stand = review::standOf(m_reading.reviewsSaid(), entries);
        view.stand = standWords(stand);
    }
    [[nodiscard]] static QString standWords(review::Stand stand)
    {
        switch (stand) {
        case review::Stand::Waiting:
            return words("Waits for a review");
        case review::Stand::Accepted:
            return words("Accepted");
        case review::Stand::SentBack:
            return words("Sent back, not answered yet");
        case review::Stand::Answered:
            return words("Sent back, and answered since");
        }
        Q_UNREACHABLE();
    }
    [[nodiscard]] SignedLine signatureOf(const ReadReview& one) const
    {
        if (m_reading.breaksAt && one.review.entry >= *m_reading.breaksAt)
            return {DoneMark::Kind::Broken,
                    words("It is of entries that cannot be read any more: it does not count"), QString()};
        if (!one.isGood)
            return {DoneMark::Kind::Broken, words("Its signature does not verify"), QString()};
        if (one.isOutOfUse)
            return {DoneMark::Kind::Broken, words("Its key was out of use: it does not count"), QString()};
        if (one.part)
            return {DoneMark::Kind::Broken,
                    words("Its reviewer had a part in the visit, see entry %1: it does not count")
                        .arg(one.part->entry),
                    QString()};
        if (!one.isVouchedFor)
            return {DoneMark::Kind::Broken,
                    words("Its signature verifies; nobody who is believed here vouches that it is a "
                          "supervisor's: it does not count"),
                    QString()};
        return {DoneMark::Kind::Signed, words("Its signature %1").arg(vouching(one.vouchedBy, one.key)),
                QString()};
    }

    const VisitReading& m_reading;
    const report::Report& m_report;
    const visit::VisitState& m_state;
    const QTimeZone& m_zone;
    const qint64 m_end = review::endOfWork(m_report.entries);
};

} // namespace

QList<TimeLineView::Row> timeLineRowsOf(const QList<review::Span>& spans, const LamphouseId& lamphouse,
                                        const std::function<double(WallTime)>& minutesAt)
{
    QList<TimeLineView::Row> rows;
    for (const review::Span& span : spans) {
        if (span.lamphouse != lamphouse)
            continue;
        const QString name = nameOf(span.row);
        if (rows.isEmpty() || rows.last().name != name)
            rows.append({name, review::kindOf(span.row), {}});
        rows.last().bars.append({minutesAt(span.beganAt), minutesAt(span.endedAt)});
    }
    return rows;
}

QList<HistoryOffer> historiesOf(const visit::VisitState& state)
{
    using About = HistoryLink::About;
    QList<HistoryOffer> offers;
    const auto add = [&offers](About about, const QString& id, const QString& name) {
        const HistoryLink link{about, id};
        if (!id.isEmpty() && std::ranges::find(offers, link, &HistoryOffer::link) == offers.end())
            offers.append({link, name});
    };
    for (const visit::SwapState& swap : state.swaps) {
        add(About::Lamphouse, state.ground->lamphouses[swap.lamphouse].text(),
            placeOf(state, swap.lamphouse));
        for (const machine::Index lamp : {swap.oldLamp, swap.newLamp})
            add(About::Lamp, state.ground->lamps[lamp].id.text(), lampName(state, lamp));
    }
    for (const visit::PersonFacts& person : state.people)
        add(About::Person, person.id.text(), person.name);
    return offers;
}

QString rowOf(const HistoryLink& link)
{
    return u"%1:%2"_s.arg(static_cast<int>(link.about)).arg(link.id);
}

HistoryLink historyLinkOf(const QString& row)
{
    return {static_cast<HistoryLink::About>(row.section(u':', 0, 0).toInt()), row.section(u':', 1)};
}

QString titleOf(const visit::VisitState& state)
{
    QStringList places;
    for (const visit::SwapState& swap : state.swaps)
        places.append(placeOf(state, swap.lamphouse));
    const QString& site = state.ground->opening.site.site.name;
    return places.isEmpty() ? site : words("%1, %2").arg(site, listed(places));
}

ReviewView reviewViewOf(const VisitReading& reading, const QTimeZone& zone)
{
    return Maker(reading, zone).whole();
}

MomentView momentViewOf(VisitReading& reading, qint64 entry, const QTimeZone& zone)
{
    const QList<visit::Entry>& entries = reading.report.entries;
    const visit::VisitState& whole = reading.report.state;
    const visit::Entry& one = entries[entry];
    const visit::VisitState& then = reading.replay.after(entry);
    const EntryWords told = wordsOf(entries, entry, whole);
    MomentView view;
    view.entry = entry;
    view.at = reading.time.at(one.at.wall);
    view.time = wallText(one.at.wall, zone);
    view.head = words("Entry %1 \u00b7 %2 \u00b7 %3")
                    .arg(entry)
                    .arg(secondsText(one.at.wall, zone), nameOfPerson(whole, one.by));
    view.what = told.what;
    view.more = told.more;
    const machine::Index lamphouse = review::lamphouseOf(entries, entry, then);
    view.place = placeOf(then, lamphouse);
    view.machine = machineViewOf(then, lamphouse);
    return view;
}

} // namespace coldarc::ui
