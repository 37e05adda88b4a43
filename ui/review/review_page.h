#pragma once

#include "ui/review/queue_list.h"
#include "ui/review/review_view.h"
#include "ui/review/time_line_drawing.h"
#include "ui/review/verdict_view.h"

#include <QPointer>
#include <QWidget>

#include <functional>

class QImage;
class QPlainTextEdit;
class QScrollArea;
class QVBoxLayout;

namespace coldarc::ui {

class ActionButton;
class CardLines;
class ComboField;
class DoneList;
class ExceptionCards;
class Field;
class LightBlock;
class MachineDrawing;
class PastReviews;
class PictureTile;
class PlainButton;
class RowList;
class SectionLabel;
class SignedLines;
class TextLabel;

/// The review desk. Left the queue, right the visit in hand: what is out of the ordinary, its time line with
/// the machine as it stood at the moment in hand, signatures, light, label pictures, every entry; beneath it
/// what can be done: remark, send back, accept.
///
/// Keys: N and B go to the next visit and the one before, F opens what is looked for and leads to its box,
/// T leads to the time line, where the arrows go from entry to entry; R remarks on the entry in hand, S sends
/// back, A accepts and signs; Ctrl+Enter presses the main action, Escape leaves a box.
class ReviewPage final : public QWidget {
    Q_OBJECT

public:
    /// Borrows both, which must outlive the page.
    ReviewPage(QueueModel& queue, const Clock& clock, QWidget* parent = nullptr);

    void setQueueView(const QueueView& view);
    void setView(const ReviewView& view);
    void setMoment(const MomentView& view);
    void setVerdict(const VerdictView& view);
    /// One of the visit in hand, once it was read; null: it is not there.
    /// @param trouble  why there is none, where it is null.
    void setPicture(const QString& hash, const QImage& picture, const QString& trouble);
    /// The queue takes the focus, or where it is empty what is looked for.
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
    void printRequested();
    void historyRequested(const coldarc::ui::HistoryLink& link);
    void remarkRequested();
    void sendBackRequested();
    void formLeft();
    void draftChanged(const QString& text);
    void remarkDropped(const QString& id);
    void doneRequested();

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    QWidget* makeQueue();
    QWidget* makeFilter();
    QWidget* makeVisit();
    QWidget* makeReplay();
    QWidget* makeFoot();
    QWidget* makeForm();
    void bindKeys();
    void closeFilter();
    void goToForm();
    void leave();
    [[nodiscard]] bool isInFilter() const;
    void onKeyOutsideTheFilter(Qt::Key key, const std::function<void()>& deed);
    void keepFocus();
    void showSaid();
    void showForm(const std::optional<VerdictForm>& form);
    void showLights(const QList<ReviewLight>& lights);
    void showPictures(const QList<ReviewPicture>& pictures);

    ReviewView m_view;
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

    QWidget* m_emptyBox;
    TextLabel* m_saidAlone; ///< what came of the last press, while no visit is in sight
    TextLabel* m_empty;
    QScrollArea* m_scroll;
    SectionLabel* m_head;
    TextLabel* m_title;
    TextLabel* m_sub;
    TextLabel* m_standing;
    TextLabel* m_fault;
    ExceptionCards* m_cards;
    TextLabel* m_noCards;
    TextLabel* m_after;
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
    RowList* m_histories;
    QList<LightBlock*> m_lights;
    QWidget* m_pictureBox;
    QVBoxLayout* m_pictureColumn;
    QList<PictureTile*> m_pictures;
    DoneList* m_entries;
    QWidget* m_foot;
    QWidget* m_draftBox;
    CardLines* m_drafts;
    QWidget* m_form;
    TextLabel* m_formTitle;
    TextLabel* m_formLabel;
    QPlainTextEdit* m_box;
    TextLabel* m_formHint;
    PlainButton* m_leaveForm;
    TextLabel* m_said;
    TextLabel* m_no;
    TextLabel* m_statement;
    PlainButton* m_remark;
    PlainButton* m_report;
    PlainButton* m_record;
    PlainButton* m_print;
    PlainButton* m_sendBack;
    ActionButton* m_action;
    QString m_lastSaid;
    std::optional<VerdictForm::Kind> m_formKind;
    QPointer<QWidget> m_before;   ///< where somebody was before the form
    bool m_wasOnTimeLine = false; ///< before the visit in sight went
};

} // namespace coldarc::ui
