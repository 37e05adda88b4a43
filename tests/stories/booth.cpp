#include "tests/stories/booth.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::test {

using machine::Effect;
using std::chrono::seconds;

Booth::Booth(const QString& model, Night::Crew crew, int screens)
    : m_night(model, crew, {}, {}, screens)
    , m_sitting(m_night.ada())
{
    auto begun =
        visit::Logbook::begin(m_journal, m_summaries, m_night.ada(), m_night.opening(), m_night.clock.now());
    EXPECT_TRUE(begun);
    sitDown();
}

Booth::Booth(const visit::Opening& opening, const FakeClock& clock)
    : m_night(opening)
    , m_sitting(m_night.ada())
{
    m_night.clock = clock;
    auto begun = visit::Logbook::begin(m_journal, m_summaries, m_night.ada(), opening, m_night.clock.now());
    EXPECT_TRUE(begun);
    sitDown();
}

void Booth::sitDown()
{
    m_signOff.reset();
    m_sheet.reset();
    m_sheetDesk.reset();
    m_light.reset();
    m_lightDesk.reset();
    m_incident.reset();
    m_bookIn.reset();
    m_bench.reset();
    m_desk.reset();
    auto read = visit::Logbook::read(m_journal, m_summaries, m_night.opening().visit);
    ASSERT_TRUE(read) << read.error().detail.toStdString();
    m_logbook = std::make_unique<visit::Logbook>(std::move(*read));
    m_desk = std::make_unique<ui::VisitDesk>(*m_logbook, m_night.clock, m_sitting, QTimeZone::utc());
    m_bench = std::make_unique<ui::BenchPresenter>(*m_desk);
    m_bookIn = std::make_unique<ui::BookInPresenter>(*m_desk);
    m_incident = std::make_unique<ui::IncidentPresenter>(*m_desk);
    m_lightDesk = std::make_unique<ui::LightAtDesk>(*m_desk);
    m_light = std::make_unique<ui::LightPresenter>(*m_lightDesk);
    m_sheetDesk = std::make_unique<ui::SheetAtDesk>(*m_desk);
    m_sheet = std::make_unique<ui::SheetPresenter>(*m_sheetDesk);
    m_signOff = std::make_unique<ui::SignOffPresenter>(*m_desk);
    QObject::connect(m_bench.get(), &ui::BenchPresenter::signOffWanted, m_bench.get(),
                     [this] { m_wantsSignOff = true; });
    QObject::connect(m_bench.get(), &ui::BenchPresenter::makeSafeWanted, m_bench.get(),
                     [this] { m_wantsMakeSafe = true; });
}

void Booth::restart()
{
    sitDown();
    tell(m_sitting, visit::Resumed{});
    m_bench->refresh();
}

void Booth::sit(const PersonId& person)
{
    m_sitting = person;
    m_desk->setPresses(person);
    m_bench->refresh();
}

ui::GateView Booth::gate(const QString& name) const
{
    const auto found = std::find_if(bench().gates.begin(), bench().gates.end(),
                                    [&](const ui::GateView& gate) { return gate.name == name; });
    EXPECT_NE(found, bench().gates.end()) << name.toStdString();
    return found == bench().gates.end() ? ui::GateView() : *found;
}

QString Booth::titleOf(Effect effect, int swap) const
{
    for (const procedure::Step& step : state().swaps[swap].steps) {
        if (step.effect == effect)
            return step.title;
    }
    ADD_FAILURE() << "no step of effect " << machine::wordOf(effect);
    return {};
}

bool Booth::isAt(Effect effect, int swap) const
{
    const visit::VisitState seen = m_desk->seen();
    const ui::BenchTurn turn = ui::turnOf(seen, seen.swaps[swap], seen.person(m_sitting));
    return turn.kind == ui::BenchTurn::Kind::Step && turn.next.step->effect == effect;
}

QList<ui::CaptureAnswer> Booth::answersTo(const QList<ui::CaptureView>& captures,
                                          const QHash<QString, QString>& said) const
{
    QList<ui::CaptureAnswer> answers;
    for (const ui::CaptureView& capture : captures) {
        QString value = capture.options.isEmpty() ? u"47"_s : capture.options.first().id;
        if (capture.id == u"count" && capture.options.isEmpty())
            value = u"47 47"_s; // tools and fasteners, as they were counted at the opening
        if (capture.id == u"type" && capture.options.isEmpty())
            value = m_night.newType(m_bench->swapInHand()).code;
        if (capture.id == u"point") { // whichever of them feeds this lamphouse
            const visit::VisitState& seen = state();
            const site::SiteDocument& site = seen.ground->opening.site;
            const LamphouseId& here = seen.ground->lamphouses[seen.swaps[m_bench->swapInHand()].lamphouse];
            value = site.point(site.pointsFeeding(here).front())->name;
        }
        if (isAt(Effect::KeyController, m_bench->swapInHand())) { // as it was booked in
            const visit::SwapState& swap = state().swaps[m_bench->swapInHand()];
            if (capture.id == u"hours")
                value = QString::number(state().ground->lamps[swap.newLamp].hours.value_or(47));
            if (capture.id == u"threshold")
                value = QString::number(swap.thresholdHours.value_or(47));
        }
        if (!capture.value.isEmpty())
            value = capture.value.first();
        answers.append({capture.id, {said.value(capture.id, value)}});
    }
    return answers;
}

void Booth::press()
{
    press({});
}

void Booth::press(const QHash<QString, QString>& answers)
{
    clock().advance(seconds(20));
    m_bench->refresh();
    const int swap = m_bench->swapInHand();
    if (isAt(Effect::MatchBox, swap) || isAt(Effect::BookIn, swap))
        return bookIn();
    if (isAt(Effect::Peak, swap) || isAt(Effect::PeakAgain, swap))
        return endLightStep();
    if (isAt(Effect::MeasureScreen, swap))
        return measureScreen();
    // A stop is answered by somebody else where there is somebody else, absence proved by whom the site lets.
    const auto& acts = bench().card.acts;
    const auto other = std::find_if(acts.begin(), acts.end(), [](const ui::PersonAct& act) {
        return act.id.startsWith(u"answer:") || act.id.startsWith(u"safe:") || act.id.startsWith(u"prove:");
    });
    const QList<ui::CaptureAnswer> given = answersTo(bench().card.captures, answers);
    if (other == acts.end())
        return m_bench->done(given);
    const QString id = other->id;
    m_bench->keepAnswers(given);
    m_bench->personAct(id);
}

void Booth::pressAct(const QString& id)
{
    clock().advance(seconds(20));
    m_bench->refresh();
    const auto& acts = bench().card.acts;
    ASSERT_TRUE(std::any_of(acts.begin(), acts.end(), [&](const ui::PersonAct& act) { return act.id == id; }))
        << id.toStdString() << " at " << title().toStdString();
    m_bench->personAct(id);
}

void Booth::hold()
{
    m_bench->refresh();
    const visit::VisitState seen = m_desk->seen();
    const ui::BenchTurn turn = ui::turnOf(seen, seen.swaps[m_bench->swapInHand()], seen.person(m_sitting));
    if (turn.kind != ui::BenchTurn::Kind::Hold)
        return;
    clock().advance(turn.clock->left());
    m_bench->refresh();
}

void Booth::goTo(Effect effect)
{
    for (int count = 0; count < 200; ++count) {
        hold();
        if (isAt(effect, m_bench->swapInHand()))
            return;
        const qsizetype before = entries();
        press();
        ASSERT_GT(entries(), before) << "stuck at " << title().toStdString() << ": "
                                     << bench().card.sub.toStdString();
    }
    FAIL() << "never came to " << machine::wordOf(effect) << ", at " << title().toStdString();
}

void Booth::goToTheEnd()
{
    goTo(Effect::Sign);
}

void Booth::bookIn(const QString& codeOnTheBox)
{
    const int swap = m_bench->swapInHand();
    const QString code = m_night.newType(swap).code;
    const QString serial = m_night.opening().swaps[swap].newLamp.serial;
    m_bookIn->open(swap);
    const auto columns = m_bookIn->view().columns;
    for (const ui::BookInColumn& column : columns) {
        const bool isBox = column.id == u"box" && !codeOnTheBox.isEmpty();
        m_bookIn->setType(column.id, isBox ? codeOnTheBox : code);
        m_bookIn->setSerial(column.id, serial);
    }
    m_bookIn->setRest(answersTo(m_bookIn->view().rest, {{u"hours"_s, u"1210"_s}}));
    m_bookIn->done();
    m_bench->refresh();
}

void Booth::endLightStep()
{
    m_light->open(m_bench->swapInHand());
    m_light->done();
    m_bench->refresh();
}

void Booth::oweStep()
{
    if (isAt(Effect::MeasureScreen, m_bench->swapInHand())) {
        m_sheet->open(m_bench->swapInHand());
        m_sheet->owe();
    } else {
        m_light->open(m_bench->swapInHand());
        m_light->owe();
    }
    m_bench->refresh();
}

void Booth::measureScreen()
{
    m_sheet->open(m_bench->swapInHand());
    m_sheet->setTyped(u"48"_s, QString(), QString());
    m_sheet->enter();
    m_sheet->done();
    m_bench->refresh();
}

void Booth::report(visit::Incident kind, const QHash<QString, QString>& said)
{
    m_incident->open(m_bench->swapInHand());
    m_incident->choose(static_cast<int>(kind));
    m_incident->done(answersTo(m_incident->view().asks, said));
    EXPECT_TRUE(m_incident->view().said.isEmpty()) << m_incident->view().said.join(u' ').toStdString();
    m_bench->refresh();
}

void Booth::answerIncidents()
{
    m_incident->open(0);
    for (const ui::IncidentView::Open& one : QList<ui::IncidentView::Open>(m_incident->view().open)) {
        m_incident->chooseOpen(one.entry);
        m_incident->done(answersTo(m_incident->view().asks, {{u"text"_s, u"looked after, see the notes"_s}}));
    }
    m_bench->refresh();
}

void Booth::makeSafe()
{
    m_bench->makeSafe(u"doors open in ten minutes"_s);
}

QStringList Booth::followToSafety()
{
    QStringList titles;
    while (titles.size() < 60) {
        m_bench->refresh();
        const visit::VisitState seen = m_desk->seen();
        const auto kind = ui::turnOf(seen, seen.swaps[m_bench->swapInHand()], seen.person(m_sitting)).kind;
        if (kind == ui::BenchTurn::Kind::Nothing || kind == ui::BenchTurn::Kind::Over)
            return titles;
        titles.append(title());
        if (kind == ui::BenchTurn::Kind::Hold)
            hold();
        else
            press();
    }
    ADD_FAILURE() << "never safe: " << titles.join(u" | "_s).toStdString();
    return titles;
}

QStringList Booth::signAndClose()
{
    m_signOff->open();
    for (int count = 0; count < 12 && state().isOpen(); ++count) {
        clock().advance(seconds(20));
        m_signOff->done(
            answersTo(m_signOff->view().asks, {{u"name"_s, u"C. Moor"_s}, {u"role"_s, u"duty manager"_s}}));
        if (!m_signOff->view().said.isEmpty())
            return m_signOff->view().said;
    }
    return {};
}

visit::VisitState Booth::readAgain()
{
    const auto read = visit::Logbook::read(m_journal, m_summaries, m_night.opening().visit);
    EXPECT_TRUE(read);
    return read ? read->state() : visit::VisitState();
}

} // namespace coldarc::test
