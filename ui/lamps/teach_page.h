#pragma once

#include "ui/lamps/teach_presenter.h"
#include "ui/parts/side_page.h"

namespace coldarc::ui {

class ComboField;
class PlainButton;
class TextLabel;

/// At the left the codes that nobody could read, at the right the one in hand with what is marked in it, how
/// it and the others would be read, and what was taught before.
class TeachPage final : public SidePage {
    Q_OBJECT

public:
    /// Borrows the clock, which must outlive the page.
    explicit TeachPage(const Clock& clock, QWidget* parent = nullptr);

    void setView(const TeachView& view);

Q_SIGNALS:
    void codeChosen(const QString& id);
    void codeGiven(const QString& scanned);
    void typeMarked(const QString& id);
    void serialMarked(const QString& id);
    void lampTypeChosen(const QString& id);
    void keepRequested();
    void withdrawRequested(const QString& rule);
    void scannerRequested();
    /// The page comes into sight, or goes.
    void inSight(bool isShown);

protected:
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;

private:
    QWidget* makeLesson();

    RowList* m_codes;
    Field* m_pasted;
    TextLabel* m_message;
    TextLabel* m_explains;
    TextLabel* m_code = nullptr;
    ComboField* m_type = nullptr;
    ComboField* m_serial = nullptr;
    ComboField* m_lampType = nullptr;
    TextLabel* m_reads = nullptr;
    TextLabel* m_faults = nullptr;
    QWidget* m_lesson; // behind the parts that it is made of
    CardLines* m_rules;
    ActionButton* m_action;
};

} // namespace coldarc::ui
