#include "ui/visit/book_in_presenter.h"

#include "core/label/normalise.h"
#include "core/label/set_up_scan.h"
#include "core/visit/next_step.h"
#include "ui/label/words_picture.h"
#include "ui/parts/quantities.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/view_of_steps.h"
#include "ui/visit/words_doubt.h"
#include "ui/visit/words_key_in.h"
#include "ui/visit/words_label.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <utility>

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

QString sameCodeWords(Source other, Source source)
{
    return BookInPresenter::tr(
               "The same code as at %1, and nothing was changed. Scan what stands at %2 itself; if "
               "it is this very code, the button there says so.")
        .arg(nameOf(other), nameOf(source));
}

const QString kSister = u"marking-choice"_s;
const QString kDoubts = u"doubts-answer"_s;
constexpr std::array<const char16_t*, 3> kLampKeys{u"F6", u"F7", u"F8"};

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
    m_reads.clear();
    m_unkept.clear();
    m_couldNotKeep = false;
    m_pressed.reset();
    m_held.reset();
    m_scanSays.clear();
    m_countersigned = {};
    m_asksReason = false;
    m_doubtsScanner = false;
    m_asksDoubts = false;
    m_asked.clear();
    m_askedForSecond = false;
    m_wasCompared = false;
    const visit::VisitState state = m_desk.seen();
    const procedure::Step* now = step(state);
    if (!now)
        return;
    m_isBookIn = now->effect == Effect::BookIn;
    const LampId lamp = state.ground->lamps[state.swaps[m_swap].newLamp].id;
    for (const label::SourceRead& read : visit::readsOf(m_desk.logbook().entries(), state, lamp)) {
        if (sources().contains(read.reading.source))
            m_reads.insert(read.reading.source, read);
    }
    gatherRecords(state);
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

label::SourceRead BookInPresenter::readOf(Source source) const
{
    label::SourceRead read = m_reads.value(source);
    read.reading.source = source;
    return read;
}

QList<label::SourceRead> BookInPresenter::reads() const
{
    QList<label::SourceRead> all;
    for (const Source source : sources())
        all.append(readOf(source));
    return all;
}

/// Once the lamp is out of its box a code goes only where somebody says, by a press: one of the box, read
/// hours later and taken for the lamp's own marking, lets a wrong lamp pass.
std::optional<Source> BookInPresenter::asked() const
{
    if (m_pressed || isBookIn())
        return m_pressed;
    return label::nextToRead({Source::Box, Source::Paper}, reads());
}

/// Of box and paper one is enough if it was scanned, or once it was said that there is no other.
bool BookInPresenter::isNeeded(Source source) const
{
    if (source == Source::Entry || source == Source::OwnMarking)
        return true;
    if (isBookIn() || m_askedForSecond)
        return false;
    const label::SourceRead other = readOf(source == Source::Box ? Source::Paper : Source::Box);
    const bool isWhole =
        !label::normalise(other.reading.type).isEmpty() && !label::normalise(other.reading.serial).isEmpty();
    return !isWhole || other.reading.means != label::Means::Scanned;
}

void BookInPresenter::setType(const QString& column, const QString& text)
{
    if (const auto source = sourceOf(column))
        m_reads[*source] = label::withTyped(readOf(*source), text, readOf(*source).reading.serial);
    m_pressed.reset(); // what was pressed for was typed
    m_held.reset();
    refresh();
}

void BookInPresenter::setSerial(const QString& column, const QString& text)
{
    if (const auto source = sourceOf(column))
        m_reads[*source] = label::withTyped(readOf(*source), readOf(*source).reading.type, text);
    m_pressed.reset(); // what was pressed for was typed
    m_held.reset();
    refresh();
}

void BookInPresenter::scan(const QString& scanned)
{
    const label::Payload payload = label::readPayload(scanned, yearOf(m_desk.clock().now().wall));
    m_doubtsScanner = label::looksUnset(payload);
    takeCode(scanned, nullptr, Elsewhere::IsNotSaid);
}

void BookInPresenter::picked(const QString& scanned, const LabelPicture& picture)
{
    takeCode(scanned, &picture, Elsewhere::IsNotSaid);
}

void BookInPresenter::takeCodesFor(const QString& column)
{
    const auto source = sourceOf(column);
    if (source && *source != Source::Entry) {
        m_pressed = source;
        m_scanSays.clear();
        if (const auto held = std::exchange(m_held, {}); held && held->source == *source)
            return takeCode(held->scanned, held->picture ? &*held->picture : nullptr, Elsewhere::IsSaid);
    }
    refresh();
}

void BookInPresenter::takeCode(const QString& scanned, const LabelPicture* picture, Elsewhere elsewhere)
{
    const visit::VisitState state = m_desk.seen();
    if (!step(state))
        return;
    m_held.reset();
    const label::Payload payload = label::readPayload(scanned, yearOf(m_desk.clock().now().wall));
    const label::LabelText text = label::labelText(payload, state.ground->catalogue.lampTypes());
    const auto source = asked();
    const auto other = source ? label::alreadyReadOn(scanned, *source, reads()) : std::nullopt;
    if (text.verdict != label::LabelText::Verdict::Read) {
        m_scanSays =
            tr("%1. Nothing was changed: type what stands on the label.").arg(wordsOf(text, payload));
        if (text.verdict == label::LabelText::Verdict::Unknown)
            couldNotRead(scanned);
    } else if (!source) {
        m_scanSays = isBookIn() ? tr("Nothing was changed. Press the code button of what is scanned, the own "
                                     "marking's for the lamp itself, and scan once more.")
                                : tr("All is read. To read one anew, press its code button first.");
    } else if (other && elsewhere == Elsewhere::IsNotSaid) {
        m_scanSays = sameCodeWords(*other, *source);
        m_held = Held{*source, scanned, picture ? std::optional(*picture) : std::nullopt};
        m_pressed = source; // another scan goes there too, without a press
    } else {
        label::SourceRead read = label::withCode(readOf(*source), scanned, payload, text);
        read.isAlsoElsewhere = read.isAlsoElsewhere || other;
        if (picture) {
            read.picture = picture->hash;
            m_unkept.insert(picture->hash.bytes(), picture->kept);
        }
        m_reads[*source] = read;
        if (!label::normalise(read.reading.type).isEmpty() &&
            !label::normalise(read.reading.serial).isEmpty())
            m_pressed.reset(); // else its other code comes next
        m_said.clear();
        m_scanSays = tr("%1: %2").arg(nameOf(*source), wordsOf(text, payload));
        gatherPictures();
    }
    refresh();
}

void BookInPresenter::couldNotRead(const QString& scanned)
{
    if (m_records)
        m_records->couldNotRead(scanned);
}

void BookInPresenter::keepPicture(const LabelPicture& picture)
{
    const auto source = asked();
    if (!source || picture.kept.isEmpty())
        return;
    label::SourceRead read = readOf(*source);
    read.picture = picture.hash;
    m_reads[*source] = read;
    m_unkept.insert(picture.hash.bytes(), picture.kept);
    m_pressed.reset();
    m_scanSays = tr("%1: the picture is kept with it").arg(nameOf(*source));
    gatherPictures();
    refresh();
}

void BookInPresenter::takePictureOff(const QString& column)
{
    const auto source = sourceOf(column);
    if (!source || !readOf(*source).picture)
        return;
    label::SourceRead read = readOf(*source);
    if (!read.scanned.isEmpty()) // they stand on it, or may: read them anew
        read = label::withTyped(read, {}, {});
    read.picture.reset();
    m_reads[*source] = read;
    m_couldNotKeep = false;
    m_scanSays = tr("%1: the picture is taken off").arg(nameOf(*source));
    gatherPictures();
    refresh();
}

void BookInPresenter::goOnWithoutPicture()
{
    for (label::SourceRead& read : m_reads) {
        if (read.picture && m_unkept.contains(read.picture->bytes()))
            read.picture.reset();
    }
    m_unkept.clear();
    m_couldNotKeep = false;
    m_said.clear();
    gatherPictures();
    done();
}

// ---- What memory knows

/// The visit's own lamps, and others of the workspace that are at hand; as many as have a key, none of the
/// visit's left out. In the order of their texts: the one that is expected must not be the easier press.
void BookInPresenter::gatherRecords(const visit::VisitState& state)
{
    m_onRecord = {};
    m_atHand.clear();
    m_moreAtHand = 0;
    if (m_records) {
        const auto known = m_records->lamps();
        m_onRecord.lamps = known.value_or(QList<label::KnownLamp>());
        m_areLampsUnread = !known;
    }
    const auto planned = state.ground->lamps[state.swaps[m_swap].newLamp].type;
    const auto offer = [&](const LampTypeId& id, const QString& serial) {
        const catalogue::LampType* type = state.ground->catalogue.lampType(id);
        const AtHand lamp{type ? type->code : QString(), serial};
        if (!type || id != planned || serial.isEmpty() || m_atHand.contains(lamp))
            return;
        if (m_atHand.size() < qsizetype(kLampKeys.size()))
            m_atHand.append(lamp);
        else
            ++m_moreAtHand;
    };
    for (const visit::SwapState& swap : state.swaps) {
        const visit::LampFacts& lamp = state.ground->lamps[swap.newLamp];
        if (state.machine.lamp[swap.newLamp].place != machine::Place::SealedBox)
            continue; // it is in a seat, or on its way there
        offer(lamp.type.value_or(LampTypeId()), lamp.serial);
    }
    for (const label::KnownLamp& lamp : m_onRecord.lamps) {
        if (lamp.where == label::KnownLamp::Where::AtHand && lamp.bookedFor.isEmpty())
            offer(lamp.type, lamp.serial);
    }
    std::ranges::sort(m_atHand);
    gatherPictures();
}

void BookInPresenter::gatherPictures()
{
    QList<Hash> wanted;
    for (const label::SourceRead& read : reads()) {
        if (read.picture)
            wanted.append(*read.picture);
    }
    m_onRecord.pictures.clear();
    m_onRecord.isUnread = m_areLampsUnread;
    if (!m_records || wanted.isEmpty())
        return;
    const auto known = m_records->pictures(wanted);
    m_onRecord.pictures = known.value_or(QList<label::KnownPicture>());
    m_onRecord.isUnread = m_areLampsUnread || !known;
}

QList<PersonAct> BookInPresenter::lampsAtHand() const
{
    const label::Reading entry = readOf(Source::Entry).reading;
    QList<PersonAct> acts;
    for (qsizetype i = 0; i < m_atHand.size(); ++i) {
        const AtHand& lamp = m_atHand.at(i);
        const bool isChosen = entry.means == label::Means::Chosen && AtHand{entry.type, entry.serial} == lamp;
        acts.append({QString::number(i), lamp.code, lamp.serial,
                     QString::fromUtf16(kLampKeys.at(static_cast<std::size_t>(i))),
                     isChosen ? PersonAct::Stand::Given : PersonAct::Stand::Open});
    }
    return acts;
}

QString BookInPresenter::atHandSays() const
{
    const QString known =
        tr("The entry, chosen from what van and visit are known to hold; no scan says this");
    return m_moreAtHand == 0 ? tr("%1:").arg(known)
                             : tr("%1 (%2 more have to be typed):").arg(known).arg(m_moreAtHand);
}

// One key says type and serial, were there one lamp only: the list comes from the records, and no code,
// marking or label has a part in it, so that the entry stays a source of its own.
void BookInPresenter::chooseLamp(const QString& id)
{
    const qsizetype index = id.toInt();
    if (index < 0 || index >= m_atHand.size())
        return;
    const AtHand& lamp = m_atHand.at(index);
    m_reads[Source::Entry] = {{Source::Entry, label::Means::Chosen, lamp.code, lamp.serial}};
    refresh();
}

QList<label::Doubt> BookInPresenter::doubts(const visit::VisitState& state) const
{
    return visit::doubtsOf(state, state.swaps[m_swap], reads(), m_onRecord, m_desk.clock().now().wall);
}

QList<label::Doubt> BookInPresenter::openDoubts(const visit::VisitState& state) const
{
    return visit::unanswered(doubts(state), m_desk.logbook().entries(), state, state.swaps[m_swap]);
}

CaptureView BookInPresenter::doubtAsk() const
{
    CaptureView ask;
    ask.id = kDoubts;
    ask.label = tr("Why the lamp goes in all the same");
    for (const QString& text : answersToDoubts())
        ask.options.append({text, text, {}});
    return ask;
}

void BookInPresenter::setRest(const QList<CaptureAnswer>& answers)
{
    m_rest = answers;
    // Which of two types stands on the lamp, told by choosing between them.
    const QString chosen = answer(kSister);
    const label::SourceRead marking = readOf(Source::OwnMarking);
    if (!chosen.isEmpty() &&
        (marking.reading.means == label::Means::Typed || marking.reading.type != chosen)) {
        m_reads[Source::OwnMarking] = {
            {Source::OwnMarking, label::Means::Chosen, chosen, marking.reading.serial}, {}, marking.picture};
        tellReadings(m_desk.seen()); // what was seen on the lamp stands, whatever comes of the book-in
    }
    refresh();
}

label::Agreement BookInPresenter::agreement(const visit::VisitState& state,
                                            const QList<label::SerialPass>& further) const
{
    const machine::Index lamp = state.swaps[m_swap].newLamp;
    QList<label::Reading> readings;
    for (const label::SourceRead& read : reads())
        readings.append(read.reading);
    return visit::agreementOf(state, lamp, readings, further);
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
    const label::SourceRead read = readOf(source);
    const label::Reading& typed = read.reading;
    const label::Reading entry = readOf(Source::Entry).reading;
    BookInColumn column;
    column.id = idOf(source);
    column.title = nameOf(source);
    column.how = howWords(read);
    column.canTakeCodes = source != Source::Entry;
    column.takesCodes = asked() == source;
    column.holdsCode = m_held && m_held->source == source;
    if (column.holdsCode)
        column.codesText = tr("This code stands here as well");
    else
        column.codesText =
            column.takesCodes ? tr("\u25C9 The next code goes here") : tr("Put the next code here");
    column.isNeeded = isNeeded(source);
    column.hasPicture = read.picture.has_value();
    column.type = {typed.type, QString(), Mark::Open};
    column.serial = {typed.serial, QString(), Mark::Open};
    if (source == Source::Entry)
        column.type.words = column.serial.words = tr("what you say yourself");
    if (const auto* verdict = verdictOf(agreed.types, source)) {
        column.type.words = wordsOf(*verdict, entry.type, typed.type);
        column.type.mark = markOf(*verdict);
        const catalogue::LampType* named =
            verdict->namedType ? m_desk.logbook().state().ground->catalogue.lampType(*verdict->namedType)
                               : nullptr;
        if (named && label::normalise(named->code) != label::normalise(typed.type))
            column.type.words = tr("%1 (it stands for %2)").arg(column.type.words, named->code);
    }
    if (const auto* verdict = verdictOf(agreed.serials, source)) {
        column.serial.words = wordsOf(*verdict, entry.serial, typed.serial);
        column.serial.mark = markOf(*verdict);
    }
    if (source == Source::Entry && !agreed.didYouMean.isEmpty())
        column.type.words =
            nearWords(typed.type, agreed.didYouMean, m_desk.logbook().state().ground->catalogue.lampTypes());
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
    if (m_asksDoubts)
        rest.prepend(doubtAsk());
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
    const bool isChosen = readOf(Source::OwnMarking).reading.means == label::Means::Chosen;
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
        ask.value = {readOf(Source::OwnMarking).reading.type};
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
    const bool isReady = !readOf(Source::Entry).reading.serial.isEmpty();
    if (!source || !isReady || !m_wasCompared)
        return {};
    CaptureView evidence;
    evidence.id = u"evidence"_s;
    evidence.label = tr("%1: the serial may pass, if this stands behind it").arg(nameOf(*source));
    evidence.options.append({u"picture"_s,
                             readOf(*source).picture ? tr("The picture that is kept here")
                                                     : tr("A picture of it, on another device"),
                             {}});
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
    view.scanSays = m_scanSays;
    view.doubtsScanner = m_doubtsScanner && !m_scanSays.isEmpty();
    const label::Reading entry = readOf(Source::Entry).reading;
    if (!isBookIn() || entry.type.isEmpty() || entry.serial.isEmpty()) // else it was said with the box
        view.atHand = lampsAtHand();
    view.atHandSays = view.atHand.isEmpty() ? QString() : atHandSays();
    view.offersWithoutPicture = m_couldNotKeep;
    view.takesPictures = m_shelf != nullptr;
    if (const auto source = asked(); source && m_shelf)
        view.picturesOf = nameOf(*source);
    for (const label::Doubt& doubt : doubts(state))
        view.doubts.append(wordsOf(doubt, readOf(Source::Entry).reading.serial, state));
    view.doubts.removeDuplicates();
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

bool BookInPresenter::keepPictureOf(const label::SourceRead& read)
{
    const QByteArray hash = read.picture ? read.picture->bytes() : QByteArray();
    if (!m_unkept.contains(hash))
        return true;
    if (!m_shelf || !m_shelf->keep(u"image/jpeg"_s, m_unkept.value(hash))) {
        m_said = {
            tr("The picture could not be kept on the disk; nothing was changed. Try again, or go on without "
               "it.")};
        m_couldNotKeep = true;
        return false;
    }
    m_unkept.remove(hash);
    return true;
}

/// One entry for each source that says something else than it did before.
bool BookInPresenter::tellReadings(const visit::VisitState& state)
{
    const LampId lamp = state.ground->lamps[state.swaps[m_swap].newLamp].id;
    const QList<label::SourceRead> before = visit::readsOf(m_desk.logbook().entries(), state, lamp);
    for (const label::SourceRead& read : reads()) {
        const label::Reading& said = read.reading;
        const bool isEmpty = said.type.trimmed().isEmpty() && said.serial.trimmed().isEmpty();
        const auto isOfIt = [&](const label::SourceRead& one) { return one.reading.source == said.source; };
        if (before.contains(read) || (isEmpty && !read.picture && std::ranges::none_of(before, isOfIt)))
            continue; // said already, or nothing was said and nothing is
        if (!keepPictureOf(read))
            return false;
        const VisitDesk::Told told =
            m_desk.tell(visit::LampRead{lamp, said, read.scanned, read.picture, read.isAlsoElsewhere});
        if (!told.isKept()) {
            m_said = told.no;
            return false;
        }
    }
    return true;
}

/// What is asked once, before a match that holds is taken: a second source where one was typed alone, and a
/// word to what memory says against the lamp.
bool BookInPresenter::asksBeforeGoingOn(const visit::VisitState& state)
{
    QList<label::Reading> readings;
    for (const label::SourceRead& read : reads())
        readings.append(read.reading);
    if (!isBookIn() && !m_askedForSecond && label::restsOnOneTyping(readings)) {
        m_askedForSecond = true;
        m_said = {
            tr("Box or paper was typed, and nothing else vouches for it: scan it, or type the other one too, "
               "off its own text. If that is torn or missing, press once more; the record says so.")};
        return true;
    }
    const QList<label::Doubt> open = openDoubts(state);
    const bool isAnswered = m_asked == open && !answer(kDoubts).isEmpty();
    if (open.isEmpty() || isAnswered)
        return false;
    m_asked = open;
    m_rest.removeIf([](const CaptureAnswer& one) { return one.id == kDoubts; }); // given to something else
    m_asksDoubts = true;
    m_said = {tr("The records say something against this lamp. Look again, and say why it goes in.")};
    return true;
}

void BookInPresenter::done()
{
    m_couldNotKeep = false;
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
    if (asksBeforeGoingOn(state))
        return refresh();
    tellStep(state, *now);
}

void BookInPresenter::tellStep(const visit::VisitState& state, const procedure::Step& now)
{
    visit::Did did;
    did.swap = state.swaps[m_swap].id;
    did.step = now.id;
    did.answers = answersOf(m_rest);
    did.reason = answer(u"reason"_s);
    for (const label::Doubt& doubt : openDoubts(state))
        did.doubts.append(label::keptAs(doubt));
    did.doubts.removeDuplicates();
    did.doubtsAnswer = did.doubts.isEmpty() ? QString() : answer(kDoubts);
    for (const QString& own : {u"reason"_s, kSister, kDoubts})
        did.answers.remove(own);
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
    passed.pass.read = readOf(*source).reading.serial;
    passed.pass.entry = readOf(Source::Entry).reading.serial;
    passed.pass.reason = asked.value(u"reason"_s).toString();
    if (evidence == u"picture")
        passed.picture = readOf(*source).picture;
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
