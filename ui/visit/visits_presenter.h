#pragma once

#include "ui/parts/action_button.h"
#include "ui/parts/card_lines.h"
#include "ui/parts/choice_row.h"
#include "ui/parts/row_list.h"
#include "ui/visit/visit_sources.h"

#include <QHash>
#include <QObject>
#include <QSet>

namespace coldarc::ui {

/// What is shown of the visit that was chosen.
struct VisitCard {
    QString title; ///< "Pier Street"
    QString sub;   ///< when, why
    QString needs; ///< "needs 1 h 38"
    QString gap;   ///< "gap 2 h, next show 16:40"
    QString verdict;
    QString said;          ///< by the supervisor who sent it back; or empty
    QString linesName;     ///< over the lines: what they are
    QList<CardLine> lines; ///< lamps of a plan; where each swap of an open visit stands
    TickListView kit;      ///< of a plan; no items: not shown
    ActionView action;     ///< an empty text: nothing can be done
    bool canDrop = false;  ///< a plan that is not made
    QString dropQuestion;  ///< asked before it is taken off the list; or empty
    QString look;          ///< on the second button: what was done there so far; or empty

    friend bool operator==(const VisitCard&, const VisitCard&) = default;
};

struct VisitsView {
    QList<RowView> tonight; ///< planned for today, or overdue
    QList<RowView> unfinished;
    QList<RowView> sentBack; ///< by a supervisor, not answered yet
    QList<RowView> owed;     ///< what earlier visits left, by lamphouse
    QList<RowView> coming;
    QList<RowView> closed;
    QString chosen; ///< id of a row
    std::optional<VisitCard> card;
    QString empty;       ///< said instead of a card
    bool canOpen = true; ///< a visit that nobody planned
    QString message;     ///< what came of the last deed

    friend bool operator==(const VisitsView&, const VisitsView&) = default;
};

/// The visits of whoever works here: what is planned for tonight, what is unfinished, what was sent back,
/// what is owed, what is to come, what is over. The ticks of a kit list last until the program is closed.
class VisitsPresenter final : public QObject {
    Q_OBJECT

public:
    explicit VisitsPresenter(VisitSources sources, QObject* parent = nullptr);

    [[nodiscard]] const VisitsView& view() const { return m_view; }
    void setWho(const PersonId& who);
    /// From now on visits are looked at only: none is opened, resumed, taken off the list or settled. What
    /// was done is shown of those that are over; an open one goes on elsewhere, and how its machine stands
    /// there is not known here.
    void setReading();

    /// Reads the lists anew.
    void refresh();
    /// Looks at the clock only: gaps and waits of what is chosen.
    void look();
    void choose(const QString& row);
    void tick(const QStringList& kit);
    /// The main action of the card.
    void go();
    /// Asks whether the plan in sight is to be taken off the list.
    void askToDrop();
    void leaveDrop();
    /// It is, if that was asked. Nothing is chosen then until somebody chooses.
    void drop();
    /// Asks for what was left over of the visit in sight once more, as the act of this line says.
    void settle(const QString& line);
    /// At what was done so far in the visit in sight.
    void lookBack();

Q_SIGNALS:
    void viewChanged(const coldarc::ui::VisitsView& view);
    void resumeRequested(const VisitId& visit);
    void settleRequested(const VisitId& visit, visit::CountersAre counters);
    void whatWasDoneRequested(const VisitId& visit);
    /// A planned visit is to be opened.
    void openRequested(const visit::PlannedVisit& plan);
    /// What is owed at this lamphouse is to be done.
    void followUpRequested(const SiteId& site, const LamphouseId& lamphouse);

private:
    void show(VisitsView view);
    void readLists();
    void fillLists(VisitsView& view) const;
    void fillCard(VisitsView& view) const;
    void leaveForReading(VisitsView& view) const;
    [[nodiscard]] std::optional<VisitCard> planCard(const visit::PlannedVisit& plan) const;
    [[nodiscard]] std::optional<VisitCard> owedCard(const OwedThere& owed) const;
    [[nodiscard]] TickListView kitOf(const OwedThere& owed, const site::SiteDocument& site) const;
    [[nodiscard]] QString nameOf(const PersonId& person) const;
    /// A visit that is not finished does it.
    [[nodiscard]] bool isTakenUp(const OwedThere& owed) const;
    [[nodiscard]] std::optional<VisitCard> visitCard(const VisitLine& line) const;
    [[nodiscard]] const visit::VisitState* stateOf(const VisitLine& line) const;
    [[nodiscard]] TickListView kitOf(const visit::PlannedVisit& plan, const site::SiteDocument& site) const;
    void addGear(QList<TickItem>& items) const;
    [[nodiscard]] QString dayText(people::Day day) const;

    VisitSources m_sources;
    PersonId m_who;
    QList<VisitLine> m_visits;
    std::vector<visit::PlannedVisit> m_plans;
    QList<OwedThere> m_owed;
    /// By row id: of unfinished visits, and of those that are over as far as somebody looked at them.
    mutable QHash<QString, visit::VisitState> m_states;
    QHash<QString, QStringList> m_ticked;
    QString m_message; ///< what could not be read; or empty
    QString m_done;    ///< what came of the last deed; or empty
    QString m_asked;   ///< row of the plan that may be taken off the list; or empty
    bool m_choosesNearest = true;
    bool m_isReading = false;
    VisitsView m_view;
};

} // namespace coldarc::ui
