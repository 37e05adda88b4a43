#pragma once

#include "app/outside.h"
#include "app/workspace.h"
#include "ui/people/office_presenter.h"
#include "ui/people/people_presenter.h"
#include "ui/people/session_keeper.h"

#include <QObject>
#include <QPointer>
#include <QWidget>

namespace coldarc::ui {
class ShellPresenter;
} // namespace coldarc::ui

namespace coldarc::app {

/// The people of one workspace: who they are and may do, and over their page whose the keys are.
class PeopleRoom final : public QObject {
    Q_OBJECT

public:
    /// Borrows all of these, which must outlive the room.
    PeopleRoom(const Outside& outside, Workspace& workspace, const ui::SessionKeeper& keeper,
               ui::ShellPresenter& shell, const catalogue::Catalogue& catalogue, QObject* parent = nullptr);

    /// The page, made once; whoever asks takes it over.
    [[nodiscard]] QWidget* makePage();
    /// Somebody else is here: what was open in another's name is left.
    void changeWho();

Q_SIGNALS:
    /// This page over that of the people; nullptr: none.
    void overPageWanted(QWidget* page);
    /// A file that was asked for was written: a sentence.
    void saved(const QString& said);
    /// Another could not be.
    void notSaved(const QString& file, const coldarc::Error& error);

private:
    void showOffice();
    void takeForOffice();
    void saveAs(const QString& name, const QByteArray& bytes);

    const ui::SessionKeeper& m_keeper;
    ui::ShellPresenter& m_shell;
    ui::PeoplePresenter m_people;
    ui::OfficePresenter m_office;
    QPointer<QWidget> m_page; ///< owned by the window
};

} // namespace coldarc::app
