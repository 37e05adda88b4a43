#include "ui/record/records_presenter.h"

#include "ui/record/record_words.h"

#include <QDateTime>
#include <QFileInfo>
#include <QLocale>
#include <QPointer>
#include <QTimer>

#include <algorithm>
#include <ranges>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr qsizetype kMostListed = 200; // more would be read by nobody
constexpr qsizetype kMostInATurn = 64;
constexpr qsizetype kMostLookedInto = 30; // of those that wait, while the page is waited for
constexpr qint64 kMostLookedIntoBytes = qint64{4} << 20;

QString cameOf(const record::WaitingRecord& one)
{
    const auto came = QDateTime::fromMSecsSinceEpoch(one.receivedAt.time_since_epoch().count());
    return QLocale().toString(came, QLocale::ShortFormat);
}

QString sizeOf(const record::WaitingRecord& one)
{
    return QLocale().formattedDataSize(one.bytes);
}

/// Why it was not taken, in words.
QString reasonOf(const record::TakenRecord& taken)
{
    if (!taken.unread.isEmpty()) {
        qWarning("record %s not taken: %s", qUtf8Printable(taken.file), qUtf8Printable(taken.unread));
        return sentenceOf(taken.trouble);
    }
    QString reason = sentenceOf(taken.intake.why);
    if (!taken.faults.empty()) {
        const record::Fault& first = taken.faults.front();
        reason = u"%1 %2. %3"_s.arg(placeOf(first), sentenceOf(first.kind), reason);
        reason.front() = reason.front().toUpper();
    }
    return reason;
}

} // namespace

RecordsPresenter::RecordsPresenter(RecordDeeds deeds, QObject* parent)
    : QObject(parent)
    , m_deeds(std::move(deeds))
    , m_turn(new QTimer(this))
{
    m_turn->setSingleShot(true);
    connect(m_turn, &QTimer::timeout, this, &RecordsPresenter::takeTurn);
}

void RecordsPresenter::refresh()
{
    RecordsView view = m_view;
    fillWaiting(view);
    show(view);
}

void RecordsPresenter::takeIn(const QStringList& files)
{
    if (files.isEmpty())
        return;
    if (m_isStopping) {
        m_later += files;
        return;
    }
    RecordsView view = m_view;
    const bool isNew = !isUnderWay();
    if (isNew) {
        m_files.clear();
        m_next = 0;
        m_tally = {};
        view.notTaken.clear();
        view.more.clear();
        view.outcome.clear();
    }
    m_files += files;
    offerDiscard(view, std::nullopt); // what is said from here on is of other files
    view.progress = progress();
    show(view);
    if (isNew)
        m_turn->start(0);
}

void RecordsPresenter::stop()
{
    if (!isUnderWay())
        return;
    m_isStopping = true;
    m_files += std::exchange(m_later, {});
    RecordsView view = m_view;
    view.progress = tr("Stopping after the files in hand.");
    show(view);
}

void RecordsPresenter::takeTurn()
{
    if (m_isStopping)
        return taken(std::vector<record::TakenRecord>());
    m_deeds.take(m_files.mid(m_next, kMostInATurn), [self = QPointer(this)](const auto& some) {
        if (self)
            self->taken(some);
    });
}

void RecordsPresenter::taken(const Result<std::vector<record::TakenRecord>>& some)
{
    RecordsView view = m_view;
    if (!some) {
        qWarning("no record taken: %s", qUtf8Printable(some.error().detail));
        return end(view, stoppedBecause(tr("Stopped: the workspace could not be opened.")));
    }
    for (const record::TakenRecord& one : *some)
        count(one, view);
    m_next += static_cast<qsizetype>(some->size());
    if (!isUnderWay())
        return end(view, outcome());
    if (m_isStopping)
        return end(view, stoppedBecause(tr("Stopped.")));
    view.outcome = outcome();
    view.progress = progress();
    m_turn->start(0);
    show(view);
}

void RecordsPresenter::end(RecordsView view, const QString& outcome)
{
    m_files.clear();
    m_next = 0;
    m_isStopping = false;
    view.outcome = outcome;
    view.progress.clear();
    fillWaiting(view);
    show(view);
    Q_EMIT visitsChanged();
    takeIn(std::exchange(m_later, {}));
}

/// @param cause  a sentence.
QString RecordsPresenter::stoppedBecause(const QString& cause) const
{
    return tr("%1 %2 Files left: %3. What was taken in stays. Take the same files in again to go on: those "
              "that are there are only counted.")
        .arg(cause, outcome(), QLocale().toString(m_files.size() - m_next));
}

QString RecordsPresenter::progress() const
{
    const QLocale locale;
    return tr("%1 of %2 files").arg(locale.toString(m_next), locale.toString(m_files.size()));
}

void RecordsPresenter::count(const record::TakenRecord& taken, RecordsView& view)
{
    using Verdict = record::Intake::Verdict;
    const bool isUnread = !taken.unread.isEmpty();
    const bool isRefused = !isUnread && taken.intake.verdict == Verdict::Refuse;
    m_tally.unread += isUnread ? 1 : 0;
    m_tally.refused += isRefused ? 1 : 0;
    if (!isUnread && !isRefused) {
        m_tally.taken += taken.intake.verdict == Verdict::Take ? 1 : 0;
        m_tally.there += taken.intake.verdict == Verdict::Nothing ? 1 : 0;
        m_tally.waiting += taken.intake.verdict == Verdict::Wait ? 1 : 0;
        return;
    }
    if (view.notTaken.size() < kMostListed)
        view.notTaken.append({taken.file, QFileInfo(taken.file).fileName(), reasonOf(taken), QString()});
    else
        view.more = tr("and %n more that are not listed", nullptr,
                       m_tally.unread + m_tally.refused - static_cast<int>(kMostListed));
}

QString RecordsPresenter::outcome() const
{
    const QLocale locale;
    QStringList parts{tr("%1 taken in").arg(locale.toString(m_tally.taken)),
                      tr("%1 there already").arg(locale.toString(m_tally.there)),
                      tr("%1 waiting").arg(locale.toString(m_tally.waiting)),
                      tr("%1 refused").arg(locale.toString(m_tally.refused)),
                      tr("%1 not readable").arg(locale.toString(m_tally.unread))};
    return parts.join(u", "_s) + u'.';
}

void RecordsPresenter::fillWaiting(RecordsView& view)
{
    view.waiting.clear();
    view.moreWaiting.clear();
    const auto waiting = m_deeds.waiting();
    view.noWaiting = waiting ? tr("None waits.") : tr("What waits could not be read. Nothing was changed.");
    if (!waiting)
        return;
    for (const record::WaitingRecord& one : *waiting | std::views::take(kMostListed))
        view.waiting.append(lineOf(one, view.waiting.size() < kMostLookedInto));
    if (const auto more = static_cast<qsizetype>(waiting->size()) - kMostListed; more > 0)
        view.moreWaiting =
            tr("and %n more that are not listed. Take the same files in again, and all of them "
               "are tried again.",
               nullptr, static_cast<int>(more));
}

/// @param isLookedInto  for its site: of the others that would take too long.
CardLine RecordsPresenter::lineOf(const record::WaitingRecord& one, bool isLookedInto)
{
    const QString id = one.file.hex();
    if (isLookedInto && one.bytes <= kMostLookedIntoBytes && !m_places.contains(id))
        m_places.insert(id, m_deeds.placeOf(one.file));
    const QString place = m_places.value(id);
    return {id, place.isEmpty() ? tr("Visit %1").arg(one.visit.text()) : place,
            tr("Came %1, %2. %3").arg(cameOf(one), sizeOf(one), sentenceOf(one.why)), tr("Try again")};
}

void RecordsPresenter::tryAgain(const QString& id)
{
    const auto file = Hash::fromHex(id);
    if (file && isUnderWay()) {
        RecordsView busy = m_view;
        busy.progress = tr("Files are being taken in. Press Try again once that is done.");
        return show(busy);
    }
    if (!file)
        return;
    const record::TakenRecord taken = m_deeds.tryAgain(*file);
    RecordsView view = m_view;
    const bool isTaken = taken.unread.isEmpty() && (taken.intake.verdict == record::Intake::Verdict::Take ||
                                                    taken.intake.verdict == record::Intake::Verdict::Nothing);
    const bool waitsStill = taken.unread.isEmpty() && taken.intake.verdict == record::Intake::Verdict::Wait;
    view.outcome = isTaken ? tr("Taken in.") : reasonOf(taken);
    fillWaiting(view);
    offerDiscard(view, waitsStill ? file : std::nullopt);
    show(view);
    if (isTaken)
        Q_EMIT visitsChanged();
}

void RecordsPresenter::offerDiscard(RecordsView& view, const std::optional<Hash>& file)
{
    m_tried = file;
    view.discard = file ? tr("Discard this record") : QString();
    view.discardQuestion.clear();
}

/// What somebody loses by it. Empty where it waits no longer.
QString RecordsPresenter::discardQuestion() const
{
    const auto waiting = m_deeds.waiting();
    if (!waiting)
        return {};
    const auto one = std::ranges::find(*waiting, *m_tried, &record::WaitingRecord::file);
    if (one == waiting->end())
        return {};
    return tr("The record of visit %1 that came on %2, %3, goes from this workspace with all that is in it. "
              "Only whoever sent it can bring it back.")
        .arg(one->visit.text(), cameOf(*one), sizeOf(*one));
}

void RecordsPresenter::discard()
{
    if (!m_tried)
        return;
    RecordsView view = m_view;
    if (view.discardQuestion.isEmpty()) {
        view.discardQuestion = discardQuestion();
        if (!view.discardQuestion.isEmpty())
            view.discard = tr("Yes, discard it");
        else
            offerDiscard(view, std::nullopt);
        return show(view);
    }
    const auto dropped = m_deeds.discard(*m_tried);
    view.outcome = dropped ? tr("Discarded.") : tr("It could not be discarded. Nothing was changed.");
    fillWaiting(view);
    offerDiscard(view, dropped ? std::nullopt : m_tried);
    show(view);
}

void RecordsPresenter::keep()
{
    RecordsView view = m_view;
    offerDiscard(view, m_tried);
    show(view);
}

void RecordsPresenter::show(RecordsView view)
{
    if (view == m_view)
        return;
    m_view = std::move(view);
    Q_EMIT viewChanged(m_view);
}

} // namespace coldarc::ui
