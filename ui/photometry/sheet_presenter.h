#pragma once

#include "core/photometry/typed.h"
#include "core/visit/sheet_of_visit.h"
#include "ui/photometry/meter_import.h"
#include "ui/photometry/own_limits.h"
#include "ui/photometry/sheet_desk.h"
#include "ui/photometry/sheet_form.h"
#include "ui/photometry/sheet_view.h"

#include <QObject>

#include <map>
#include <set>
#include <vector>

namespace coldarc::ui {

/// The screen sheet of one swap, on arrival or under the new lamp. Every reading that is taken is an entry;
/// what is typed and not taken yet stays here until it is.
class SheetPresenter final : public QObject {
    Q_OBJECT

public:
    enum class Toward {
        Left,
        Right,
        Up,
        Down,
    };

    /// Borrows the desk, which must outlive the presenter.
    explicit SheetPresenter(SheetDesk& desk, QObject* parent = nullptr);

    /// What a sheet can be held against. The first one for digital pictures in a theatre is in use until
    /// somebody chooses.
    void setLimits(const std::vector<photometry::ToleranceSet>& sets) { m_sets = sets; }

    [[nodiscard]] const SheetView& view() const { return m_view; }
    /// Takes up the sheet of this swap: under the new lamp, or, before it was struck, under the one found.
    void open(int swap);
    void refresh();

    void choosePoint(const QString& place);
    void move(Toward toward);
    void chooseUnit(const QString& unit);
    void setTyped(const QString& luminance, const QString& x, const QString& y);
    /// Takes what is typed for the point in hand, or asks about it, and goes on to the next point.
    void enter();
    void answer(const QString& id);
    void takeBack();

    void choosePanel(SheetPanel panel);
    void chooseSet(const QString& id);
    void setCondition(const QString& id, const QString& text);
    /// @param id  a field of the own limits.
    void setOwnLimit(const QString& id, const QString& text);
    void giveTable(const QString& text);
    void giveFile(const QString& path);
    void mapTable(const QString& id, const QString& answer);
    void takeTable();
    void answerTable(const QString& id);

    void done();
    void owe();
    /// What was said of the conditions is kept, and the bench comes up.
    void leave();

Q_SIGNALS:
    void viewChanged(const coldarc::ui::SheetView& view);
    /// The step is done, or left to a later visit.
    void finished();
    void left();

private:
    struct Typed {
        QString luminance;
        QString x;
        QString y;
        /// Somebody typed the light; else it stands there as it was read, shown in the unit in use.
        bool isLightTyped = false;
        [[nodiscard]] bool isEmpty() const
        {
            return luminance.trimmed().isEmpty() && x.trimmed().isEmpty() && y.trimmed().isEmpty();
        }
    };
    /// What is on the page of one sheet and in no entry.
    struct Mind {
        photometry::LuminanceUnit unit = photometry::LuminanceUnit::CdPerM2;
        photometry::Place inHand = photometry::Place::Centre;
        std::map<photometry::Place, Typed> typed;
        SheetForm form;
        SheetPanel panel = SheetPanel::Verdicts;
        MeterImport import;
        std::set<photometry::Place> asked; ///< whose rows the question about the table is about
        std::set<photometry::Place> sure;  ///< whose rows somebody has said to be as the meter showed them
        OwnLimits ownLimits;
        bool isTouched = false;                 ///< conditions or limits were typed that are in no entry
        std::optional<photometry::Doubt> doubt; ///< asked of the reading in hand
        bool asksForTheFile = false;            ///< whether all that came with the reading in hand goes
        QString fault;
        QStringList said;
    };

    [[nodiscard]] const visit::SwapState& swap(const visit::VisitState& state) const;
    [[nodiscard]] visit::SheetOfSwap sheet(const visit::VisitState& state) const;
    /// The set in use with the own limits that are typed for it.
    [[nodiscard]] OwnLimits::Used ownLimits(const visit::SheetOfSwap& sheet) const;
    /// What stands in the form of the conditions; `lit` only as far as it was said.
    [[nodiscard]] photometry::Conditions conditionsAsTyped(const visit::VisitState& state) const;
    /// The sheet under the conditions and limits that stand in the form, whether they are kept yet or not.
    /// What nobody has said and a first reading would fill in is filled in: how long the lamp has burnt, and
    /// the day.
    [[nodiscard]] visit::SheetOfSwap sheetAsTyped(const visit::VisitState& state) const;
    [[nodiscard]] const photometry::ToleranceSet* usual() const;
    [[nodiscard]] Mind& mind() { return m_minds[m_key]; }
    [[nodiscard]] const Mind& mind() const { return m_minds.at(m_key); }
    /// The first point of the sheet at which something stands that was not entered.
    [[nodiscard]] std::optional<photometry::Place> leftTyped(const visit::SheetOfSwap& sheet) const;
    [[nodiscard]] Typed readAt(const visit::SheetOfSwap& sheet, photometry::Place place) const;
    [[nodiscard]] Typed typedAt(const visit::SheetOfSwap& sheet, photometry::Place place) const;
    [[nodiscard]] bool wantsColour(const visit::SheetOfSwap& sheet) const;
    [[nodiscard]] std::optional<photometry::Reading> readTyped();

    void begin(const visit::VisitState& state);
    void goOn();
    void useUnit(photometry::LuminanceUnit unit);
    void goTo(photometry::Place place);
    void take(const photometry::Reading& reading);
    void takeBackAll(const visit::SheetPoint& point);
    [[nodiscard]] std::optional<SheetQuestion> question(const visit::SheetOfSwap& sheet,
                                                        const visit::VisitState& state) const;
    [[nodiscard]] bool tell(const visit::Body& body);
    [[nodiscard]] bool tellLimits();
    /// Whether something is kept because a reading is about to be taken.
    enum class Keeping {
        AsSaid,
        ForAReading, ///< with how long the lamp has burnt by now, where nobody said it
    };
    /// Keeps what the form says, less what is not understood. True where all of it is kept.
    [[nodiscard]] bool tellConditions(Keeping keeping);
    [[nodiscard]] bool tellAll(Keeping keeping);
    void keepWhatCanBe(Keeping keeping);
    [[nodiscard]] QMap<QString, QString> formFaults(const visit::VisitState& state) const;
    /// A reading under the new lamp was taken before it was warm, and the sheet goes by it.
    [[nodiscard]] bool isReadEarly(const visit::VisitState& state, const visit::SheetOfSwap& now) const;
    /// What is asked about the lamp's current; empty: nothing.
    [[nodiscard]] static QString currentDoubt(const visit::SheetOfSwap& now);
    void ask(const std::vector<photometry::MeterRow>& doubtful, photometry::Doubt doubt,
             photometry::Luminance expected);
    void takeRows(const std::vector<photometry::MeterRow>& rows);

    [[nodiscard]] SheetView viewOf(const visit::VisitState& state) const;
    void showEntry(SheetView& view, const visit::VisitState& state, const visit::SheetOfSwap& sheet) const;
    void showVerdicts(SheetView& view, const visit::SheetOfSwap& sheet) const;
    void showForm(SheetView& view, const visit::VisitState& state, const visit::SheetOfSwap& sheet) const;
    void showAction(SheetView& view, const visit::VisitState& state, const visit::SheetOfSwap& sheet) const;

    SheetDesk& m_desk;
    std::vector<photometry::ToleranceSet> m_sets;
    SheetView m_view;
    int m_swap = 0;
    visit::SheetTime m_time = visit::SheetTime::Arrival;
    StepId m_step;
    QString m_key;
    std::map<QString, Mind> m_minds;
    int m_turn = 0;
};

} // namespace coldarc::ui
