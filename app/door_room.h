#pragma once

#include "app/outside.h"
#include "app/workspace.h"
#include "ui/people/session_keeper.h"
#include "ui/people/sign_in_presenter.h"
#include "ui/people/start_presenter.h"

#include <QObject>
#include <QStringList>

class QWidget;

namespace coldarc::ui {
class ShellPresenter;
} // namespace coldarc::ui

namespace coldarc::app {

/// The way into one workspace: the first page while it has nobody, the sign-in, and the bench for whoever was
/// inside when the program ended.
class DoorRoom final : public QObject {
    Q_OBJECT

public:
    /// Borrows all of these, which must outlive the room.
    DoorRoom(const Outside& outside, Workspace& workspace, const ui::VisitShelf& shelf,
             ui::SessionKeeper& keeper, ui::ShellPresenter& shell, QObject* parent = nullptr);

    // The pages, each made once; whoever asks takes it over.
    [[nodiscard]] QWidget* makeStartPage();
    [[nodiscard]] QWidget* makeSignInPage(QWidget* parent);

    /// Nobody belongs to the workspace yet.
    [[nodiscard]] bool isNew() const;
    /// What the demo says of its people, under a name of its own.
    void setNote(const QString& name, const QStringList& note);
    /// Asks anew who works here.
    void beginSignIn();
    /// The program ended, or somebody signed out, with gear on or a lamphouse open: nobody in gloves types a
    /// passphrase.
    void lookForSomebodyInside();

Q_SIGNALS:
    /// The workspace has its first person.
    void created();
    void signedIn();
    /// Back to the bench without a passphrase, in the name of whoever leads there.
    void insideWanted(const coldarc::VisitId& visit, const coldarc::PersonId& presses);

private:
    [[nodiscard]] QString workspaceName() const;
    [[nodiscard]] QString nameKey() const;
    void goInside();

    const Outside& m_outside;
    Workspace& m_workspace;
    const ui::VisitShelf& m_shelf;
    ui::ShellPresenter& m_shell;
    ui::StartPresenter m_start;
    ui::SignInPresenter m_signIn;
    QString m_name; ///< instead of the one that the workspace was given
    QStringList m_notes;
    VisitId m_inside; ///< in which somebody was inside when the program ended
};

} // namespace coldarc::app
