#pragma once

#include "ui/parts/side_page.h"
#include "ui/review/history_presenter.h"

#include <functional>

namespace coldarc::ui {

class Field;
class PlainButton;
class SectionLabel;
class TextLabel;

/// Histories: to the left what is looked for, to the right what became of it over all visits.
///
/// Keys: Ctrl+F goes to the field, Enter there shows the first that was found, Ctrl+C copies the history in
/// sight; everything else is a button.
class HistoryPage final : public SidePage {
    Q_OBJECT

public:
    explicit HistoryPage(QWidget* parent = nullptr);

    void setView(const HistoryView& view);
    /// What is copied.
    void setText(std::function<QString()> text) { m_text = std::move(text); }
    /// To the field.
    void takeFocus();

Q_SIGNALS:
    void aboutChosen(const QString& about);
    void searched(const QString& words);
    void chosen(const QString& id);
    void olderRequested();
    void newerRequested();
    void lookUpRequested(const QString& line);
    void stayFollowed(const QString& stay);
    void copied();
    /// The page came in sight.
    void inSight();

protected:
    void showEvent(QShowEvent* event) override;

private:
    void makeSide();
    void makeBody();
    void chooseFirst();
    void copy();
    void showSection(SectionLabel* name, CardLines* lines, const QString& text, const QList<CardLine>& shown);

    HistoryView m_view;
    std::function<QString()> m_text;
    ChoiceRow* m_about;
    Field* m_search;
    RowList* m_found;
    TextLabel* m_more;
    TextLabel* m_reach;
    TextLabel* m_title;
    TextLabel* m_sub;
    SectionLabel* m_owedName;
    CardLines* m_owed;
    SectionLabel* m_staysName;
    CardLines* m_stays;
    SectionLabel* m_linesName;
    TextLabel* m_part;
    CardLines* m_lines;
    PlainButton* m_newer;
    PlainButton* m_older;
    PlainButton* m_copy;
    TextLabel* m_said;
};

} // namespace coldarc::ui
