#pragma once

#include "core/base/id_source.h"
#include "core/lamps/found_lamp.h"
#include "core/site/site_store.h"
#include "ui/parts/card_lines.h"
#include "ui/parts/choice_row.h"
#include "ui/parts/field.h"
#include "ui/parts/paste_panel.h"
#include "ui/parts/row_list.h"
#include "ui/site/site_words.h"

#include <QObject>

#include <functional>

namespace coldarc::ui {

/// What is filled in beneath a site's card.
enum class SiteForm {
    None,
    NewSite,
    House,  ///< name, town, contact and the rules of the house
    Screen, ///< one more screen with its projector and its breakers
    Lamp,   ///< the lamp found in one lamphouse
    Shows,  ///< of one screen, with its name and hours
    Paste,  ///< the whole site from a table
    Breaker ///< one that was put down wrongly
};

/// Which breaker of the site plays one part of a model's supply.
struct BreakerFields {
    QString role; ///< id
    FieldView panel;
    FieldView circuit;

    friend bool operator==(const BreakerFields&, const BreakerFields&) = default;
};

struct SitesView {
    QList<RowView> sites;
    QString chosen;
    QString title;
    QString sub;
    QStringList problems;       ///< what has to be put right before a visit
    QList<CardLine> screens;    ///< act: name, hours and shows
    QList<CardLine> lamphouses; ///< act: the lamp found
    QList<CardLine> points;     ///< act: which one it is
    QList<CardLine> house;      ///< rules of the house and contacts
    QString empty;              ///< said instead of a card

    SiteForm form = SiteForm::None;
    QString formTitle;
    QString formNote;
    QString formAct;
    FieldView name;
    FieldView town;
    FieldView contact;
    FieldView contactPhone;
    ChoiceView prover;
    FieldView rules;
    FieldView locks;
    FieldView weeklyHours;
    ChoiceView model;
    FieldView projector;
    QList<BreakerFields> breakers; ///< at most kMostBreakers
    ChoiceView takesLock;          ///< of the one that is put right: "yes" or "no"
    ChoiceView type;               ///< of the lamp found; first option: unknown
    FieldView serial;
    FieldView hours;
    FieldView counter;
    QString shows; ///< one moment a line
    PasteView paste;
    QString message;
    int emptied = 0; ///< a change fills the boxes anew

    friend bool operator==(const SitesView&, const SitesView&) = default;
};

/// The answers of whichever form is up.
struct SiteAnswers {
    QString name;
    QString town;
    QString contact;
    QString contactPhone;
    QString prover;
    QString rules;
    QString locks;
    QString weeklyHours;
    QString model;
    QString projector;
    QStringList panels; ///< by breaker
    QStringList circuits;
    QString takesLock;
    QString type;
    QString serial;
    QString hours;
    QString counter;
    QString shows;
};

/// The sites of a workspace: screens, projectors, breakers, the lamp found in each lamphouse, shows, the
/// rules of the house. Screens are added one by one or pasted as a table; either way by the same rows.
class SitesPresenter final : public QObject {
    Q_OBJECT

public:
    static constexpr int kMostBreakers = 6;

    /// Borrows all of these, which must outlive the presenter.
    SitesPresenter(site::SiteStore& sites, lamps::LampStore& lamps, const catalogue::Catalogue& catalogue,
                   const Clock& clock, IdSource& ids, QTimeZone zone, QObject* parent = nullptr);

    [[nodiscard]] const SitesView& view() const { return m_view; }
    /// How to ask what unfinished visits have in hand. Nothing is, unless this is called.
    void setInHand(std::function<lamps::InHand()> inHand);

    void refresh();
    void choose(const QString& site);
    void openForm(coldarc::ui::SiteForm form);
    /// The lamp found in this lamphouse, the shows of this screen, which breaker this is and whether it takes
    /// a lock.
    void openLamp(const QString& lamphouse);
    void openShows(const QString& screen);
    void openBreaker(const QString& point);
    /// Another model was chosen: other breakers are asked for.
    void chooseModel(const QString& model);
    void keepForm(const coldarc::ui::SiteAnswers& answers);
    void paste(const QString& table);

Q_SIGNALS:
    void viewChanged(const coldarc::ui::SitesView& view);
    void sitesChanged();

private:
    void show(SitesView view);
    void fill(SitesView& view) const;
    void fillCard(SitesView& view) const;
    void fillForm(SitesView& view) const;
    void fillBreakers(SitesView& view) const;
    void wordBreaker(SitesView& view) const;
    [[nodiscard]] QString fedBy(const site::IsolationPoint& point) const;
    [[nodiscard]] const site::IsolationPoint* breakerAsked() const;
    [[nodiscard]] QString fittedText(const site::Lamphouse& lamphouse) const;
    void settle(const Result<void>& outcome, const QString& done);
    void keepNewSite(const SiteAnswers& answers);
    void keepHouse(const SiteAnswers& answers);
    void keepScreen(const SiteAnswers& answers);
    void keepLamp(const SiteAnswers& answers);
    void keepShows(const SiteAnswers& answers);
    void keepBreaker(const SiteAnswers& answers);
    [[nodiscard]] QString whyNotThere(const LampTypeId& type, const QString& serial,
                                      const lamps::InHand& inHand) const;
    [[nodiscard]] Result<void> sayUnknown(const lamps::Look& look, const lamps::InHand& inHand);
    [[nodiscard]] Result<void> sayFound(const lamps::Look& look, const lamps::Lamp& lamp,
                                        const std::optional<double>& counter, const lamps::InHand& inHand);

    site::SiteStore& m_store;
    lamps::LampStore& m_lamps;
    const catalogue::Catalogue& m_catalogue;
    const Clock& m_clock;
    IdSource& m_ids;
    QTimeZone m_zone;
    std::vector<site::Site> m_sites;
    std::optional<site::SiteDocument> m_document;
    std::function<lamps::InHand()> m_inHand = [] { return lamps::InHand(); };
    LamphouseId m_lamphouse; ///< of the lamp form
    ScreenId m_screen;       ///< of the shows form
    PointId m_point;         ///< of the breaker form
    SitesView m_view;
};

} // namespace coldarc::ui
