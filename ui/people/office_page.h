#pragma once

#include "ui/parts/side_page.h"
#include "ui/people/office_presenter.h"

namespace coldarc::ui {

class CardLines;
class PlainButton;
class TextLabel;

/// The office of the workspace, the keys that it vouches for, the offices of others, and a form for each
/// deed.
class OfficePage final : public SidePage {
    Q_OBJECT

public:
    explicit OfficePage(QWidget* parent = nullptr);

    void setView(const OfficeView& view);

Q_SIGNALS:
    void formRequested(coldarc::ui::OfficeForm form);
    void formKept(const coldarc::ui::OfficeAnswers& answers);
    void keyActed(const QString& key);
    void officeDropped(const QString& office);
    /// A file is to be chosen and taken.
    void fileRequested();
    void leaveRequested();

private:
    void makeCard();
    QWidget* makeForm();
    void showForm(const OfficeView& view);

    OfficeView m_view;
    PlainButton* m_found;
    PlainButton* m_take;
    PlainButton* m_reseal;
    TextLabel* m_message;
    TextLabel* m_name;
    TextLabel* m_thumbprint;
    TextLabel* m_note;
    CardLines* m_keys;
    CardLines* m_offices;
    QWidget* m_card;
    QWidget* m_form;
    TextLabel* m_formTitle;
    TextLabel* m_formNote;
    TextLabel* m_formThumbprint;
    Field* m_officeName;
    Field* m_old;
    Field* m_passphrase;
    Field* m_again;
    Field* m_from;
    Field* m_until;
    TextLabel* m_busy;
    PlainButton* m_keep;
    PlainButton* m_leave;
};

} // namespace coldarc::ui
