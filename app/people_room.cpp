#include "app/people_room.h"

#include "app/save_file.h"
#include "app/visit_files.h"
#include "core/catalogue/catalogue.h"
#include "ui/people/office_page.h"
#include "ui/people/people_page.h"
#include "ui/shell/shell_presenter.h"
#include "ui/site/site_words.h"

#include <QFile>
#include <QFileDialog>

namespace coldarc::app {

namespace {

constexpr qint64 kMostKeyFileBytes = 256 * 1024; // a key or a certificate is some hundred bytes

ui::PeoplePresenter::Choices choicesOf(const catalogue::Catalogue& catalogue)
{
    ui::PeoplePresenter::Choices choices;
    for (const catalogue::ProjectorModel& model : catalogue.models())
        choices.models.append({model.id.text(), ui::nameOfModel(catalogue, model.id)});
    for (const catalogue::GearKind& kind : catalogue.gear())
        choices.gearKinds.append({kind.id.text(), kind.name});
    return choices;
}

} // namespace

PeopleRoom::PeopleRoom(const Outside& outside, Workspace& workspace, const ui::SessionKeeper& keeper,
                       ui::ShellPresenter& shell, const catalogue::Catalogue& catalogue, QObject* parent)
    : QObject(parent)
    , m_keeper(keeper)
    , m_shell(shell)
    , m_people(
          workspace.people, workspace.keys, workspace.gear, outside.clock, outside.ids, choicesOf(catalogue),
          [&workspace, &clock = outside.clock](const ui::Enrolment& enrolment) {
              return workspace.enrol(enrolment, clock.now());
          },
          outside.behind)
    , m_office(workspace.people, workspace.keys, workspace.offices, outside.clock, outside.behind)
{
    m_people.setSealCost(outside.cost);
    m_office.setSealCost(outside.cost);
    connect(&m_office, &ui::OfficePresenter::saveRequested, this, &PeopleRoom::saveAs);
}

QWidget* PeopleRoom::makePage()
{
    auto* page = new ui::PeoplePage;
    m_page = page;
    connect(&m_people, &ui::PeoplePresenter::viewChanged, page, &ui::PeoplePage::setView);
    connect(page, &ui::PeoplePage::personChosen, &m_people, &ui::PeoplePresenter::choose);
    connect(page, &ui::PeoplePage::formRequested, &m_people, &ui::PeoplePresenter::openForm);
    connect(page, &ui::PeoplePage::formKept, &m_people, &ui::PeoplePresenter::keepForm);
    connect(page, &ui::PeoplePage::withdrawRequested, &m_people, &ui::PeoplePresenter::withdraw);
    connect(page, &ui::PeoplePage::gearWithdrawRequested, &m_people, &ui::PeoplePresenter::withdrawGear);
    connect(page, &ui::PeoplePage::retireRequested, &m_people, &ui::PeoplePresenter::retire);
    connect(page, &ui::PeoplePage::keyRetireRequested, &m_people, &ui::PeoplePresenter::retireKey);
    connect(page, &ui::PeoplePage::officeRequested, this, &PeopleRoom::showOffice);
    m_people.setBy(m_keeper.whoId());
    m_people.refresh();
    page->setView(m_people.view());
    return page;
}

void PeopleRoom::changeWho()
{
    m_people.setBy(m_keeper.whoId());
    m_people.refresh();
    Q_EMIT overPageWanted(nullptr);
}

void PeopleRoom::showOffice()
{
    if (!m_keeper.who())
        return;
    m_office.setBy(m_keeper.whoId());
    auto* page = new ui::OfficePage;
    connect(&m_office, &ui::OfficePresenter::viewChanged, page, &ui::OfficePage::setView);
    connect(page, &ui::OfficePage::formRequested, &m_office, &ui::OfficePresenter::openForm);
    connect(page, &ui::OfficePage::formKept, &m_office, &ui::OfficePresenter::keepForm);
    connect(page, &ui::OfficePage::keyActed, &m_office, &ui::OfficePresenter::act);
    connect(page, &ui::OfficePage::officeDropped, &m_office, &ui::OfficePresenter::drop);
    connect(page, &ui::OfficePage::fileRequested, this, &PeopleRoom::takeForOffice);
    connect(page, &ui::OfficePage::leaveRequested, this, [this] { Q_EMIT overPageWanted(nullptr); });
    m_office.openForm(ui::OfficeForm::None);
    page->setView(m_office.view());
    Q_EMIT overPageWanted(page);
}

void PeopleRoom::takeForOffice()
{
    const QString path = QFileDialog::getOpenFileName(m_page->window(), tr("Which file?"), QString(),
                                                      tr("Key or certificate (*.json)"));
    if (path.isEmpty())
        return;
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly) || file.size() > kMostKeyFileBytes)
        return m_shell.say({tr("%1 could not be read.").arg(path), tr("Nothing was changed."),
                            tr("See that it is the file that was saved, and that it can be read.")},
                           ui::About::KeyFile);
    m_shell.settle(ui::About::KeyFile);
    m_office.take(file.readAll());
}

void PeopleRoom::saveAs(const QString& name, const QByteArray& bytes)
{
    const QString path =
        QFileDialog::getSaveFileName(m_page->window(), tr("Where to?"), amongDocuments(name));
    if (path.isEmpty())
        return;
    if (const auto written = saveFile(path, bytes); !written)
        Q_EMIT notSaved(path, written.error());
    else
        Q_EMIT saved(tr("It was written to %1.").arg(path));
}

} // namespace coldarc::app
