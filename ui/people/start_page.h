#pragma once

#include "ui/people/start_presenter.h"

#include <QWidget>

namespace coldarc::ui {

class ChoiceRow;
class TextLabel;
class TickList;

/// The first page of an empty workspace.
class StartPage final : public QWidget {
    Q_OBJECT

public:
    /// Borrows the clock, which must outlive the page.
    explicit StartPage(const Clock& clock, QWidget* parent = nullptr);

    void setView(const StartView& view);

Q_SIGNALS:
    void createRequested(const coldarc::ui::StartForm& form);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    [[nodiscard]] StartForm form() const;
    QWidget* makeYou();
    QWidget* makeDuties();

    Field* m_workspace;
    Field* m_name;
    ChoiceRow* m_role;
    Field* m_passphrase;
    Field* m_again;
    TextLabel* m_passphraseNote;
    TickList* m_duties;
    TextLabel* m_dutiesNote;
    Field* m_from;
    Field* m_until;
    TextLabel* m_message;
    ActionButton* m_action;
};

} // namespace coldarc::ui
