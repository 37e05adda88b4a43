#pragma once

#include "ui/parts/side_page.h"
#include "ui/visit/visits_presenter.h"

namespace coldarc::ui {

class PlainButton;
class TextLabel;

/// The visits at the left, the one that was chosen at the right: lamps, time, kit, and the main action.
class VisitsPage final : public SidePage {
    Q_OBJECT

public:
    /// Borrows the clock, which must outlive the page.
    explicit VisitsPage(const Clock& clock, QWidget* parent = nullptr);

    void setView(const VisitsView& view);

Q_SIGNALS:
    void rowChosen(const QString& row);
    void kitTicked(const QStringList& ids);
    void goRequested();
    /// The plan is to be taken off the list: asks, does it, or leaves it there.
    void dropAsked();
    void dropRequested();
    void dropLeft();
    /// What was left over of a closed visit is tried again; `line` is that of the card.
    void settleRequested(const QString& line);
    void whatWasDoneRequested();
    void newVisitRequested();

private:
    void showCard(const VisitCard& card);

    VisitsView m_view;
    TextLabel* m_message;
    TextLabel* m_tonightName;
    RowList* m_tonight;
    TextLabel* m_unfinishedName;
    RowList* m_unfinished;
    TextLabel* m_sentBackName;
    RowList* m_sentBack;
    TextLabel* m_owedName;
    RowList* m_owed;
    TextLabel* m_comingName;
    RowList* m_coming;
    TextLabel* m_closedName;
    RowList* m_closed;
    TextLabel* m_empty;
    QWidget* m_card;
    TextLabel* m_title;
    TextLabel* m_sub;
    TextLabel* m_needs;
    TextLabel* m_gap;
    TextLabel* m_verdict;
    TextLabel* m_said;
    TextLabel* m_linesName;
    CardLines* m_lines;
    TickList* m_kit;
    PlainButton* m_new;
    TextLabel* m_dropQuestion;
    PlainButton* m_drop;
    PlainButton* m_dropNow;
    PlainButton* m_keep;
    PlainButton* m_look;
    ActionButton* m_action;
};

} // namespace coldarc::ui
