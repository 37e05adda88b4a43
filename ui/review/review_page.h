#pragma once

#include "ui/review/queue_list.h"
#include "ui/review/review_view.h"
#include "ui/review/time_line_drawing.h"

#include <QWidget>

#include <functional>

class QScrollArea;
class QVBoxLayout;

namespace coldarc::ui {

class ComboField;
class DoneList;
class ExceptionCards;
class Field;
class LightBlock;
class MachineDrawing;
class PastReviews;
class PictureTile;
class PlainButton;
class SectionLabel;
class SignedLines;
class TextLabel;

/// The review desk. Left the queue, right the visit in hand: what is out of the ordinary, its time line with
/// the machine as it stood at the moment in hand, signatures, light, label pictures, every entry.
///
/// Keys: J and K go to the next visit and the one before, F opens what is looked for and leads to its box,
/// T leads to the time line, where the arrows go from entry to entry; Escape leaves a box.
class ReviewPage final : public QWidget {
    Q_OBJECT

public:
    /// Borrows the model, which must outlive the page.
    explicit ReviewPage(QueueModel& queue, QWidget* parent = nullptr);

    void setQueueView(const QueueView& view);
    void setView(const ReviewView& view);
    void setMoment(const MomentView& view);
    /// The bytes of a picture by its hash.
    void setPictures(std::function<QByteArray(const QString&)> pictures);
    /// The queue takes the focus.
    void takeFocus();
    void openFilter();

Q_SIGNALS:
    void rowChosen(int row);
    void nextRequested();
    void previousRequested();
    void textTyped(const QString& text);
    void standChosen(const QString& id);
    void whatChosen(const QString& id);
    void daysChosen(const QString& id);
    void orderChosen(const QString& id);
    void entryChosen(qint64 entry);
    void momentWanted(double minutes);
    void stepWanted(coldarc::ui::TimeLineDrawing::Step step);
    void reportRequested();
    void recordRequested();

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    QWidget* makeQueue();
    QWidget* makeFilter();
    QWidget* makeVisit();
    QWidget* makeReplay();
    QWidget* makeFoot();
    void bindKeys();
    void closeFilter();
    void showLights(const QList<ReviewLight>& lights);
    void showPictures(const QList<ReviewPicture>& pictures);

    ReviewView m_view;
    std::function<QByteArray(const QString&)> m_pictureBytes;
    QWidget* m_side;
    TextLabel* m_count;
    PlainButton* m_filterButton;
    QWidget* m_filter;
    Field* m_text;
    ComboField* m_stand;
    ComboField* m_what;
    ComboField* m_days;
    ComboField* m_order;
    QueueList* m_queue;
    TextLabel* m_noQueue;

    TextLabel* m_empty;
    QScrollArea* m_scroll;
    SectionLabel* m_head;
    TextLabel* m_title;
    TextLabel* m_sub;
    TextLabel* m_standing;
    TextLabel* m_fault;
    ExceptionCards* m_cards;
    TextLabel* m_noCards;
    TimeLineDrawing* m_timeLine;
    TextLabel* m_momentHead;
    TextLabel* m_momentWhat;
    TextLabel* m_momentMore;
    SectionLabel* m_place;
    MachineDrawing* m_machine;
    SignedLines* m_signatures;
    QWidget* m_pastBox;
    PastReviews* m_past;
    QVBoxLayout* m_lightColumn;
    QList<LightBlock*> m_lights;
    QWidget* m_pictureBox;
    QVBoxLayout* m_pictureColumn;
    QList<PictureTile*> m_pictures;
    DoneList* m_entries;
    QWidget* m_foot;
    PlainButton* m_report;
    PlainButton* m_record;
};

} // namespace coldarc::ui
