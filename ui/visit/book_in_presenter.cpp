#include "ui/visit/book_in_presenter.h"

#include "core/visit/next_step.h"
#include "ui/parts/quantities.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/view_of_steps.h"
#include "ui/visit/words_key_in.h"
#include "ui/visit/words_label.h"

#include <algorithm>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using label::Source;
using machine::Effect;
using Mark = BookInColumn::Mark;

QString idOf(Source source)
{
    switch (source) {
    case Source::OwnMarking:
        return u"marking"_s;
    case Source::Box:
        return u"box"_s;
    case Source::Paper:
        return u"paper"_s;
    case Source::Entry:
        return u"entry"_s;
    }
    Q_UNREACHABLE();
}

std::optional<Source> sourceOf(const QString& id)
{
    for (const Source source : {Source::OwnMarking, Source::Box, Source::Paper, Source::Entry}) {
        if (idOf(source) == id)
            return source;
    }
    return std::nullopt;
}

Mark markOf(const label::FieldVerdict& verdict)
{
    using State = label::FieldVerdict::State;
    if (verdict.state == State::Agrees || verdict.state == State::Passed)
        return Mark::Agrees;
    return verdict.state == State::Differs || verdict.state == State::DiffersBySuffix ? Mark::Differs
                                                                                      : Mark::Open;
}

const label::FieldVerdict* verdictOf(const QList<label::FieldVerdict>& verdicts, Source source)
{
    const auto found = std::find_if(verdicts.begin(), verdicts.end(),
                                    [&](const label::FieldVerdict& one) { return one.source == source; });
    return found == verdicts.end() ? nullptr : &*found;
}

label::Reading readingOf(const QList<label::Reading>& readings, Source source)
{
    label::Reading last;
    last.source = source;
    for (const label::Reading& reading : readings) {
        if (reading.source == source)
            last = reading;
    }
    return last;
}

/// What the counters showed of the old lamp, as it was written down on arrival.
QString countersOf(const visit::SwapState& swap)
{
    for (const procedure::Step& step : swap.steps) {
        const QJsonObject answers = swap.record(step.id).answers;
        const QString hours = answers.value(u"hours"_s).toString();
        const QString strikes = answers.value(u"strikes"_s).toString();
        if (step.effect != Effect::Look || hours.isEmpty())
            continue;
        return strikes.isEmpty()
                   ? BookInPresenter::tr("old lamp read at %1 h").arg(hours)
                   : BookInPresenter::tr("old lamp read at %1 h, %2 strikes").arg(hours, strikes);
    }
    return {};
}

CaptureView textCapture(const QString& id, const QString& label)
{
    CaptureView view;
    view.id = id;
    view.kind = CaptureView::Kind::Text;
    view.label = label;
    return view;
}

const QString kSister = u"marking-choice"_s;

} // namespace

BookInPresenter::BookInPresenter(VisitDesk& desk, ThresholdBasis basis, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_basis(basis)
{
}

const procedure::Step* BookInPresenter::step(const visit::VisitState& state) const
{
    const procedure::Step* next = visit::nextStep(state, state.swaps[m_swap], state.lead).step;
    const bool isOurs = next && (next->effect == Effect::MatchBox || next->effect == Effect::BookIn);
    return isOurs ? next : nullptr;
}

QList<Source> BookInPresenter::sources() const
{
    QList<Source> all{Source::Box, Source::Paper, Source::Entry};
    if (isBookIn())
        all.append(Source::OwnMarking);
    return all;
}

void BookInPresenter::open(int swap)
{
    m_swap = swap;
    m_said.clear();
    m_rest.clear();
    m_pass.clear();
    m_suggested.clear();
    m_typed.clear();
    m_countersigned = {};
    m_asksReason = false;
    m_wasCompared = false;
    const visit::VisitState state = m_desk.seen();
    const procedure::Step* now = step(state);
    if (!now)
        return;
    m_isBookIn = now->effect == Effect::BookIn;
    const LampId lamp = state.ground->lamps[state.swaps[m_swap].newLamp].id;
    for (const Source source : sources()) {
        const label::Reading reading = readingOf(state.papers.value(lamp).readings, source);
        m_typed.insert(source, {reading.type, reading.serial, reading.means});
    }
    if (isBookIn()) {
        const label::Agreement agreed = agreement(state);
        const catalogue::LampType* type =
            agreed.type ? state.ground->catalogue.lampType(*agreed.type) : nullptr;
        const auto suggested =
            type ? suggestedThreshold(m_basis, state.ground->opening.weeklyHours, type->warrantyHours)
                 : std::nullopt;
        m_suggested = suggested ? QString::number(*suggested, 'f', 0) : QString();
        m_rest = {{u"threshold"_s, m_suggested.isEmpty() ? QStringList() : QStringList{m_suggested}}};
    }
    refresh();
}

void BookInPresenter::setType(const QString& column, const QString& text)
{
    if (const auto source = sourceOf(column))
        m_typed[*source] = {text, m_typed.value(*source).serial, label::Means::Typed};
    refresh();
}

void BookInPresenter::setSerial(const QString& column, const QString& text)
{
    if (const auto source = sourceOf(column))
        m_typed[*source] = {m_typed.value(*source).type, text, label::Means::Typed};
    refresh();
}

void BookInPresenter::scanned(const QString& column, const QString& type, const QString& serial)
{
    if (const auto source = sourceOf(column))
        m_typed[*source] = {type, serial, label::Means::Scanned};
    refresh();
}

void BookInPresenter::setRest(const QList<CaptureAnswer>& answers)
{
    m_rest = answers;
    // Which of two types stands on the lamp, told by choosing between them.
    const QString chosen = answer(kSister);
    const Typed marking = m_typed.value(Source::OwnMarking);
    if (!chosen.isEmpty() && (marking.means == label::Means::Typed || marking.type != chosen)) {
        m_typed[Source::OwnMarking] = {chosen, marking.serial, label::Means::Chosen};
        tellReadings(m_desk.seen()); // what was seen on the lamp stands, whatever comes of the book-in
    }
    refresh();
}

label::Agreement BookInPresenter::agreement(const visit::VisitState& state,
                                            const QList<label::SerialPass>& further) const
{
    const machine::Index lamp = state.swaps[m_swap].newLamp;
    QList<label::Reading> readings;
    for (auto it = m_typed.begin(); it != m_typed.end(); ++it)
        readings.append({it.key(), it.value().means, it.value().type, it.value().serial});
    return label::agreement(readings, state.papers.value(state.ground->lamps[lamp].id).passes + further,
                            state.ground->catalogue.lampTypes(),
                            state.ground->model(state.plant.lamp[lamp].lamphouse).lampTypes);
}

QString BookInPresenter::answer(const QString& id) const
{
    return answersOf(m_rest).value(id).toString();
}

std::optional<double> BookInPresenter::threshold() const
{
    bool isNumber = false;
    const double hours = answer(u"threshold"_s).toDouble(&isNumber);
    return isNumber && hours > 0 ? std::optional(hours) : std::nullopt;
}

BookInColumn BookInPresenter::columnOf(Source source, const label::Agreement& agreed) const
{
    const Typed typed = m_typed.value(source);
    const Typed entry = m_typed.value(Source::Entry);
    BookInColumn column;
    column.id = idOf(source);
    column.title = nameOf(source);
    column.type = {typed.type, QString(), Mark::Open};
    column.serial = {typed.serial, QString(), Mark::Open};
    if (source == Source::Entry)
        column.type.words = column.serial.words = tr("what you say yourself");
    if (const auto* verdict = verdictOf(agreed.types, source)) {
        column.type.words = wordsOf(*verdict, entry.type, typed.type);
        column.type.mark = markOf(*verdict);
    }
    if (const auto* verdict = verdictOf(agreed.serials, source)) {
        column.serial.words = wordsOf(*verdict, entry.serial, typed.serial);
        column.serial.mark = markOf(*verdict);
    }
    return column;
}

QList<CaptureView> BookInPresenter::restOf(const visit::VisitState& state) const
{
    const procedure::Step* now = step(state);
    QList<CaptureView> rest;
    if (!now)
        return rest;
    for (CaptureView capture : captureViewsOf(*now)) {
        const bool isLabel = sourceOf(capture.id.section(u'-', 0, 0)).has_value();
        if (isLabel)
            continue;
        if (capture.id == u"threshold" && !m_suggested.isEmpty())
            capture.value = {m_suggested};
        rest.append(capture);
    }
    if (const auto ask = sisterAsk(state))
        rest.append(*ask);
    if (m_asksReason)
        rest.append(textCapture(u"reason"_s, tr("Why the alert stands so high")));
    return rest;
}

// Nothing preselected, in the catalogue's order: whichever is expected must not be the easier press.
std::optional<CaptureView> BookInPresenter::sisterAsk(const visit::VisitState& state) const
{
    const label::Agreement agreed = agreement(state);
    const bool isAsked = std::ranges::any_of(agreed.waits, [](const label::Wait& wait) {
        return wait.cause == label::Wait::Cause::SisterNotExcluded;
    });
    const bool isChosen = m_typed.value(Source::OwnMarking).means == label::Means::Chosen;
    if (!agreed.type || (!isChosen && !(isAsked && m_wasCompared)))
        return std::nullopt;
    const catalogue::Catalogue& catalogue = state.ground->catalogue;
    const QList<LampTypeId> sisters = label::sistersOf(*agreed.type, catalogue.lampTypes());
    const QString own = catalogue.lampType(*agreed.type)->code;
    CaptureView ask;
    ask.id = kSister;
    ask.label = tr("Look at the lamp's own marking once more: which stands there?");
    for (const catalogue::LampType& type : catalogue.lampTypes()) {
        if (type.id == *agreed.type)
            ask.options.append(
                {type.code, apartWords(type.code, catalogue.lampType(sisters.value(0, type.id))->code), {}});
        else if (sisters.contains(type.id))
            ask.options.append({type.code, apartWords(type.code, own), {}});
    }
    if (isChosen)
        ask.value = {m_typed.value(Source::OwnMarking).type};
    return ask;
}

std::optional<Source> BookInPresenter::sourceToPass(const label::Agreement& agreed) const
{
    const int needed = isBookIn() ? 2 : 1;
    for (const label::Wait& wait : agreed.waits) {
        if (wait.canBePassedWithReason() && wait.step <= needed)
            return wait.source;
    }
    return std::nullopt;
}

QList<CaptureView> BookInPresenter::passAsks(const label::Agreement& agreed) const
{
    const auto source = sourceToPass(agreed);
    const bool isReady = !m_typed.value(Source::Entry).serial.isEmpty();
    if (!source || !isReady || !m_wasCompared)
        return {};
    CaptureView evidence;
    evidence.id = u"evidence"_s;
    evidence.label = tr("%1: the serial may pass, if this stands behind it").arg(nameOf(*source));
    evidence.options.append({u"picture"_s, tr("A picture of it"), {}});
    for (const Source other : sources()) {
        if (other != Source::Entry && other != *source)
            evidence.options.append({idOf(other), tr("Typed again from: %1").arg(nameOf(other)), {}});
    }
    return {evidence, textCapture(u"again"_s, tr("The serial, typed again")),
            textCapture(u"reason"_s, tr("Why it may pass"))};
}

BookInView BookInPresenter::viewOf(const visit::VisitState& state) const
{
    const visit::SwapState& swap = state.swaps[m_swap];
    const label::Agreement agreed = agreement(state);
    const catalogue::LampType* type = agreed.type ? state.ground->catalogue.lampType(*agreed.type) : nullptr;
    const double hours = state.ground->lamps[swap.newLamp].hours.value_or(0);
    BookInView view;
    view.place = placeOf(state, swap.lamphouse);
    if (const QString read = countersOf(swap); isBookIn() && !read.isEmpty())
        view.place += u"\u2002·\u2002"_s + read;
    const procedure::Step* now = step(state);
    view.title = now ? now->title : QString();
    view.danger = now ? dangerOf(now->hazard) : std::nullopt;
    for (const Source source : sources())
        view.columns.append(columnOf(source, agreed));
    view.waits = m_said;
    view.matched = tr("Matched: %1 of 2").arg(agreed.proved());
    view.wrongType = wrongTypeWords(agreed, state.ground->catalogue.lampTypes());
    view.rest = restOf(state);
    view.pass = passAsks(agreed);
    if (isBookIn() && type) {
        view.threshold = thresholdViewOf(m_basis, state.ground->opening.weeklyHours, type->warrantyHours,
                                         threshold(), hours, m_desk.clock().now().wall, m_desk.zone());
        const QLocale locale;
        const auto set = threshold();
        view.keyIn = {tr("Type: %1").arg(type->code), tr("Lamp hours: %1").arg(hoursText(hours, locale)),
                      tr("Alert at: %1").arg(set ? hoursText(*set, locale) : tr("not set yet"))};
    }
    for (const visit::PersonFacts& person : state.people) {
        if (!m_asksReason || person.id == m_desk.presses() || !person.mayAgree() ||
            !state.isHere(state.person(person.id)))
            continue;
        const bool isGiven = m_countersigned == person.id;
        view.acts.append({u"countersign:"_s + person.id.text(), tr("%1: agreed").arg(person.name), QString(),
                          u"F5"_s, isGiven ? PersonAct::Stand::Given : PersonAct::Stand::Open});
    }
    view.action = {u"book-in/%1/%2"_s.arg(m_swap).arg(isBookIn() ? 2 : 1),
                   isBookIn() ? tr("Book it in") : tr("Compare and go on"), QString(),
                   ActionView::Stand::Ready};
    return view;
}

void BookInPresenter::refresh()
{
    const BookInView view = viewOf(m_desk.seen());
    if (view == m_view)
        return;
    m_view = view;
    Q_EMIT viewChanged(m_view);
}

void BookInPresenter::personAct(const QString& id)
{
    m_countersigned = PersonId(id.section(u':', 1, 1));
    refresh();
}

/// One entry for each source that says something else than it did before.
bool BookInPresenter::tellReadings(const visit::VisitState& state)
{
    const LampId lamp = state.ground->lamps[state.swaps[m_swap].newLamp].id;
    const QList<label::Reading> before = state.papers.value(lamp).readings;
    for (const Source source : sources()) {
        const Typed typed = m_typed.value(source);
        const label::Reading last = readingOf(before, source);
        const bool isSame =
            last.type == typed.type && last.serial == typed.serial && last.means == typed.means;
        if (isSame || (typed.type.trimmed().isEmpty() && typed.serial.trimmed().isEmpty()))
            continue;
        const VisitDesk::Told told =
            m_desk.tell(visit::LampRead{lamp, {source, typed.means, typed.type, typed.serial}});
        if (!told.isKept()) {
            m_said = told.no;
            return false;
        }
    }
    return true;
}

void BookInPresenter::done()
{
    const visit::VisitState state = m_desk.seen();
    const procedure::Step* now = step(state);
    if (!now || !tellReadings(state))
        return refresh();
    const label::Agreement agreed = agreement(m_desk.seen());
    const int needed = isBookIn() ? 2 : 1;
    if (agreed.proved() < needed) {
        m_wasCompared = true;
        m_said.clear();
        for (const label::Wait& wait : agreed.waits) {
            if (wait.step <= needed)
                m_said.append(wordsOf(wait));
        }
        m_said.removeDuplicates();
        return refresh();
    }
    visit::Did did;
    did.swap = state.swaps[m_swap].id;
    did.step = now->id;
    did.answers = answersOf(m_rest);
    did.reason = answer(u"reason"_s);
    did.answers.remove(u"reason"_s);
    did.answers.remove(kSister);
    did.countersignedBy = m_countersigned;
    const VisitDesk::Told told = m_desk.tell(did);
    m_said = told.no;
    m_asksReason = m_asksReason || told.refusal.has(visit::Why::Kind::Threshold);
    if (told.isKept())
        return Q_EMIT finished();
    refresh();
}

void BookInPresenter::passSerial()
{
    const visit::VisitState state = m_desk.seen();
    const auto source = sourceToPass(agreement(state));
    if (!source || !tellReadings(state))
        return refresh();
    const QJsonObject asked = answersOf(m_pass);
    const QString evidence = asked.value(u"evidence"_s).toString();
    visit::SerialPassed passed;
    passed.lamp = state.ground->lamps[state.swaps[m_swap].newLamp].id;
    passed.pass.source = *source;
    passed.pass.read = m_typed.value(*source).serial;
    passed.pass.entry = m_typed.value(Source::Entry).serial;
    passed.pass.reason = asked.value(u"reason"_s).toString();
    if (const auto from = sourceOf(evidence)) {
        passed.pass.evidence = label::SerialPass::Evidence::TypedAgain;
        passed.pass.typedFrom = *from;
        passed.pass.typedAgain = asked.value(u"again"_s).toString();
    }
    if (evidence.isEmpty()) {
        m_said = {tr("Say what stands behind it: a picture, or the serial typed again from another source.")};
        return refresh();
    }
    const bool isNoEvidence = sourceToPass(agreement(state, {passed.pass})) == source;
    m_said = isNoEvidence
                 ? QStringList{tr("That does not carry it: give a reason, and a picture or the serial "
                                  "typed again as in the entry, from another source.")}
                 : m_desk.tell(passed).no;
    refresh();
}

} // namespace coldarc::ui
