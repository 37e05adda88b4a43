#pragma once

#include "core/base/id_source.h"
#include "core/lamps/taught_rule_store.h"
#include "core/people/people_store.h"
#include "ui/parts/action_button.h"
#include "ui/parts/card_lines.h"
#include "ui/parts/choice_row.h"
#include "ui/parts/field.h"
#include "ui/parts/row_list.h"

#include <QObject>

#include <functional>

namespace coldarc::ui {

struct TeachView {
    QList<RowView> codes; ///< that no rule reads, newest first
    QString noCodes;      ///< said where there are none
    QString chosen;       ///< id of a row; empty: none, or one that was pasted or scanned
    FieldView pasted;
    QString code;        ///< the one in hand, as it can be printed; empty: none
    ChoiceView typePart; ///< which part of it is the type
    ChoiceView serialPart;
    ChoiceView lampType;   ///< whose code it is
    QStringList reads;     ///< how the code would be read, and those on record
    QStringList faults;    ///< everything that speaks against it
    QString message;       ///< what became of the last press
    QList<CardLine> rules; ///< what was taught; act: withdraw
    QString noRules;
    ActionView action;

    friend bool operator==(const TeachView&, const TeachView&) = default;
};

/// Teaches the catalogue how a maker's codes are read: a supervisor picks a code that nobody could read,
/// marks in it type and serial, sees how it and every code on record would be read, and keeps the rule. What
/// was taught holds for visits that are opened afterwards: one that is open keeps what it was opened with.
class TeachPresenter final : public QObject {
    Q_OBJECT

public:
    /// Borrows all of these, which must outlive the presenter.
    /// @param catalogue  with everything that was taught up to now; asked anew each time.
    TeachPresenter(lamps::TaughtRuleStore& rules, const people::PeopleStore& people,
                   std::function<const catalogue::Catalogue&()> catalogue, const Clock& clock, IdSource& ids,
                   QObject* parent = nullptr);

    [[nodiscard]] const TeachView& view() const { return m_view; }
    void setWho(const PersonId& who);
    void refresh();
    /// @param id  of a row.
    void chooseCode(const QString& id);
    /// A code that was pasted, typed or scanned.
    void takeCode(const QString& scanned);
    /// @param id  of the view's options.
    void markType(const QString& id);
    void markSerial(const QString& id);
    void chooseLampType(const QString& id);
    void keep();
    void withdraw(const QString& rule);

Q_SIGNALS:
    void viewChanged(const coldarc::ui::TeachView& view);
    /// A rule was kept or withdrawn: the catalogue reads otherwise.
    void taught();

private:
    [[nodiscard]] people::Day today() const;
    [[nodiscard]] people::Holder holder() const;
    [[nodiscard]] QList<catalogue::LampType> lampTypes() const;
    [[nodiscard]] label::Lesson lesson() const;
    [[nodiscard]] label::TeachAnswer answer() const;
    [[nodiscard]] QString partOf(const QString& id) const;
    void begin(const QString& scanned);
    void fillCodes(TeachView& view) const;
    void fillLesson(TeachView& view) const;
    void fillRules(TeachView& view) const;
    void settle(const Result<lamps::TeachingAnswer>& outcome, const QString& done);
    void show();

    lamps::TaughtRuleStore& m_rules;
    const people::PeopleStore& m_people;
    std::function<const catalogue::Catalogue&()> m_catalogue;
    const Clock& m_clock;
    IdSource& m_ids;
    PersonId m_who;
    QString m_scanned;
    QString m_typePart;
    QString m_serialPart;
    QString m_lampType;
    QString m_message;
    Result<QStringList> m_onRecord; ///< what codes on record a rule must not read otherwise
    TeachView m_view;
};

} // namespace coldarc::ui
