#pragma once

#include "ui/photometry/sheet_view.h"

#include <QWidget>

class QLineEdit;
class QScrollArea;
class QVBoxLayout;

namespace coldarc::ui {

class ChoiceBar;
class ComboField;
class FormGrid;
class PastePanel;
class PlainButton;
class ScreenDrawing;
class SignedWords;
class TextLabel;
class VerdictTable;
class XyInset;

/// The screen sheet. Left the screen with its points, and beneath it the reading in hand; right what it is
/// held against, the conditions, a meter's file, and the comparison with the old lamp.
///
/// Keys: figures go into the box; Enter takes the reading and goes to the next point, and presses the main
/// action once no needed point is left; Up and Down, and on the drawing all four arrows, go from point to
/// point; F2, F3, F4, F6 the four parts at the right; F7 the other unit; F8 takes the reading back; F5 leaves
/// the screen to a later visit; F9 something went wrong; Page Down presses the main action; Escape goes back.
class SheetPage final : public QWidget {
    Q_OBJECT

public:
    /// Borrows the clock, which must outlive the page.
    explicit SheetPage(const Clock& clock, QWidget* parent = nullptr);

    void setView(const SheetView& view);
    [[nodiscard]] const SheetView& view() const { return m_view; }
    /// The box of the point in hand takes the focus.
    void begin();

Q_SIGNALS:
    void pointChosen(const QString& point);
    void moved(Qt::Key arrow);
    void typed(const QString& luminance, const QString& x, const QString& y);
    void entered();
    void answered(const QString& id);
    void takeBackRequested();
    void unitChosen(const QString& unit);
    void panelChosen(coldarc::ui::SheetPanel panel);
    void setChosen(const QString& set);
    void ownLimitTyped(const QString& id, const QString& text);
    void conditionTyped(const QString& id, const QString& text);
    void tableGiven(const QString& text);
    void fileGiven(const QString& path);
    void tableMapped(const QString& id, const QString& answer);
    void tableTaken();
    void tableAnswered(const QString& id);
    void doneRequested();
    void oweRequested();
    void somethingWrongRequested();
    void leaveRequested();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    QWidget* makeLeft();
    QWidget* makeRight();
    QWidget* makeVerdicts();
    QWidget* makeConditions();
    QWidget* makeMeterFile();
    QWidget* makeBeforeAfter();
    PlainButton* addButton(const QString& name, const QString& text, const QString& key,
                           void (SheetPage::*signal)());
    void bindKeys();
    void press();
    void tellTyped();
    void askForFile();
    void showPanel();
    void goToPart();
    void showImport();

    SheetView m_view;
    TextLabel* m_place;
    TextLabel* m_title;
    TextLabel* m_time;
    SignedWords* m_whole;
    TextLabel* m_conditions;
    ScreenDrawing* m_screen;
    TextLabel* m_elsewhere;
    TextLabel* m_point;
    Field* m_luminance;
    Field* m_x;
    Field* m_y;
    ChoiceBar* m_unit;
    TextLabel* m_fault;
    ChoiceBar* m_question;
    PlainButton* m_takeBack;
    PlainButton* m_owe;
    PlainButton* m_wrong;
    PlainButton* m_back;
    ActionButton* m_action;

    ChoiceBar* m_panels;
    ComboField* m_set;
    TextLabel* m_source;
    VerdictTable* m_verdicts;
    TextLabel* m_notes;
    TextLabel* m_evenness;
    TextLabel* m_xyWords;
    XyInset* m_xy;
    FormGrid* m_ownLimits;
    FormGrid* m_form;
    TextLabel* m_expected;
    PastePanel* m_paste;
    FormGrid* m_mapping;
    TextLabel* m_preview;
    ChoiceBar* m_tableQuestion;
    PlainButton* m_file;
    PlainButton* m_take;
    TextLabel* m_comparison;
    TextLabel* m_changes;
    QList<QWidget*> m_parts; ///< by SheetPanel
    QScrollArea* m_partScroll = nullptr;
    QWidget* m_left;
    QWidget* m_right;
};

} // namespace coldarc::ui
