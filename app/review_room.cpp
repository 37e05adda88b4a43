#include "app/review_room.h"

#include "app/review_reading.h"
#include "app/visit_files.h"
#include "core/store/pictures.h"
#include "ui/parts/command_finder.h"
#include "ui/review/review_page.h"

namespace coldarc::app {

using namespace Qt::StringLiterals;

ReviewRoom::ReviewRoom(Workspace& workspace, const Clock& clock, ui::Behind behind, QObject* parent)
    : QObject(parent)
    , m_workspace(workspace)
    , m_queue(workspace.database)
    , m_presenter(
          {[this](const review::QueueFilter& filter, review::QueueOrder order, qint64 first, int most) {
               return m_queue.page(filter, order, first, most);
           },
           [file = workspace.database.file()](const VisitId& visit) { return readForReview(file, visit); },
           [this](const Hash& picture) {
               const auto kept = store::Pictures(m_workspace.database).read(picture);
               return kept ? kept->bytes : QByteArray();
           }},
          clock, std::move(behind))
{
}

ui::ReviewPage* ReviewRoom::makePage(QWidget* parent)
{
    m_page = new ui::ReviewPage(m_presenter.queue(), parent);
    ui::ReviewPresenter* presenter = &m_presenter;
    connect(presenter, &ui::ReviewPresenter::queueChanged, m_page, &ui::ReviewPage::setQueueView);
    connect(presenter, &ui::ReviewPresenter::viewChanged, m_page, &ui::ReviewPage::setView);
    connect(presenter, &ui::ReviewPresenter::momentChanged, m_page, &ui::ReviewPage::setMoment);
    connect(m_page, &ui::ReviewPage::rowChosen, presenter, &ui::ReviewPresenter::chooseRow);
    connect(m_page, &ui::ReviewPage::nextRequested, presenter, &ui::ReviewPresenter::next);
    connect(m_page, &ui::ReviewPage::previousRequested, presenter, &ui::ReviewPresenter::previous);
    connect(m_page, &ui::ReviewPage::textTyped, presenter, &ui::ReviewPresenter::setText);
    connect(m_page, &ui::ReviewPage::standChosen, presenter, &ui::ReviewPresenter::setStand);
    connect(m_page, &ui::ReviewPage::whatChosen, presenter, &ui::ReviewPresenter::setWhat);
    connect(m_page, &ui::ReviewPage::daysChosen, presenter, &ui::ReviewPresenter::setDays);
    connect(m_page, &ui::ReviewPage::orderChosen, presenter, &ui::ReviewPresenter::setOrder);
    connect(m_page, &ui::ReviewPage::entryChosen, presenter, &ui::ReviewPresenter::goTo);
    connect(m_page, &ui::ReviewPage::momentWanted, presenter, &ui::ReviewPresenter::goToMoment);
    connect(m_page, &ui::ReviewPage::stepWanted, presenter, &ui::ReviewPresenter::step);
    connect(m_page, &ui::ReviewPage::reportRequested, this, &ReviewRoom::saveReport);
    connect(m_page, &ui::ReviewPage::recordRequested, this, &ReviewRoom::saveRecord);
    m_page->setPictures([presenter](const QString& hash) { return presenter->picture(hash); });
    return m_page;
}

QList<ui::FinderCommand> ReviewRoom::commands()
{
    ui::ReviewPresenter* presenter = &m_presenter;
    return {{tr("Next visit"), u"J"_s, [presenter] { presenter->next(); }},
            {tr("Visit before"), u"K"_s, [presenter] { presenter->previous(); }},
            {tr("What is looked for"), u"F"_s, [this] { m_page->openFilter(); }},
            {tr("Save the report of this visit"), QString(), [this] { saveReport(); }},
            {tr("Save the record of this visit"), QString(), [this] { saveRecord(); }}};
}

void ReviewRoom::saveRecord()
{
    const ui::VisitReading* reading = m_presenter.reading();
    if (!reading)
        return;
    VisitFiles files(m_workspace, reading->visit, reading->report.from, QTimeZone::systemTimeZone(), m_page);
    connect(&files, &VisitFiles::notSaved, this, &ReviewRoom::notSaved);
    files.askForRecord();
}

void ReviewRoom::saveReport()
{
    const ui::VisitReading* reading = m_presenter.reading();
    if (!reading)
        return;
    VisitFiles files(m_workspace, reading->visit, reading->report.from, QTimeZone::systemTimeZone(), m_page);
    connect(&files, &VisitFiles::notSaved, this, &ReviewRoom::notSaved);
    files.askForReport();
}

} // namespace coldarc::app
