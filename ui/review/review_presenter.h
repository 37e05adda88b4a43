#pragma once

#include "ui/parts/behind.h"
#include "ui/review/queue_model.h"
#include "ui/review/review_view.h"
#include "ui/review/time_line_drawing.h"
#include "ui/review/visit_reading.h"

#include <QObject>

namespace coldarc::ui {

/// What the desk asks of the workspace. The program's root gives it.
struct ReviewDeeds {
    QueueSource queue;
    VisitRead read;
    /// The bytes of a picture; empty where it is not there.
    std::function<QByteArray(const Hash& picture)> picture;
};

/// The review desk: a queue, and the visit in hand with the moment in hand.
class ReviewPresenter final : public QObject {
    Q_OBJECT

public:
    /// Borrows the clock, which must outlive the presenter.
    ReviewPresenter(ReviewDeeds deeds, const Clock& clock, Behind behind,
                    QTimeZone zone = QTimeZone::systemTimeZone(), QObject* parent = nullptr);

    [[nodiscard]] QueueModel& queue() { return m_queue; }
    [[nodiscard]] const QueueView& queueView() const { return m_queueView; }
    [[nodiscard]] const ReviewView& view() const { return m_view; }
    [[nodiscard]] const MomentView& moment() const { return m_moment; }
    /// The visit in hand; empty: none is.
    [[nodiscard]] const VisitId& visit() const { return m_visit; }
    /// As it was read; nullptr while it is being read, or could not be.
    [[nodiscard]] std::shared_ptr<const VisitReading> reading() const { return m_reading; }
    [[nodiscard]] QByteArray picture(const QString& hash) const;

    /// Takes a visit in hand that somebody looks up, in the queue or not, at one of its entries.
    void showAt(const VisitId& visit, qint64 entry);
    /// Reads the visit in hand anew.
    void readAgain();
    /// The queue anew. The visit in hand stays where it is still there; else the one that took its row.
    void refresh();
    void setText(const QString& text);
    void setStand(const QString& id);
    void setWhat(const QString& id);
    void setDays(const QString& id);
    void setOrder(const QString& id);

    void chooseRow(int row);
    void next() { chooseRow(m_row + 1); }
    void previous() { chooseRow(m_row - 1); }

    void goTo(qint64 entry);
    /// The last entry until then. @param minutes  as the time line has them.
    void goToMoment(double minutes);
    void step(TimeLineDrawing::Step step);

Q_SIGNALS:
    void queueChanged(const coldarc::ui::QueueView& view);
    void viewChanged(const coldarc::ui::ReviewView& view);
    void momentChanged(const coldarc::ui::MomentView& view);

private:
    void showQueue();
    [[nodiscard]] bool isOutOfDate(const QueueRow& row) const;
    void open(const VisitId& visit, std::optional<qint64> entry = {});
    void opened(const VisitId& visit, Result<std::shared_ptr<VisitReading>> reading);
    void shut(const QString& said);
    [[nodiscard]] QString countWords() const;
    [[nodiscard]] QString emptyWords() const;
    [[nodiscard]] QString filterWords() const;
    [[nodiscard]] review::QueueFilter filter() const;

    ReviewDeeds m_deeds;
    const Clock& m_clock;
    Behind m_behind;
    QTimeZone m_zone;
    QueueModel m_queue;
    QString m_text;
    QString m_stand;
    QString m_what;
    QString m_days;
    QString m_order;
    int m_row = -1;
    VisitId m_visit;
    int m_turn = 0;                 ///< of the last reading that was begun
    bool m_isUnread = false;        ///< the visit in hand could not be read
    std::optional<qint64> m_wanted; ///< entry to be shown once the visit is read
    std::shared_ptr<VisitReading> m_reading;
    QueueView m_queueView;
    ReviewView m_view;
    MomentView m_moment;
};

} // namespace coldarc::ui
