#pragma once

#include "ui/parts/side_page.h"
#include "ui/visit/new_visit_presenter.h"

namespace coldarc::ui {

class ComboField;
class PlainButton;
class TextLabel;

/// The sites at the left; at the right screens, lamps, reason and who comes along.
class NewVisitPage final : public SidePage {
    Q_OBJECT

public:
    /// Borrows the clock, which must outlive the page.
    explicit NewVisitPage(const Clock& clock, QWidget* parent = nullptr);

    void setView(const NewVisitView& view);

Q_SIGNALS:
    void siteChosen(const QString& site);
    void screensTicked(const QStringList& lamphouses);
    void owedTicked(const QStringList& lamphouses);
    void lampChosen(const QString& lamphouse, const QString& lamp);
    void lampTyped(const QString& lamphouse, const QString& type, const QString& serial,
                   const QString& hours);
    void reasonChosen(const QString& reason);
    void othersTicked(const QStringList& people);
    void openRequested();
    void leaveRequested();

private:
    class LampPanel;
    void showLamps(const QList<NewLampView>& lamps);

    NewVisitView m_view;
    RowList* m_sites;
    TextLabel* m_title;
    TextLabel* m_sub;
    TextLabel* m_empty;
    TickList* m_screens;
    TickList* m_owed;
    QVBoxLayout* m_lampsColumn;
    QList<LampPanel*> m_lamps;
    ChoiceRow* m_reason;
    TickList* m_others;
    TextLabel* m_time;
    TextLabel* m_verdict;
    TextLabel* m_inTheWay;
    PlainButton* m_leave;
    ActionButton* m_action;
};

} // namespace coldarc::ui
