#include "app/door_room.h"

#include "core/base/hash.h"
#include "core/machine/reach.h"
#include "ui/people/sign_in_page.h"
#include "ui/people/start_page.h"
#include "ui/shell/shell_presenter.h"

#include <QFileInfo>
#include <QSettings>
#include <QTimer>

#include <chrono>

namespace coldarc::app {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

DoorRoom::DoorRoom(const Outside& outside, Workspace& workspace, const ui::VisitShelf& shelf,
                   ui::SessionKeeper& keeper, ui::ShellPresenter& shell, QObject* parent)
    : QObject(parent)
    , m_outside(outside)
    , m_workspace(workspace)
    , m_shelf(shelf)
    , m_shell(shell)
    , m_start(
          outside.clock, outside.ids,
          [this](const ui::Enrolment& enrolment) {
              return m_workspace.enrol(enrolment, m_outside.clock.now());
          },
          [this](const QString& name) { m_outside.settings.setValue(nameKey(), name); }, outside.behind)
    , m_signIn(workspace.people, workspace.keys, keeper, outside.clock, outside.behind)
{
    m_start.setSealCost(outside.cost);
    m_signIn.setPinCost(outside.cost);
    connect(&m_start, &ui::StartPresenter::created, this, &DoorRoom::created);
    connect(&m_signIn, &ui::SignInPresenter::signedIn, this, &DoorRoom::signedIn);
}

QWidget* DoorRoom::makeStartPage()
{
    auto* page = new ui::StartPage(m_outside.clock);
    connect(&m_start, &ui::StartPresenter::viewChanged, page, &ui::StartPage::setView);
    connect(page, &ui::StartPage::createRequested, &m_start, &ui::StartPresenter::create);
    page->setView(m_start.view());
    return page;
}

QWidget* DoorRoom::makeSignInPage(QWidget* parent)
{
    auto* page = new ui::SignInPage(m_outside.clock, parent);
    connect(&m_signIn, &ui::SignInPresenter::viewChanged, page, &ui::SignInPage::setView);
    connect(page, &ui::SignInPage::personChosen, &m_signIn, &ui::SignInPresenter::choose);
    connect(page, &ui::SignInPage::goRequested, &m_signIn, &ui::SignInPresenter::go);
    connect(page, &ui::SignInPage::insideRequested, this, &DoorRoom::goInside);
    auto* timer = new QTimer(page);
    connect(timer, &QTimer::timeout, &m_signIn, &ui::SignInPresenter::refresh);
    timer->start(1s);
    return page;
}

QString DoorRoom::nameKey() const
{
    const QByteArray path = QFileInfo(m_workspace.database.file()).absoluteFilePath().toUtf8();
    return u"workspaces/%1/name"_s.arg(sha256(path).hex().left(16));
}

QString DoorRoom::workspaceName() const
{
    if (!m_name.isEmpty())
        return m_name;
    return m_outside.settings.value(nameKey(), QFileInfo(m_workspace.database.file()).completeBaseName())
        .toString();
}

bool DoorRoom::isNew() const
{
    const auto people = m_workspace.people.all();
    return people && people->empty();
}

void DoorRoom::setNote(const QString& name, const QStringList& note)
{
    m_name = name;
    m_notes = note;
    m_signIn.setWorkspace(workspaceName(), m_notes);
}

void DoorRoom::beginSignIn()
{
    m_signIn.setWorkspace(workspaceName(), m_notes);
    m_signIn.begin();
}

void DoorRoom::lookForSomebodyInside()
{
    m_inside = VisitId();
    QString where;
    QStringList unread;
    const auto visits = m_shelf.all();
    for (const ui::VisitLine& line : visits ? *visits : QList<ui::VisitLine>()) {
        if (line.state != u"open"_s && line.state != u"making-safe"_s)
            continue;
        const auto state = m_shelf.state(line.visit);
        if (!state)
            unread << line.siteText;
        if (!m_inside.isEmpty() || !state || !machine::isSomebodyInside(state->machine))
            continue;
        m_inside = line.visit;
        where = line.siteText;
    }
    if (visits && unread.isEmpty())
        m_shell.settle(ui::About::Inside);
    else
        m_shell.say({tr("Unfinished visits could not be read: %1.")
                         .arg(visits ? unread.join(u", "_s) : tr("none of them")),
                     tr("Nothing was changed. Whether somebody is inside there is not known."),
                     tr("Look before anybody goes near the machine. A backup may hold the visit whole.")},
                    ui::About::Inside);
    m_signIn.setInside(where.isEmpty()
                           ? QString()
                           : tr("%1: when this was last written, somebody was inside or a lamphouse stood "
                                "open. What you do without signing in is written and stands unsigned.")
                                 .arg(where));
}

void DoorRoom::goInside()
{
    const VisitId visit = m_inside;
    const auto state = m_shelf.state(visit);
    if (!state || state->lead == machine::kNone)
        return;
    const PersonId leads = state->people[state->lead].id;
    Q_EMIT insideWanted(visit, leads);
}

} // namespace coldarc::app
