#include "ui/review/review_presenter.h"

#include "ui/review/view_of_review.h"
#include "ui/review/words_review.h"

#include <QImage>
#include <QPointer>

#include <algorithm>
#include <array>
#include <chrono>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using review::QueueOrder;
using review::Stand;

const QString kToDo = u"to-do"_s;
const QString kEvery = u"every"_s;
const QString kUnusual = u"unusual"_s;

struct OrderRow {
    const char* id;
    QueueOrder order;
    const char* name;
};
constexpr std::array<OrderRow, 5> kOrders{{
    {"weight", QueueOrder::Weight,
     QT_TRANSLATE_NOOP("coldarc::ui::ReviewPresenter", "what weighs most first")},
    {"newest", QueueOrder::Newest, QT_TRANSLATE_NOOP("coldarc::ui::ReviewPresenter", "newest first")},
    {"oldest", QueueOrder::Oldest, QT_TRANSLATE_NOOP("coldarc::ui::ReviewPresenter", "oldest first")},
    {"site", QueueOrder::Site, QT_TRANSLATE_NOOP("coldarc::ui::ReviewPresenter", "by site")},
    {"engineer", QueueOrder::Engineer, QT_TRANSLATE_NOOP("coldarc::ui::ReviewPresenter", "by engineer")},
}};

/// How far back visits are looked for, days.
constexpr std::array kBack{7, 30, 90, 365};

/// Larger than it is shown a picture is not kept in hand, pixels.
constexpr QSize kMostPicture(2240, 1120);

const OrderRow& orderOf(const QString& id)
{
    const auto found =
        std::ranges::find_if(kOrders, [&](const OrderRow& row) { return id == QLatin1StringView(row.id); });
    return found == kOrders.end() ? kOrders.front() : *found;
}

} // namespace

ReviewPresenter::ReviewPresenter(ReviewDeeds deeds, const Clock& clock, Behind behind, QTimeZone zone,
                                 QObject* parent)
    : QObject(parent)
    , m_deeds(std::move(deeds))
    , m_clock(clock)
    , m_behind(std::move(behind))
    , m_zone(std::move(zone))
    , m_queue(m_deeds.queue, m_zone, m_deeds.place)
    , m_stand(kToDo)
    , m_what(kEvery)
    , m_days(kEvery)
    , m_order(QLatin1StringView(kOrders.front().id))
{
    m_view.empty = tr("No visit is chosen.");
}

// ---- The queue --------------------------------------------------------------------------------------------

review::QueueFilter ReviewPresenter::filter() const
{
    review::QueueFilter filter;
    filter.waitsAlone = m_stand == kToDo;
    filter.stand = review::standFromWord(m_stand);
    filter.isUnusualAlone = m_what == kUnusual;
    filter.kind = review::kindFromWord(m_what);
    filter.text = m_text.trimmed();
    if (const int days = m_days.toInt(); days > 0)
        filter.from = m_clock.now().wall - std::chrono::days(days);
    return filter;
}

void ReviewPresenter::refresh()
{
    m_queue.show(filter(), orderOf(m_order).order);
    int row = m_visit.isEmpty() ? -1 : m_queue.rowOf(m_visit);
    if (row < 0 && m_isLookedUp) {
        m_row = -1;
        if (m_isUnread)
            readAgain();
        return showQueue();
    }
    if (row < 0) // it went out of the queue: the one behind it came to its place
        row = std::clamp(m_row, 0, std::max(0, m_queue.rowCount() - 1));
    chooseRow(row);
}

/// Whoever looks for something else has done with what was looked up.
void ReviewPresenter::lookFor(QString& what, const QString& now)
{
    what = now;
    m_isLookedUp = false;
    refresh();
}

void ReviewPresenter::setText(const QString& text)
{
    if (m_text != text)
        lookFor(m_text, text);
}

void ReviewPresenter::setStand(const QString& id)
{
    lookFor(m_stand, id);
}

void ReviewPresenter::setWhat(const QString& id)
{
    lookFor(m_what, id);
}

void ReviewPresenter::setDays(const QString& id)
{
    lookFor(m_days, id);
}

void ReviewPresenter::setOrder(const QString& id)
{
    lookFor(m_order, id);
}

void ReviewPresenter::chooseRow(int row)
{
    const auto chosen = m_queue.row(row);
    if (!chosen && m_queue.rowCount() > 0) // what is in hand stays, and is what is marked
        return showQueue(row < 0                     ? tr("this is the first of them")
                         : row >= m_queue.rowCount() ? tr("this is the last of them")
                                                     : QString()); // not to be read
    m_row = chosen ? row : -1;
    m_isLookedUp = false;
    if (!chosen) {
        m_visit = VisitId();
        shut(emptyWords());
    } else if (chosen->visit != m_visit || isOutOfDate(*chosen)) {
        open(chosen->visit);
    }
    showQueue();
}

/// Something was added to the visit in hand since it was read, or somebody reviewed it.
bool ReviewPresenter::isOutOfDate(const QueueRow& row) const
{
    if (m_isUnread)
        return true;
    if (!m_reading || m_reading->breaksAt)
        return false;
    const report::Report& report = m_reading->report;
    return row.head != report.head ||
           row.review != review::wordOf(review::standOf(m_reading->reviewsSaid(), report.entries.size()));
}

void ReviewPresenter::showQueue(const QString& end)
{
    QueueView view;
    view.count = end.isEmpty() ? countWords() : u"%1 \u00b7 %2"_s.arg(countWords(), end);
    view.empty = m_queue.rowCount() == 0 ? emptyWords() : QString();
    view.filter = filterWords();
    view.text = m_text;
    view.stand.label = tr("How they stand");
    view.stand.options.append({kToDo, tr("wait for a supervisor")});
    for (const Stand stand : {Stand::Waiting, Stand::Answered, Stand::SentBack, Stand::Accepted})
        view.stand.options.append({review::wordOf(stand), nameOf(stand)});
    view.stand.options.append({kEvery, tr("however they stand")});
    view.stand.chosen = m_stand;
    view.what.label = tr("What happened");
    view.what.options = {{kEvery, tr("anything")}, {kUnusual, tr("anything out of the ordinary")}};
    for (int index = 0; index < review::kExceptionKinds; ++index) {
        const auto kind = static_cast<review::Exception::Kind>(index);
        view.what.options.append({review::wordOf(kind), titleOf(kind)});
    }
    view.what.chosen = m_what;
    view.days.label = tr("How long ago");
    view.days.options.append({kEvery, tr("at any time")});
    for (const int days : kBack)
        view.days.options.append({QString::number(days), tr("in the last %1 days").arg(days)});
    view.days.chosen = m_days;
    view.order.label = tr("In which order");
    for (const OrderRow& row : kOrders)
        view.order.options.append({QLatin1StringView(row.id), tr(row.name)});
    view.order.chosen = m_order;
    view.current = m_row;
    m_queueView = view; // told even where it is the same: the rows may be others
    Q_EMIT queueChanged(m_queueView);
}

QString ReviewPresenter::countWords() const
{
    const bool isPlain = isEverythingThatWaits();
    const QString all = QLocale().toString(m_queue.all());
    const QString unusual = QLocale().toString(m_queue.unusual());
    if (isPlain)
        return m_queue.all() == 1 ? tr("One visit waits, %1 out of the ordinary").arg(unusual)
                                  : tr("%1 visits wait, %2 out of the ordinary").arg(all, unusual);
    return m_queue.all() == 1 ? tr("One visit, %1 out of the ordinary").arg(unusual)
                              : tr("%1 visits, %2 out of the ordinary").arg(all, unusual);
}

QString ReviewPresenter::emptyWords() const
{
    if (!m_queue.trouble().isEmpty())
        return tr("The list could not be read. Nothing was changed; the workspace may be in use elsewhere.");
    return isEverythingThatWaits() ? tr("No visit waits. What others have signed comes in by Records.")
                                   : tr("No visit is like that. Change what is looked for.");
}

/// Spaces alone look for nothing.
bool ReviewPresenter::isEverythingThatWaits() const
{
    return m_stand == kToDo && m_what == kEvery && m_days == kEvery && m_text.trimmed().isEmpty();
}

QString ReviewPresenter::filterWords() const
{
    QStringList parts;
    if (!m_text.trimmed().isEmpty())
        parts.append(u"\u201c%1\u201d"_s.arg(m_text.trimmed()));
    if (const auto stand = review::standFromWord(m_stand))
        parts.append(nameOf(*stand));
    else
        parts.append(m_stand == kToDo ? tr("wait for a supervisor") : tr("however they stand"));
    if (const auto kind = review::kindFromWord(m_what))
        parts.append(titleOf(*kind));
    else if (m_what == kUnusual)
        parts.append(tr("out of the ordinary"));
    if (m_days != kEvery)
        parts.append(tr("in the last %1 days").arg(m_days));
    parts.append(tr(orderOf(m_order).name));
    return parts.join(u" \u00b7 "_s);
}

// ---- The visit in hand
// --------------------------------------------------------------------------------------

void ReviewPresenter::shut(const QString& said)
{
    m_isUnread = false;
    m_isWanted = false;
    m_unreadPictures.clear();
    ++m_turn;
    m_reading.reset();
    m_view = ReviewView();
    m_view.empty = said;
    m_moment = MomentView();
    Q_EMIT viewChanged(m_view);
    Q_EMIT momentChanged(m_moment);
}

void ReviewPresenter::open(const VisitId& visit, std::optional<qint64> entry)
{
    m_visit = visit;
    m_wanted = entry;
    const int turn = m_turn + 1;
    shut(tr("The visit is being read and its signatures are checked \u2026"));
    if (m_turn != turn)
        return; // whoever was told has asked for another one
    m_isWanted = true;
    readOn();
}

/// What is to be read next, once nothing is being read.
void ReviewPresenter::readOn()
{
    if (m_isBusy)
        return;
    if (m_isWanted)
        readVisit();
    else if (!m_unreadPictures.isEmpty())
        readPicture();
}

void ReviewPresenter::readVisit()
{
    m_isBusy = true;
    m_isWanted = false;
    const auto read = std::make_shared<Behindhand>(Behindhand{std::shared_ptr<VisitReading>(), {}});
    m_behind(
        [read, visit = m_visit, zone = m_zone, deed = m_deeds.read] {
            read->reading = deed(visit);
            if (read->reading)
                read->view = reviewViewOf(**read->reading, zone);
        },
        [self = QPointer(this), turn = m_turn, visit = m_visit, read] {
            if (!self)
                return;
            self->m_isBusy = false;
            if (self->m_turn == turn)
                self->opened(visit, std::move(*read));
            self->readOn();
        });
}

void ReviewPresenter::readPicture()
{
    m_isBusy = true;
    const QString hash = m_unreadPictures.takeFirst();
    const auto picture = std::make_shared<QImage>();
    const auto trouble = std::make_shared<QString>();
    m_behind(
        [picture, trouble, hash, deed = m_deeds.picture] {
            const auto wanted = Hash::fromHex(hash);
            const auto bytes = wanted ? deed(*wanted) : fail(Error::Kind::NotFound, hash);
            *picture = QImage::fromData(bytes.value_or(QByteArray()));
            if (picture->isNull())
                *trouble = pictureTrouble(bytes);
            if (picture->width() > kMostPicture.width() || picture->height() > kMostPicture.height())
                *picture = picture->scaled(kMostPicture, Qt::KeepAspectRatio, Qt::SmoothTransformation);
        },
        [self = QPointer(this), turn = m_turn, hash, picture, trouble] {
            if (!self)
                return;
            self->m_isBusy = false;
            if (self->m_turn == turn)
                Q_EMIT self->pictureRead(hash, *picture, *trouble);
            self->readOn();
        });
}

/// Why there is nothing to show.
QString ReviewPresenter::pictureTrouble(const Result<QByteArray>& bytes)
{
    if (bytes)
        return tr("What was kept is no picture that can be shown.");
    qWarning("picture not read: %s", qUtf8Printable(bytes.error().detail));
    if (bytes.error().kind == Error::Kind::NotFound)
        return tr("The picture is not in this workspace.");
    if (bytes.error().kind == Error::Kind::Malformed)
        return tr("The picture is not as it was kept. A backup may hold it whole.");
    return tr("The picture could not be read. Go to another visit and back to try again.");
}

void ReviewPresenter::showAt(const VisitId& visit, qint64 entry)
{
    m_row = m_queue.rowOf(visit);
    m_isLookedUp = true;
    open(visit, entry);
    showQueue();
}

void ReviewPresenter::readAgain()
{
    if (!m_visit.isEmpty())
        open(VisitId(m_visit));
}

void ReviewPresenter::opened(const VisitId& visit, Behindhand read)
{
    if (!read.reading) {
        const Error& error = read.reading.error();
        qWarning("visit %s not read: %s", qUtf8Printable(visit.text()), qUtf8Printable(error.detail));
        shut(error.kind == Error::Kind::Malformed
                 ? tr("This visit cannot be read: its entries are not as they were written. Nothing was "
                      "changed; a backup may hold it whole.")
                 : tr("This visit could not be read. Nothing was changed; press Review above to read it "
                      "again."));
        m_isUnread = true;
        return;
    }
    m_reading = std::move(*read.reading);
    m_view = std::move(read.view);
    for (const ReviewPicture& one : std::as_const(m_view.pictures))
        m_unreadPictures.append(one.hash);
    const int turn = m_turn;
    Q_EMIT viewChanged(m_view);
    if (m_turn != turn)
        return; // whoever was told has asked for another one
    const qint64 last = m_reading->report.entries.size() - 1;
    goTo(std::min(last, m_wanted.value_or(m_view.cards.isEmpty() ? last : m_view.cards.first().entry)));
}

void ReviewPresenter::goTo(qint64 entry)
{
    if (!m_reading || entry < 0 || entry >= m_reading->report.entries.size() || entry == m_moment.entry)
        return;
    m_moment = momentViewOf(*m_reading, entry, m_zone);
    Q_EMIT momentChanged(m_moment);
}

void ReviewPresenter::goToMoment(double minutes)
{
    if (m_reading)
        goTo(review::entryAt(m_reading->report.entries, m_reading->time.momentAt(minutes)));
}

void ReviewPresenter::step(TimeLineDrawing::Step step)
{
    if (!m_reading)
        return;
    using Step = TimeLineDrawing::Step;
    std::vector<qint64> marks; // of what is not on the drawing too
    for (const ReviewCard& card : m_view.cards)
        marks.push_back(card.entry);
    std::ranges::sort(marks);
    switch (step) {
    case Step::First:
        return goTo(0);
    case Step::Last:
        return goTo(m_reading->report.entries.size() - 1);
    case Step::Before:
        return goTo(m_moment.entry - 1);
    case Step::Next:
        return goTo(m_moment.entry + 1);
    case Step::MarkBefore: {
        const auto mark = std::ranges::lower_bound(marks, m_moment.entry);
        return goTo(mark == marks.begin() ? -1 : *std::prev(mark));
    }
    case Step::MarkNext: {
        const auto mark = std::ranges::upper_bound(marks, m_moment.entry);
        return goTo(mark == marks.end() ? -1 : *mark);
    }
    }
}

} // namespace coldarc::ui
