#pragma once

#include "core/base/id_source.h"
#include "core/catalogue/catalogue.h"
#include "core/lamps/in_hand.h"
#include "core/lamps/lamp_store.h"
#include "ui/parts/card_lines.h"
#include "ui/parts/choice_row.h"
#include "ui/parts/field.h"
#include "ui/parts/paste_panel.h"

#include <QObject>

#include <functional>

namespace coldarc::ui {

struct LampsView {
    QList<CardLine> van;   ///< of whoever works here
    QString noVan;         ///< said where there are none
    QList<CardLine> stock; ///< in the store; act: into the van
    QList<CardLine> boxed; ///< taken out and not given away yet; acts: returned, recycled
    QList<CardLine>
        away; ///< on order, in other vans, kept by a site, brought for nothing, in pieces; act: what is next
    ChoiceView type;
    FieldView serial;
    FieldView hours;
    ChoiceView custody;
    PasteView paste;
    QString message;
    int emptied = 0; ///< a change empties the boxes: the lamp in them was added

    friend bool operator==(const LampsView&, const LampsView&) = default;
};

/// How people and sites are called.
struct LampPlaces {
    std::function<QString(const PersonId&)> person;
    std::function<QString(const SiteId&)> site;
};

/// The lamps that are not in a lamphouse and may move still.
class LampsPresenter final : public QObject {
    Q_OBJECT

public:
    /// Borrows all of these, which must outlive the presenter.
    LampsPresenter(lamps::LampStore& lamps, const catalogue::Catalogue& catalogue, LampPlaces places,
                   const Clock& clock, IdSource& ids, QObject* parent = nullptr);

    /// @param inHand  what unfinished visits have in hand.
    void setInHand(std::function<lamps::InHand()> inHand);
    [[nodiscard]] const LampsView& view() const { return m_view; }
    void setWho(const PersonId& who);
    void refresh();
    /// @param hours    what it has burnt, as typed; empty: nobody knows.
    /// @param custody  a word of lamps::Custody: in-van or in-stock.
    void add(const QString& type, const QString& serial, const QString& hours, const QString& custody);
    void paste(const QString& table);
    /// What stands on the button of this lamp.
    void act(const QString& lamp);
    /// This boxed lamp was handed to somebody who lets it down.
    void recycle(const QString& lamp);

Q_SIGNALS:
    void viewChanged(const coldarc::ui::LampsView& view);
    void lampsChanged();

private:
    void show(LampsView view);
    void fill(LampsView& view);
    [[nodiscard]] QString nameOf(const lamps::Lamp& lamp) const;
    void moved(const lamps::Lamp& lamp, const lamps::CustodyMove& move, const QString& done);
    [[nodiscard]] CardLine lineOf(const lamps::LampInCustody& lamp, const QString& act,
                                  const QString& where = {}) const;
    void fillAway(LampsView& view) const;
    [[nodiscard]] QString whereOf(const lamps::LampInCustody& lamp) const;
    [[nodiscard]] lamps::CustodyMove moveOf(const LampId& lamp) const;
    void settle(const Result<lamps::MoveAnswer>& outcome, const QString& done);

    lamps::LampStore& m_lamps;
    const catalogue::Catalogue& m_catalogue;
    LampPlaces m_places;
    const Clock& m_clock;
    IdSource& m_ids;
    std::function<lamps::InHand()> m_inHand = [] { return lamps::InHand(); };
    lamps::InHand m_hand; ///< as it was shown
    PersonId m_who;
    LampsView m_view;
};

/// Why a pasted line was not taken: "Line 4: ...".
[[nodiscard]] QString wordsFor(const lamps::BadStockRow& row);

} // namespace coldarc::ui
