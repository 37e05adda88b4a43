#include "app/review_room.h"

#include "app/review_reading.h"
#include "app/visit_files.h"
#include "core/people/jws.h"
#include "core/people/read_trust.h"
#include "core/record/review_store.h"
#include "ui/parts/command_finder.h"
#include "ui/parts/quantities.h"
#include "ui/review/review_page.h"

namespace coldarc::app {

using namespace Qt::StringLiterals;

ReviewRoom::ReviewRoom(Workspace& workspace, ui::SessionKeeper& keeper, ui::KeyRing& ring, const Clock& clock,
                       ui::Behind behind, QTimeZone zone, QObject* parent)
    : QObject(parent)
    , m_workspace(workspace)
    , m_keeper(keeper)
    , m_ring(ring)
    , m_clock(clock)
    , m_zone(std::move(zone))
    , m_queue(workspace.database)
    , m_presenter(
          {[this](const review::QueueFilter& filter, review::QueueOrder order, qint64 first, int most) {
               return m_queue.page(filter, order, first, most);
           },
           [this](const review::QueueFilter& filter, review::QueueOrder order, const VisitId& visit) {
               return m_queue.placeOf(filter, order, visit);
           },
           [file = workspace.database.file()](const VisitId& visit) { return readForReview(file, visit); },
           [file = workspace.database.file()](const Hash& picture) { return readPicture(file, picture); }},
          clock, std::move(behind), m_zone)
    , m_verdict({[this] { return reviewer(); },
                 [this] {
                     return m_keeper.who() && m_ring.standOf(m_keeper.who()->id) == ui::KeyRing::Stand::Open;
                 },
                 [this](const record::Review& review) { return sign(review); }},
                clock, m_zone)
{
    connect(&m_ring, &ui::KeyRing::changed, &m_verdict, &ui::VerdictPresenter::look);
    connect(&m_keeper, &ui::SessionKeeper::whoChanged, &m_verdict, &ui::VerdictPresenter::look);
    connect(&m_keeper, &ui::SessionKeeper::stateChanged, &m_verdict, &ui::VerdictPresenter::look);
    connect(&m_presenter, &ui::ReviewPresenter::viewChanged, &m_verdict,
            [this] { m_verdict.show(m_presenter.reading()); });
    connect(&m_presenter, &ui::ReviewPresenter::viewChanged, this, &ReviewRoom::correctStand);
    connect(&m_presenter, &ui::ReviewPresenter::momentChanged, &m_verdict,
            [this](const ui::MomentView& moment) { m_verdict.setMoment(moment.entry); });
    connect(&m_verdict, &ui::VerdictPresenter::given, this, [this](const VisitId& visit) {
        m_presenter.refresh();
        if (m_presenter.visit() == visit)
            m_presenter.readAgain(); // it is still in the list, and this review is new
        Q_EMIT reviewed();
    });
    connect(&m_verdict, &ui::VerdictPresenter::grew, &m_presenter, &ui::ReviewPresenter::readAgain);
}

/// What the lists say of the visit in hand follows what was read of it.
void ReviewRoom::correctStand()
{
    const auto reading = m_presenter.reading();
    if (!reading || m_workspace.database.isReadOnly())
        return;
    const auto listed = m_workspace.summaries.of(reading->visit);
    const QString stand =
        review::wordOf(review::standOf(reading->reviewsSaid(), reading->report.entries.size()));
    const auto altered = m_workspace.reviews.altered();
    const bool isToldSo = altered && altered->value(reading->visit) == reading->alteredReviews;
    if (!listed || listed->review.isEmpty() || (listed->review == stand && isToldSo))
        return;
    if (const auto checked = checkReviews(m_workspace.database, reading->visit); !checked)
        return qWarning("stand not corrected: %s", qUtf8Printable(checked.error().detail));
    const auto now = m_workspace.summaries.of(reading->visit);
    if (now && now->review != listed->review)
        m_presenter.refresh();
    Q_EMIT reviewed();
}

std::optional<review::Reviewer> ReviewRoom::reviewer() const
{
    if (!m_keeper.who())
        return std::nullopt;
    const PersonId id = m_keeper.who()->id;
    const auto person = m_workspace.people.person(id);
    const auto given = m_workspace.people.authorisationsOf(id);
    if (!person || !given)
        return std::nullopt;
    const auto key = m_ring.publicKey(id);
    review::Reviewer reviewer{*person, *given, key ? people::thumbprint(*key) : QString()};
    if (!key)
        return reviewer;
    const auto trust = people::readTrust(m_workspace.offices, m_workspace.keys, {*key});
    if (!trust)
        return std::nullopt;
    reviewer.otherNames = trust->of(reviewer.key, id, m_clock.now().wall).names();
    return reviewer;
}

/// Whether the rules let this person, as the workspace has them now, review the visit as it stands now.
Result<void> ReviewRoom::look(const record::Review& review)
{
    const auto reading = readForReview(m_workspace.database, review.visit);
    if (!reading)
        return tl::unexpected(reading.error());
    const auto who = reviewer();
    if (!who || (*reading)->breaksAt)
        return fail(Error::Kind::Conflict, u"nobody is here, or the chain breaks"_s);
    const auto seen = m_presenter.reading();
    if (!seen || seen->visit != review.visit || seen->reviewsSaid() != (*reading)->reviewsSaid())
        return fail(Error::Kind::Conflict, u"somebody reviewed it since it was read"_s);
    const auto refusals =
        review::mayReview(review, *who, (*reading)->atReview(), ui::dayOf(review.at, m_zone));
    return refusals.isEmpty()
               ? Result<void>()
               : fail(Error::Kind::Conflict,
                      u"the rules refuse it, reason %1"_s.arg(static_cast<int>(refusals.first().kind)));
}

/// Looks at everything anew, signs and keeps in one transaction: what was added meanwhile is under nobody's
/// signature, and what was in sight may be old.
Result<void> ReviewRoom::sign(const record::Review& review)
{
    return m_workspace.database.transaction([&]() -> Result<void> {
        const auto key = m_ring.publicKey(review.by);
        if (!key)
            return fail(Error::Kind::Refused, u"the reviewer's key is not open"_s);
        const auto enrolled = m_workspace.keys.ownerOf(*key);
        if (!enrolled || enrolled->retiredAt)
            return fail(Error::Kind::Conflict, u"the reviewer's key is out of use"_s);
        if (const auto allowed = look(review); !allowed)
            return allowed;
        const auto paper = record::jwsOf(review, *key);
        if (!paper)
            return tl::unexpected(paper.error());
        const auto signature = m_ring.sign(review.by, *paper);
        if (!signature)
            return tl::unexpected(signature.error());
        return record::ReviewStore(m_workspace.database).keep({*paper, *signature}, *key, m_clock.now());
    });
}

ui::ReviewPage* ReviewRoom::makePage(QWidget* parent)
{
    m_page = new ui::ReviewPage(m_presenter.queue(), m_clock, parent);
    connectVerdict();
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
    connect(m_page, &ui::ReviewPage::reportRequested, this, [this] { carryAway(&VisitFiles::askForReport); });
    connect(m_page, &ui::ReviewPage::recordRequested, this, [this] { carryAway(&VisitFiles::askForRecord); });
    connect(m_page, &ui::ReviewPage::printRequested, this, [this] { carryAway(&VisitFiles::print); });
    connect(m_page, &ui::ReviewPage::historyRequested, this, &ReviewRoom::historyRequested);
    connect(presenter, &ui::ReviewPresenter::pictureRead, m_page, &ui::ReviewPage::setPicture);
    return m_page;
}

void ReviewRoom::takeFocus()
{
    m_page->takeFocus();
}

void ReviewRoom::connectVerdict()
{
    ui::VerdictPresenter* verdict = &m_verdict;
    connect(verdict, &ui::VerdictPresenter::viewChanged, m_page, &ui::ReviewPage::setVerdict);
    connect(m_page, &ui::ReviewPage::remarkRequested, verdict, &ui::VerdictPresenter::beginRemark);
    connect(m_page, &ui::ReviewPage::sendBackRequested, verdict, &ui::VerdictPresenter::beginSendBack);
    connect(m_page, &ui::ReviewPage::formLeft, verdict, &ui::VerdictPresenter::leaveForm);
    connect(m_page, &ui::ReviewPage::draftChanged, verdict, &ui::VerdictPresenter::setDraft);
    connect(m_page, &ui::ReviewPage::remarkDropped, verdict, &ui::VerdictPresenter::dropRemark);
    connect(m_page, &ui::ReviewPage::doneRequested, verdict, &ui::VerdictPresenter::done);
    m_page->setVerdict(verdict->view());
}

QList<ui::FinderCommand> ReviewRoom::commands()
{
    ui::VerdictPresenter* verdict = &m_verdict;
    ui::ReviewPresenter* presenter = &m_presenter;
    return {
        {tr("Next visit"), u"N"_s, [presenter] { presenter->next(); }},
        {tr("Visit before"), u"B"_s, [presenter] { presenter->previous(); }},
        {tr("What is looked for"), u"F"_s, [this] { m_page->openFilter(); }},
        {tr("Remark on this entry"), u"R"_s, [verdict] { verdict->beginRemark(); }},
        {tr("Send this visit back"), u"S"_s, [verdict] { verdict->beginSendBack(); }},
        {tr("Accept this visit and sign"), u"A"_s,
         [verdict] {
             if (!verdict->view().form)
                 verdict->done();
         }},
        {tr("Save the report of this visit"), QString(), [this] { carryAway(&VisitFiles::askForReport); }},
        {tr("Save the readings of this visit"), QString(),
         [this] { carryAway(&VisitFiles::askForReadings); }},
        {tr("Print the report of this visit"), QString(), [this] { carryAway(&VisitFiles::print); }},
        {tr("Save the record of this visit"), QString(), [this] { carryAway(&VisitFiles::askForRecord); }}};
}

/// What can be carried away of the visit in hand, asked for in one of these ways.
void ReviewRoom::carryAway(void (VisitFiles::*way)())
{
    const auto reading = m_presenter.reading();
    if (!reading)
        return;
    VisitFiles files(m_workspace, reading->report.state.ground->opening, reading->report.from, m_zone,
                     m_page);
    connect(&files, &VisitFiles::notSaved, this, &ReviewRoom::notSaved);
    connect(&files, &VisitFiles::saved, this, &ReviewRoom::saved);
    (files.*way)();
}

} // namespace coldarc::app
