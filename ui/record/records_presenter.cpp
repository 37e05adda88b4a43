#include "ui/record/records_presenter.h"

#include "ui/record/record_words.h"

#include <QFileInfo>
#include <QLocale>
#include <QTimer>

#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr qsizetype kMostListed = 200; // more would be read by nobody

/// Why it was not taken, in words.
QString reasonOf(const record::TakenRecord& taken)
{
    if (!taken.unread.isEmpty())
        return RecordsPresenter::tr("It could not be taken: %1. Nothing of it was kept.").arg(taken.unread);
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
    connect(m_turn, &QTimer::timeout, this, &RecordsPresenter::takeNext);
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
    const bool isUnderWay = m_next < m_files.size();
    if (!isUnderWay) {
        m_files.clear();
        m_next = 0;
        m_tally = {};
        m_view.notTaken.clear();
        m_view.more.clear();
    }
    m_files += files;
    m_turn->start(0);
}

void RecordsPresenter::stop()
{
    m_turn->stop();
    m_files = m_files.mid(0, m_next);
    RecordsView view = m_view;
    view.progress.clear();
    view.outcome = tr("Stopped. %1").arg(outcome());
    fillWaiting(view);
    show(view);
    Q_EMIT visitsChanged();
}

void RecordsPresenter::takeNext()
{
    RecordsView view = m_view;
    count(m_deeds.take(m_files[m_next++]), view);
    view.outcome = outcome();
    const bool isOver = m_next == m_files.size();
    const QLocale locale;
    view.progress = isOver
                        ? QString()
                        : tr("%1 of %2 files").arg(locale.toString(m_next), locale.toString(m_files.size()));
    if (isOver)
        fillWaiting(view);
    else
        m_turn->start(0);
    show(view);
    if (isOver)
        Q_EMIT visitsChanged();
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
                      tr("%1 were there already").arg(locale.toString(m_tally.there)),
                      tr("%1 wait").arg(locale.toString(m_tally.waiting)),
                      tr("%1 not as they were signed").arg(locale.toString(m_tally.refused)),
                      tr("%1 could not be read").arg(locale.toString(m_tally.unread))};
    return parts.join(u", "_s) + u'.';
}

void RecordsPresenter::fillWaiting(RecordsView& view) const
{
    view.waiting.clear();
    const auto waiting = m_deeds.waiting();
    for (const record::WaitingRecord& one : waiting ? *waiting : std::vector<record::WaitingRecord>())
        view.waiting.append(
            {one.file.hex(), tr("Visit %1").arg(one.visit.text()), sentenceOf(one.why), tr("Try again")});
    view.noWaiting = waiting ? tr("None waits.") : tr("What waits could not be read. Nothing was changed.");
}

void RecordsPresenter::tryAgain(const QString& id)
{
    const auto file = Hash::fromHex(id);
    if (!file || m_next < m_files.size())
        return;
    const record::TakenRecord taken = m_deeds.tryAgain(*file);
    RecordsView view = m_view;
    const bool isTaken = taken.unread.isEmpty() && (taken.intake.verdict == record::Intake::Verdict::Take ||
                                                    taken.intake.verdict == record::Intake::Verdict::Nothing);
    view.outcome = isTaken ? tr("Taken in.") : reasonOf(taken);
    fillWaiting(view);
    show(view);
    if (isTaken)
        Q_EMIT visitsChanged();
}

void RecordsPresenter::show(RecordsView view)
{
    if (view == m_view)
        return;
    m_view = std::move(view);
    Q_EMIT viewChanged(m_view);
}

} // namespace coldarc::ui
