#include "app/records_room.h"

#include "core/record/record_file.h"
#include "core/visit/entry.h"
#include "ui/record/records_page.h"
#include "ui/review/words_review.h"

#include <QFileDialog>
#include <QTimeZone>

namespace coldarc::app {

RecordsRoom::RecordsRoom(Workspace& workspace, const ui::SessionKeeper& keeper, const Clock& clock,
                         QObject* parent)
    : QObject(parent)
    , m_workspace(workspace)
    , m_keeper(keeper)
    , m_clock(clock)
    , m_presenter(deeds())
    , m_intake(workspace.database, clock)
{
    connect(&m_presenter, &ui::RecordsPresenter::visitsChanged, this, &RecordsRoom::visitsChanged);
    // What is taken in is taken in by somebody.
    connect(&m_keeper, &ui::SessionKeeper::whoChanged, &m_presenter, [this] {
        if (!m_keeper.who())
            m_presenter.stop();
    });
}

ui::RecordDeeds RecordsRoom::deeds()
{
    return {[this](const QStringList& files, const ui::RecordDeeds::Taken& then) {
                m_intake.take(files, m_keeper.whoId(), then);
            },
            [this](const Hash& file) {
                return RecordIntake(m_workspace.database).tryAgain(file, m_keeper.whoId(), m_clock.now());
            },
            [this] { return m_workspace.intake.waiting(); },
            [this](const Hash& file) { return placeOf(file); },
            [this](const Hash& file) { return m_workspace.intake.release(file); }};
}

QWidget* RecordsRoom::makePage()
{
    auto* page = new ui::RecordsPage;
    connect(&m_presenter, &ui::RecordsPresenter::viewChanged, page, &ui::RecordsPage::setView);
    connect(page, &ui::RecordsPage::filesDropped, &m_presenter, &ui::RecordsPresenter::takeIn);
    connect(page, &ui::RecordsPage::stopRequested, &m_presenter, &ui::RecordsPresenter::stop);
    connect(page, &ui::RecordsPage::againRequested, &m_presenter, &ui::RecordsPresenter::tryAgain);
    connect(page, &ui::RecordsPage::discardRequested, &m_presenter, &ui::RecordsPresenter::discard);
    connect(page, &ui::RecordsPage::keepRequested, &m_presenter, &ui::RecordsPresenter::keep);
    connect(page, &ui::RecordsPage::filesRequested, &m_presenter, [this, page] {
        m_presenter.takeIn(QFileDialog::getOpenFileNames(page->window(), tr("Which records?"), QString(),
                                                         tr("Record of a visit (*.zip)")));
    });
    m_presenter.refresh();
    page->setView(m_presenter.view());
    return page;
}

/// What a record that waits says of itself.
QString RecordsRoom::placeOf(const Hash& file) const
{
    const auto bytes = m_workspace.intake.fileOf(file);
    if (!bytes)
        return {};
    const auto whole = record::recordFromBytes(*bytes);
    if (!whole || whole->entries.empty())
        return {};
    const auto first = visit::entryFrom(whole->entries.front());
    const auto* opening = first ? std::get_if<visit::Opening>(&first->body) : nullptr;
    return opening ? tr("%1, %2").arg(opening->site.site.name,
                                      ui::dayText(first->at.wall, QTimeZone::systemTimeZone()))
                   : QString();
}

} // namespace coldarc::app
