#pragma once

#include "core/base/id_source.h"
#include "core/catalogue/catalogue.h"
#include "core/lamps/lamp_store.h"
#include "ui/parts/card_lines.h"
#include "ui/parts/choice_row.h"
#include "ui/parts/field.h"
#include "ui/parts/paste_panel.h"

#include <QObject>

namespace coldarc::ui {

struct LampsView {
    QList<CardLine> van;   ///< of whoever works here
    QString noVan;         ///< said where there are none
    QList<CardLine> stock; ///< in the store; act: into the van
    QList<CardLine> boxed; ///< taken out and not given away yet; act: returned
    ChoiceView type;
    FieldView serial;
    ChoiceView custody;
    PasteView paste;
    QString message;
    int emptied = 0; ///< a change empties the boxes

    friend bool operator==(const LampsView&, const LampsView&) = default;
};

/// The lamps that are not in a lamphouse: in the van of whoever works here, in the store, boxed.
class LampsPresenter final : public QObject {
    Q_OBJECT

public:
    /// Borrows all of these, which must outlive the presenter.
    LampsPresenter(lamps::LampStore& lamps, const catalogue::Catalogue& catalogue, const Clock& clock,
                   IdSource& ids, QObject* parent = nullptr);

    [[nodiscard]] const LampsView& view() const { return m_view; }
    void setWho(const PersonId& who);
    void refresh();
    /// @param custody  a word of lamps::Custody: in-van or in-stock.
    void add(const QString& type, const QString& serial, const QString& custody);
    void paste(const QString& table);
    /// What stands on the button of this lamp.
    void act(const QString& lamp);

Q_SIGNALS:
    void viewChanged(const coldarc::ui::LampsView& view);
    void lampsChanged();

private:
    void show(LampsView view);
    void fill(LampsView& view) const;
    [[nodiscard]] CardLine lineOf(const lamps::LampInCustody& lamp, const QString& act) const;
    void settle(const Result<lamps::MoveAnswer>& outcome, const QString& done);

    lamps::LampStore& m_lamps;
    const catalogue::Catalogue& m_catalogue;
    const Clock& m_clock;
    IdSource& m_ids;
    PersonId m_who;
    LampsView m_view;
};

/// Why a pasted line was not taken: "Line 4: ...".
[[nodiscard]] QString wordsFor(const lamps::BadStockRow& row);

} // namespace coldarc::ui
