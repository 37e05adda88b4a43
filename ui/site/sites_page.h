#pragma once

#include "ui/parts/side_page.h"
#include "ui/site/sites_presenter.h"

class QPlainTextEdit;

namespace coldarc::ui {

class ComboField;
class PlainButton;
class TextLabel;

/// The sites at the left; at the right one of them, and a form for whatever is added or changed.
class SitesPage final : public SidePage {
    Q_OBJECT

public:
    explicit SitesPage(QWidget* parent = nullptr);

    void setView(const SitesView& view);
    /// Asks for a form, from wherever that was wanted. Not while another is filled in: that one stays, and
    /// says so.
    void askForForm(SiteForm form);

Q_SIGNALS:
    void siteChosen(const QString& site);
    void formRequested(coldarc::ui::SiteForm form);
    void lampRequested(const QString& lamphouse);
    void showsRequested(const QString& screen);
    void breakerRequested(const QString& point);
    void modelChosen(const QString& model);
    void formKept(const coldarc::ui::SiteAnswers& answers);
    void pasted(const QString& table);

private:
    QWidget* makeCard();
    QWidget* makeForm();
    PlainButton* formButton(const QString& text, SiteForm form);
    /// Not while something is filled in; says so then.
    [[nodiscard]] bool mayLeaveForm();
    void showForm(const SitesView& view);
    [[nodiscard]] SiteAnswers answers() const;

    SitesView m_view;
    QStringList m_asOpened; ///< the form in sight, before anything was filled in
    RowList* m_sites;
    TextLabel* m_message;
    TextLabel* m_empty;
    QWidget* m_card;
    TextLabel* m_title;
    TextLabel* m_sub;
    TextLabel* m_problemsName;
    TextLabel* m_problems;
    CardLines* m_screens;
    CardLines* m_lamphouses;
    CardLines* m_points;
    CardLines* m_house;
    QWidget* m_form;
    TextLabel* m_formTitle;
    TextLabel* m_formNote;
    Field* m_name;
    Field* m_town;
    Field* m_contact;
    Field* m_contactPhone;
    ChoiceRow* m_prover;
    ChoiceRow* m_takesLock;
    Field* m_rules;
    Field* m_locks;
    Field* m_weeklyHours;
    ComboField* m_model;
    Field* m_projector;
    QList<Field*> m_panels;
    QList<Field*> m_circuits;
    ComboField* m_type;
    Field* m_serial;
    Field* m_hours;
    Field* m_counter;
    QPlainTextEdit* m_shows;
    PastePanel* m_paste;
    PlainButton* m_keep;
    PlainButton* m_leave;
};

} // namespace coldarc::ui
