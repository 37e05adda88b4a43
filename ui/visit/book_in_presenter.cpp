#include "ui/visit/book_in_presenter.h"

#include "core/base/typed_hours.h"
#include "core/label/normalise.h"
#include "core/label/set_up_scan.h"
#include "core/visit/next_step.h"
#include "core/visit/unit.h"
#include "ui/label/words_picture.h"
#include "ui/parts/quantities.h"
#include "ui/visit/view_of_book_in.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/view_of_steps.h"
#include "ui/visit/words_doubt.h"
#include "ui/visit/words_key_in.h"
#include "ui/visit/words_label.h"

#include <algorithm>
#include <chrono>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using label::Source;
using machine::Effect;

QString sameCodeWords(Source other, Source source)
{
    return BookInPresenter::tr(
               "The same code as at %1, and nothing was changed. Scan what stands at %2 itself; if "
               "it is this very code, the button there says so.")
        .arg(nameOf(other), nameOf(source));
}

const QString kSister = u"marking-choice"_s;
const QString kDoubts = u"doubts-answer"_s;

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

void BookInPresenter::open(int swap)
{
    m_swap = swap;
    m_couldNotKeep = false;
    m_pressed.reset();
    m_held.reset();
    m_scanSays.clear();
    m_countersigned = {};
    m_doubtsScanner = false;
    const visit::VisitState state = m_desk.seen();
    const auto before = std::exchange(m_ground, groundOf(state));
    if (m_ground && m_ground == before) { // it was left and is taken up again
        gatherRecords(state);
        return refresh();
    }
    m_said.clear();
    m_rest.clear();
    m_pass.clear();
    m_suggested.clear();
    m_unkept.clear();
    m_asksReason = false;
    m_asksDoubts = false;
    m_asked.clear();
    m_askedForSecond = false;
    m_wasCompared = false;
    const procedure::Step* now = step(state);
    m_reads.begin(now && now->effect == Effect::BookIn);
    if (!now)
        return;
    for (const label::SourceRead& read : toldReads(state)) {
        if (m_reads.sources().contains(read.reading.source))
            m_reads.put(read);
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

QList<label::SourceRead> BookInPresenter::toldReads(const visit::VisitState& state) const
{
    const LampId lamp = state.ground->lamps[state.swaps[m_swap].newLamp].id;
    return visit::readsOf(m_desk.logbook().entries(), state, lamp);
}

std::optional<BookInPresenter::Ground> BookInPresenter::groundOf(const visit::VisitState& state) const
{
    const procedure::Step* now = step(state);
    return now ? std::optional(Ground{m_swap, now->id, toldReads(state)}) : std::nullopt;
}

/// Once the lamp is out of its box a code goes only where somebody says, by a press: one of the box, read
/// hours later and taken for the lamp's own marking, lets a wrong lamp pass.
std::optional<Source> BookInPresenter::asked() const
{
    if (m_pressed || isBookIn())
        return m_pressed;
    return label::nextToRead({Source::Box, Source::Paper}, m_reads.all());
}

/// Of box and paper one is enough if it was scanned, or once it was said that there is no other.
bool BookInPresenter::isNeeded(Source source) const
{
    if (source == Source::Entry || source == Source::OwnMarking)
        return true;
    if (isBookIn() || m_askedForSecond)
        return false;
    const label::SourceRead other = m_reads.of(source == Source::Box ? Source::Paper : Source::Box);
    const bool isWhole =
        !label::normalise(other.reading.type).isEmpty() && !label::normalise(other.reading.serial).isEmpty();
    return !isWhole || other.reading.means != label::Means::Scanned;
}

void BookInPresenter::setType(const QString& column, const QString& text)
{
    if (const auto source = sourceOf(column))
        m_reads.put(label::withTyped(m_reads.of(*source), text, m_reads.of(*source).reading.serial));
    m_pressed.reset(); // what was pressed for was typed
    m_held.reset();
    refresh();
}

void BookInPresenter::setSerial(const QString& column, const QString& text)
{
    if (const auto source = sourceOf(column))
        m_reads.put(label::withTyped(m_reads.of(*source), m_reads.of(*source).reading.type, text));
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
    const auto other = source ? label::alreadyReadOn(scanned, *source, m_reads.all()) : std::nullopt;
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
        label::SourceRead read = label::withCode(m_reads.of(*source), scanned, payload, text);
        read.isAlsoElsewhere = read.isAlsoElsewhere || other;
        if (picture) {
            read.picture = picture->hash;
            m_unkept.insert(picture->hash.bytes(), picture->kept);
        }
        m_reads.put(read);
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
    label::SourceRead read = m_reads.of(*source);
    read.picture = picture.hash;
    m_reads.put(read);
    m_unkept.insert(picture.hash.bytes(), picture.kept);
    m_pressed.reset();
    m_scanSays = tr("%1: the picture is kept with it").arg(nameOf(*source));
    gatherPictures();
    refresh();
}

void BookInPresenter::takePictureOff(const QString& column)
{
    const auto source = sourceOf(column);
    if (!source || !m_reads.of(*source).picture)
        return;
    label::SourceRead read = m_reads.of(*source);
    if (!read.scanned.isEmpty()) // they stand on it, or may: read them anew
        read = label::withTyped(read, {}, {});
    read.picture.reset();
    m_reads.put(read);
    m_couldNotKeep = false;
    m_scanSays = tr("%1: the picture is taken off").arg(nameOf(*source));
    gatherPictures();
    refresh();
}

void BookInPresenter::goOnWithoutPicture()
{
    for (label::SourceRead read : m_reads.all()) {
        if (!read.picture || !m_unkept.contains(read.picture->bytes()))
            continue;
        read.picture.reset();
        m_reads.put(read);
    }
    m_unkept.clear();
    m_couldNotKeep = false;
    m_said.clear();
    gatherPictures();
    done();
}

// ---- What memory knows

void BookInPresenter::gatherRecords(const visit::VisitState& state)
{
    m_onRecord = {};
    if (m_records) {
        const auto known = m_records->lamps();
        m_onRecord.lamps = known.value_or(QList<label::KnownLamp>());
        m_areLampsUnread = !known;
    }
    m_atHand.gather(state, m_swap, m_onRecord.lamps);
    gatherPictures();
}

void BookInPresenter::gatherPictures()
{
    QList<Hash> wanted;
    for (const label::SourceRead& read : m_reads.all()) {
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

// One key says type and serial, were there one lamp only: the list comes from the records, and no code,
// marking or label has a part in it, so that the entry stays a source of its own.
void BookInPresenter::chooseLamp(const QString& id)
{
    const auto lamp = m_atHand.lamp(id);
    if (!lamp)
        return;
    m_reads.put({{Source::Entry, label::Means::Chosen, lamp->code, lamp->serial}});
    refresh();
}

QList<label::Doubt> BookInPresenter::doubts(const visit::VisitState& state) const
{
    return visit::doubtsOf(state, state.swaps[m_swap], m_reads.all(), m_onRecord, m_desk.clock().now().wall);
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
    const auto asked = [this] { return std::pair(answer(u"threshold"_s), answer(u"reason"_s)); };
    const auto before = asked();
    m_rest = answers;
    if (asked() != before)
        m_countersigned = {}; // who agreed to one alert has agreed to no other
    // Which of two types stands on the lamp, told by choosing between them.
    const QString chosen = answer(kSister);
    const label::SourceRead marking = m_reads.of(Source::OwnMarking);
    if (!chosen.isEmpty() &&
        (marking.reading.means != label::Means::Chosen || marking.reading.type != chosen)) {
        m_reads.put({{Source::OwnMarking, label::Means::Chosen, chosen, marking.reading.serial},
                     {},
                     marking.picture,
                     marking.isAlsoElsewhere}); // the serial is still the package's
        m_said.clear();                         // that it waited for this
        tellReadings(m_desk.seen()); // what was seen on the lamp stands, whatever comes of the book-in
    }
    refresh();
}

label::Agreement BookInPresenter::agreement(const visit::VisitState& state,
                                            const QList<label::SerialPass>& further) const
{
    return visit::agreementOf(state, state.swaps[m_swap].newLamp, m_reads.readings(), further);
}

QString BookInPresenter::answer(const QString& id) const
{
    return answersOf(m_rest).value(id).toString();
}

std::optional<double> BookInPresenter::threshold() const
{
    const auto hours = hoursFrom(answer(u"threshold"_s));
    return hours && *hours > 0 ? std::optional(*hours) : std::nullopt;
}

/// What the source says, and where the next code goes.
BookInColumn BookInPresenter::columnOf(Source source, const label::Agreement& agreed,
                                       const visit::VisitState& state) const
{
    BookInColumn column = agreementColumn(m_reads, source, agreed, state.ground->catalogue);
    column.canTakeCodes = source != Source::Entry;
    column.takesCodes = asked() == source;
    column.holdsCode = m_held && m_held->source == source;
    if (column.holdsCode)
        column.codesText = tr("This code stands here as well");
    else
        column.codesText =
            column.takesCodes ? tr("\u25C9 The next code goes here") : tr("Put the next code here");
    column.isNeeded = isNeeded(source);
    return column;
}

/// Which of two types stands on the lamp: asked once what was compared left both open, and still once it was
/// told.
bool BookInPresenter::asksForSister(const label::Agreement& agreed) const
{
    const bool isOpen = std::ranges::any_of(agreed.waits, [](const label::Wait& wait) {
        return wait.cause == label::Wait::Cause::SisterNotExcluded;
    });
    return (isOpen && m_wasCompared) || m_reads.of(Source::OwnMarking).reading.means == label::Means::Chosen;
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
    if (const label::Agreement agreed = agreement(state); agreed.type && asksForSister(agreed))
        rest.append(sisterAsk(kSister, m_reads, *agreed.type, state.ground->catalogue));
    if (m_asksDoubts)
        rest.prepend(doubtAsk());
    if (m_asksReason)
        rest.append(textCapture(u"reason"_s, tr("Why the alert stands so high")));
    return rest;
}

BookInView BookInPresenter::viewOf(const visit::VisitState& state) const
{
    const visit::SwapState& swap = state.swaps[m_swap];
    const label::Agreement agreed = agreement(state);
    const catalogue::LampType* type = agreed.type ? state.ground->catalogue.lampType(*agreed.type) : nullptr;
    const std::optional<double> hours = visit::unitOf(state, swap.newLamp).hours;
    BookInView view;
    view.place = placeOf(state, swap.lamphouse);
    if (const QString read = countersOf(swap); isBookIn() && !read.isEmpty())
        view.place += u"\u2002·\u2002"_s + read;
    const procedure::Step* now = step(state);
    view.title = now ? now->title : QString();
    view.danger = now ? dangerOf(now->hazard) : std::nullopt;
    for (const Source source : m_reads.sources())
        view.columns.append(columnOf(source, agreed, state));
    view.scanSays = m_scanSays;
    view.doubtsScanner = m_doubtsScanner && !m_scanSays.isEmpty();
    const label::Reading entry = m_reads.of(Source::Entry).reading;
    if (!isBookIn() || entry.type.isEmpty() || entry.serial.isEmpty()) // else it was said with the box
        view.atHand = m_atHand.presses(entry);
    view.atHandSays = view.atHand.isEmpty() ? QString() : m_atHand.says();
    view.offersWithoutPicture = m_couldNotKeep;
    view.takesPictures = m_shelf != nullptr;
    if (const auto source = asked(); source && m_shelf)
        view.picturesOf = nameOf(*source);
    for (const label::Doubt& doubt : doubts(state))
        view.doubts.append(wordsOf(doubt, m_reads.of(Source::Entry).reading.serial, state));
    view.doubts.removeDuplicates();
    view.waits = m_said;
    view.matched = tr("Matched: %1 of 2").arg(agreed.proved());
    view.wrongType = wrongTypeWords(agreed, state.ground->catalogue.lampTypes());
    view.rest = restOf(state);
    const auto passes = sourceToPass(m_reads, agreed);
    if (passes && !entry.serial.isEmpty() && m_wasCompared)
        view.pass = passAsks(m_reads, *passes);
    if (isBookIn() && type) {
        view.threshold =
            thresholdViewOf(m_basis, state.ground->opening.weeklyHours, type->warrantyHours, threshold(),
                            hours.value_or(0), m_desk.clock().now().wall, m_desk.zone());
        const QLocale locale;
        const auto set = threshold();
        view.keyIn = {tr("Type: %1").arg(type->code),
                      tr("Lamp hours: %1").arg(hours ? hoursText(*hours, locale) : tr("not known yet")),
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
    const QList<label::SourceRead> before = toldReads(state);
    for (const label::SourceRead& read : m_reads.all()) {
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
    m_ground = groundOf(m_desk.seen());
    return true;
}

/// What is asked once, before a match that holds is taken: a second source where one was typed alone, and a
/// word to what memory says against the lamp.
bool BookInPresenter::asksBeforeGoingOn(const visit::VisitState& state)
{
    if (!isBookIn() && !m_askedForSecond && label::restsOnOneTyping(m_reads.readings())) {
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
    if (told.isKept()) {
        m_ground.reset();
        return Q_EMIT finished();
    }
    refresh();
}

void BookInPresenter::passSerial()
{
    const visit::VisitState state = m_desk.seen();
    const auto source = sourceToPass(m_reads, agreement(state));
    if (!source || !tellReadings(state))
        return refresh();
    const QJsonObject asked = answersOf(m_pass);
    const QString evidence = asked.value(u"evidence"_s).toString();
    visit::SerialPassed passed;
    passed.lamp = state.ground->lamps[state.swaps[m_swap].newLamp].id;
    passed.pass.source = *source;
    passed.pass.read = m_reads.of(*source).reading.serial;
    passed.pass.entry = m_reads.of(Source::Entry).reading.serial;
    passed.pass.reason = asked.value(u"reason"_s).toString();
    if (evidence == u"picture")
        passed.picture = m_reads.of(*source).picture;
    if (const auto from = sourceOf(evidence)) {
        passed.pass.evidence = label::SerialPass::Evidence::TypedAgain;
        passed.pass.typedFrom = *from;
        passed.pass.typedAgain = asked.value(u"again"_s).toString();
    }
    if (evidence.isEmpty()) {
        m_said = {tr("Say what stands behind it: a picture, or the serial typed again from another source.")};
        return refresh();
    }
    const bool isNoEvidence = sourceToPass(m_reads, agreement(state, {passed.pass})) == source;
    m_said = isNoEvidence
                 ? QStringList{tr("That does not carry it: give a reason, and a picture or the serial "
                                  "typed again as in the entry, from another source.")}
                 : m_desk.tell(passed).no;
    refresh();
}

} // namespace coldarc::ui
