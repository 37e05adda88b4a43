#pragma once

#include "ui/parts/action_button.h"
#include "ui/parts/choice_row.h"
#include "ui/parts/field.h"
#include "ui/parts/row_list.h"
#include "ui/visit/visit_sources.h"

#include <QHash>
#include <QObject>

namespace coldarc::ui {

/// The new lamp of one lamphouse: chosen from the stock, or typed.
struct NewLampView {
    LamphouseId lamphouse;
    ChoiceView lamp; ///< stock first; the last option is a lamp that is typed
    bool isTyped = false;
    ChoiceView type; ///< of a typed one
    FieldView serial;
    FieldView hours;

    friend bool operator==(const NewLampView&, const NewLampView&) = default;
};

struct NewVisitView {
    QList<RowView> sites;
    QString site; ///< id of the chosen one
    QString title;
    QString sub;
    TickListView screens; ///< a tick for each lamphouse whose lamp is exchanged
    TickListView owed;    ///< a tick for each lamphouse where what is owed is done without a new lamp
    QList<NewLampView> lamps;
    ChoiceView reason;
    TickListView others; ///< who comes along
    QString needs;
    QString gap;
    QString verdict;
    QString empty;        ///< said where there is nothing to choose from
    QStringList inTheWay; ///< what has to be put right first
    ActionView action;

    friend bool operator==(const NewVisitView&, const NewVisitView&) = default;
};

/// Opens a visit in three presses where the van holds the lamp: the screen, the reason if it is another than
/// that the lamp is due, open.
class NewVisitPresenter final : public QObject {
    Q_OBJECT

public:
    explicit NewVisitPresenter(VisitSources sources, QObject* parent = nullptr);

    [[nodiscard]] const NewVisitView& view() const { return m_view; }
    /// Begins anew for whoever works here.
    void begin(const PersonId& lead);
    /// Begins with what was planned.
    void beginFrom(const PersonId& lead, const visit::PlannedVisit& plan);
    /// Begins with nothing but what is owed at this lamphouse.
    void beginWithOwed(const PersonId& lead, const SiteId& site, const LamphouseId& lamphouse);

    void chooseSite(const QString& site);
    void tickScreens(const QStringList& lamphouses);
    /// A lamphouse whose lamp is exchanged owes nothing, so the last tick of the two counts.
    void tickOwed(const QStringList& lamphouses);
    void chooseLamp(const QString& lamphouse, const QString& lamp);
    /// @param hours  that it has burnt, as typed; empty: nobody knows.
    void typeLamp(const QString& lamphouse, const QString& type, const QString& serial, const QString& hours);
    void chooseReason(const QString& reason);
    void tickOthers(const QStringList& people);
    /// The main action.
    void open();
    /// Looks at the clock only.
    void look();

Q_SIGNALS:
    void viewChanged(const coldarc::ui::NewVisitView& view);
    void opened(const VisitId& visit);

private:
    struct Pick {
        QString lamp; ///< id of one in stock, or kTyped
        QString type;
        QString serial;
        QString hours = QStringLiteral("0");

        [[nodiscard]] bool isTyped() const;
    };

    void reset(const PersonId& lead);
    void refresh();
    [[nodiscard]] NewVisitView made() const;
    void fillScreens(NewVisitView& view) const;
    void fillOwed(NewVisitView& view) const;
    void fillLamps(NewVisitView& view) const;
    void fillTime(NewVisitView& view) const;
    void fillOthers(NewVisitView& view) const;
    void fillAction(NewVisitView& view) const;
    void pickLamps();
    void pickReason();
    [[nodiscard]] const OwedThere* owedAt(const LamphouseId& lamphouse) const;
    [[nodiscard]] bool isTaken(const LamphouseId& lamphouse, const lamps::LampInCustody& lamp) const;
    [[nodiscard]] QList<lamps::LampInCustody> fitting(const LamphouseId& lamphouse) const;
    [[nodiscard]] const catalogue::ProjectorModel* modelAt(const LamphouseId& lamphouse) const;
    [[nodiscard]] visit::LampFacts newLamp(const LamphouseId& lamphouse) const;
    [[nodiscard]] visit::WantedVisit wanted() const;
    void useKnown(visit::LampFacts& typed) const;
    [[nodiscard]] QStringList wrongWith(const visit::WantedVisit& asked) const;
    [[nodiscard]] QString wrongWithHours(const visit::WantedSwap& swap) const;
    [[nodiscard]] Result<void> addTyped(const visit::WantedVisit& wanted) const;
    void say(const QStringList& inTheWay);

    VisitSources m_sources;
    PersonId m_lead;
    VisitId m_visit; ///< of the plan, or a fresh one
    bool m_isPlanned = false;
    std::vector<site::Site> m_sites;
    std::optional<site::SiteDocument> m_site;
    QList<visit::FittedLamp> m_fitted;
    QList<lamps::LampInCustody>
        m_stock; ///< the lead's van, then the store, without what is in hand elsewhere
    lamps::InHand m_inHand;
    std::vector<people::Person> m_people;
    QList<OwedThere> m_owed; ///< at this site
    QList<LamphouseId> m_ticked;
    QList<LamphouseId> m_tickedOwed;
    QHash<LamphouseId, Pick> m_picks;
    QString m_reason;
    QString m_planReason; ///< as it was planned; or empty
    QStringList m_others;
    QStringList m_said;
    NewVisitView m_view;
};

/// What stands in the way of a visit, in one sentence.
[[nodiscard]] QString wordsFor(const visit::OpenProblem& problem, const site::SiteDocument& site,
                               const catalogue::Catalogue& catalogue,
                               const std::vector<people::Person>& people, const QTimeZone& zone);

} // namespace coldarc::ui
