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
    QueuePlace place;
    VisitRead read;
    /// The bytes of a picture. Called on any thread, like `read`. Error::NotFound where it is not there,
    /// Malformed where it is not as it was kept, Storage.
    std::function<Result<QByteArray>(const Hash& picture)> picture;
};

/// The review desk: a queue, and the visit in hand with the moment in hand. Visits and their pictures are
/// read behind the window, one thing at a time; what is wanted no longer when its turn comes is not read.
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

    /// Takes a visit in hand that somebody looks up, in the queue or not, at one of its entries.
    void showAt(const VisitId& visit, qint64 entry);
    /// Reads the visit in hand anew.
    void readAgain();
    /// The queue anew. The visit in hand stays where it is still there, or was looked up and never was; else
    /// the one that took its row.
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
    /// One of the visit in hand, large enough to be shown large; null: `trouble` says why there is none.
    void pictureRead(const QString& hash, const QImage& picture, const QString& trouble);

private:
    /// What is read of a visit behind the window.
    struct Behindhand {
        Result<std::shared_ptr<VisitReading>> reading;
        ReviewView view;
    };
    void lookFor(QString& what, const QString& now);
    /// @param end  said of a step beyond it; empty: nothing.
    void showQueue(const QString& end = {});
    [[nodiscard]] bool isEverythingThatWaits() const;
    [[nodiscard]] bool isOutOfDate(const QueueRow& row) const;
    void open(const VisitId& visit, std::optional<qint64> entry = {});
    void readOn();
    void readVisit();
    void readPicture();
    [[nodiscard]] static QString pictureTrouble(const Result<QByteArray>& bytes);
    void opened(const VisitId& visit, Behindhand read);
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
    bool m_isLookedUp = false; ///< it is in hand whether it is in the queue or not
    int m_turn = 0;          ///< counts what was taken in hand: what was read for a former one is for nobody
    bool m_isBusy = false;   ///< something is being read
    bool m_isWanted = false; ///< the visit in hand is still to be read
    bool m_isUnread = false; ///< the visit in hand could not be read
    QStringList m_unreadPictures;   ///< of the visit in hand, still to be read
    std::optional<qint64> m_wanted; ///< entry to be shown once the visit is read
    std::shared_ptr<VisitReading> m_reading;
    QueueView m_queueView;
    ReviewView m_view;
    MomentView m_moment;
};

} // namespace coldarc::ui
