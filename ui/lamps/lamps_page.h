#pragma once

#include "ui/lamps/lamps_presenter.h"

#include <QWidget>

namespace coldarc::ui {

class ChoiceRow;
class ComboField;
class PlainButton;
class TextLabel;

/// Van, store and boxed lamps at the left; at the right one more lamp, or many from a table.
class LampsPage final : public QWidget {
    Q_OBJECT

public:
    explicit LampsPage(QWidget* parent = nullptr);

    void setView(const LampsView& view);

Q_SIGNALS:
    void addRequested(const QString& type, const QString& serial, const QString& hours,
                      const QString& custody);
    void pasted(const QString& table);
    void actRequested(const QString& lamp);
    void recycleRequested(const QString& lamp);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QWidget* makeLists();
    QWidget* makeForms();

    LampsView m_view;
    TextLabel* m_message;
    CardLines* m_van;
    TextLabel* m_stockName;
    CardLines* m_stock;
    TextLabel* m_boxedName;
    CardLines* m_boxed;
    TextLabel* m_awayName;
    CardLines* m_away;
    ComboField* m_type;
    Field* m_serial;
    Field* m_hours;
    ChoiceRow* m_custody;
    PlainButton* m_add;
    PastePanel* m_paste;
};

} // namespace coldarc::ui
