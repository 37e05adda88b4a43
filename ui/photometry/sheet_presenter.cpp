#include "ui/photometry/sheet_presenter.h"

#include "core/visit/next_step.h"
#include "ui/parts/quantities.h"
#include "ui/photometry/sheet_order.h"
#include "ui/photometry/view_of_sheet.h"
#include "ui/photometry/words_sheet.h"

#include <QDateTime>
#include <QFile>

#include <algorithm>

namespace coldarc::ui {

using namespace Qt::StringLiterals;
using namespace photometry;
using visit::SheetTime;

namespace {

constexpr int kColumns = 3; ///< of the places, in reading order

const QString kAsTyped = u"as-typed"_s;
const QString kOtherUnit = u"other-unit"_s;
const QString kAgain = u"again"_s;
const QString kWholeFile = u"whole-file"_s;

LuminanceUnit otherThan(LuminanceUnit unit)
{
    return unit == LuminanceUnit::CdPerM2 ? LuminanceUnit::FootLamberts : LuminanceUnit::CdPerM2;
}

SheetQuestion questionOf(const QString& text, Doubt doubt, LuminanceUnit unit)
{
    SheetQuestion question{text, {}};
    if (doubt != Doubt::FarOff)
        question.answers.append(
            {kOtherUnit, SheetPresenter::tr("It shows %1").arg(longNameOf(otherThan(unit)))});
    question.answers.append({kAsTyped, doubt == Doubt::FarOff
                                           ? SheetPresenter::tr("It is what the meter shows")
                                           : SheetPresenter::tr("It shows %1").arg(longNameOf(unit))});
    question.answers.append({kAgain, SheetPresenter::tr("Type it again")});
    return question;
}

/// How many readings came with this one: 1 where it was typed.
qsizetype broughtBy(const visit::VisitState& state, qint64 entry)
{
    for (const visit::SheetLine& line : state.sheets) {
        const auto* read = std::get_if<visit::ScreenRead>(&line.said);
        if (read && line.entry == entry)
            return read->points.size();
    }
    return 0;
}

const visit::SheetPoint* pointAt(const visit::SheetOfSwap& sheet, Place place)
{
    const auto found = std::ranges::find_if(
        sheet.points, [&](const visit::SheetPoint& point) { return point.read.place == place; });
    return found == sheet.points.end() ? nullptr : &*found;
}

} // namespace

SheetPresenter::SheetPresenter(SheetDesk& desk, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
{
}

// ---- Which sheet ------------------------------------------------------------------------------------------

const visit::SwapState& SheetPresenter::swap(const visit::VisitState& state) const
{
    return state.swaps[m_swap];
}

const ToleranceSet* SheetPresenter::usual() const
{
    const auto set = std::ranges::find_if(m_sets, [](const ToleranceSet& one) {
        return one.roomClass == RoomClass::Theatre && one.picture == Picture::Digital;
    });
    if (set != m_sets.end())
        return &*set;
    return m_sets.empty() ? nullptr : &m_sets.front();
}

visit::SheetOfSwap SheetPresenter::sheet(const visit::VisitState& state) const
{
    return visit::sheetOf(state, swap(state).id, m_time, usual());
}

Conditions SheetPresenter::conditionsAsTyped(const visit::VisitState& state) const
{
    Conditions conditions = mind().form.soFar(mind().unit).conditions;
    conditions.day = sheet(state).sheet.conditions().day;
    conditions.lit = visit::litClaimOf(state, swap(state), conditions.lit, m_desk.clock().now()).lit;
    return conditions;
}

visit::SheetOfSwap SheetPresenter::sheetAsTyped(const visit::VisitState& state) const
{
    visit::SheetOfSwap now = sheet(state);
    now.set = ownLimits(now).set;
    const Stamp moment = m_desk.clock().now();
    const visit::ScreenConditions typed = mind().form.soFar(mind().unit);
    Conditions conditions = conditionsAsTyped(state);
    if (!conditions.day)
        conditions.day = dayOf(moment.wall, m_desk.zone());
    if (!typed.conditions.lit && now.isEmpty())
        conditions.lit = visit::litSinceStrike(swap(state), moment);
    now.sheet.setConditions(conditions);
    if (now.set)
        now.verdict = judge(now.sheet, *now.set);
    now.expected = visit::expectedOf(typed);
    return now;
}

void SheetPresenter::open(int swapIndex)
{
    m_swap = swapIndex;
    const visit::VisitState state = m_desk.seen();
    m_time = visit::sheetTimeNow(swap(state));
    const visit::NextStep next = visit::nextStep(state, swap(state), state.lead);
    m_step = next.step ? next.step->id : StepId();
    m_key = swap(state).id.text() + u'/' + visit::wordOf(m_time);
    if (!m_minds.contains(m_key))
        begin(state);
    mind().fault.clear();
    mind().said.clear();
    goOn();
}

/// The page of a sheet that was not open yet, or not since the program was started.
void SheetPresenter::begin(const visit::VisitState& state)
{
    Mind& fresh = mind();
    const visit::SheetOfSwap now = sheet(state);
    if (!now.points.empty())
        fresh.unit = now.points.back().unit;
    visit::ScreenConditions said;
    said.conditions = visit::knownConditions(state, swap(state).id, m_time);
    fresh.form.fill(now.said.value_or(said), fresh.unit);
}

// ---- From point to point ----------------------------------------------------------------------------------

std::optional<Place> SheetPresenter::leftTyped(const visit::SheetOfSwap& now) const
{
    const std::vector<Place> places = pointOrder(now);
    const auto left = std::ranges::find_if(places, [&](Place place) {
        const auto typed = mind().typed.find(place);
        return typed != mind().typed.end() && !typed->second.isEmpty();
    });
    return left == places.end() ? std::nullopt : std::optional(*left);
}

void SheetPresenter::goTo(Place place)
{
    Mind& now = mind();
    now.inHand = place;
    now.doubt.reset();
    now.asksForTheFile = false;
    now.fault.clear();
    ++m_turn;
    refresh();
}

void SheetPresenter::goOn()
{
    const auto next = nextOpen(sheet(m_desk.seen()));
    goTo(next.value_or(mind().inHand));
}

void SheetPresenter::choosePoint(const QString& place)
{
    if (const auto chosen = placeFromWord(place))
        goTo(*chosen);
}

void SheetPresenter::move(Toward toward)
{
    const auto places = placesOf(sheet(m_desk.seen()).sheet.convention());
    const int from = static_cast<int>(mind().inHand);
    int row = from / kColumns;
    int column = from % kColumns;
    for (;;) {
        row += toward == Toward::Down ? 1 : toward == Toward::Up ? -1 : 0;
        column += toward == Toward::Right ? 1 : toward == Toward::Left ? -1 : 0;
        if (row < 0 || column < 0 || row >= kColumns || column >= kColumns)
            return;
        const auto place = static_cast<Place>(row * kColumns + column);
        if (std::ranges::find(places, place) != places.end())
            return goTo(place);
    }
}

// ---- One reading ------------------------------------------------------------------------------------------

void SheetPresenter::chooseUnit(const QString& unit)
{
    useUnit(luminanceUnitFromWord(unit).value_or(mind().unit));
    mind().doubt.reset();
    mind().asksForTheFile = false;
    refresh();
}

void SheetPresenter::useUnit(LuminanceUnit unit)
{
    Mind& now = mind();
    now.form.changeUnit(now.unit, unit);
    now.unit = unit;
}

void SheetPresenter::setTyped(const QString& luminance, const QString& x, const QString& y)
{
    Mind& now = mind();
    const Typed before = typedAt(sheet(m_desk.seen()), now.inHand);
    now.typed[now.inHand] = {luminance, x, y, before.isLightTyped || luminance != before.luminance};
    now.doubt.reset();
    now.asksForTheFile = false;
    now.fault.clear();
    now.said.clear();
    refresh();
}

/// What stands in the boxes: what was typed, else what was read there.
SheetPresenter::Typed SheetPresenter::typedAt(const visit::SheetOfSwap& now, Place place) const
{
    const auto typed = mind().typed.find(place);
    if (typed == mind().typed.end())
        return readAt(now, place);
    Typed stands = typed->second;
    if (!stands.isLightTyped)
        stands.luminance = readAt(now, place).luminance;
    return stands;
}

SheetPresenter::Typed SheetPresenter::readAt(const visit::SheetOfSwap& now, Place place) const
{
    for (const visit::SheetPoint& point : now.points) {
        if (point.read.place != place)
            continue;
        const auto& colour = point.read.colour;
        const QString value = point.unit == mind().unit
                                  ? plainText(point.read.value)
                                  : luminanceText(now.sheet.at(place)->luminance, mind().unit);
        return {value, colour ? plainText(colour->x()) : QString(),
                colour ? plainText(colour->y()) : QString()};
    }
    return {};
}

std::optional<Reading> SheetPresenter::readTyped()
{
    Mind& now = mind();
    const visit::SheetOfSwap was = sheet(m_desk.seen());
    const Typed typed = typedAt(was, now.inHand);
    const auto luminance = luminanceFrom(typed.luminance, now.unit);
    if (!luminance) {
        now.fault = faultWords(luminance.error(), typed.luminance);
        return std::nullopt;
    }
    Reading reading{*luminance, now.unit, std::nullopt};
    if (const auto& stands = was.sheet.at(now.inHand); stands && !typed.isLightTyped)
        reading = {stands->luminance, stands->shownIn, std::nullopt}; // not what a display rounds of it
    if (typed.x.trimmed().isEmpty() && typed.y.trimmed().isEmpty())
        return reading;
    const auto colour = chromaticityFromXy(typed.x, typed.y);
    if (!colour) {
        const QString which = numberFrom(typed.x) ? typed.y : typed.x;
        now.fault = colour.error() == TypedFault::Empty
                        ? tr("A colour has both, x and y: type the other one too.")
                        : faultWords(colour.error(), which);
        return std::nullopt;
    }
    reading.colour = *colour;
    return reading;
}

void SheetPresenter::enter()
{
    Mind& now = mind();
    now.said.clear();
    now.fault.clear();
    const visit::SheetOfSwap was = sheetAsTyped(m_desk.seen());
    if (!now.typed.contains(now.inHand) && was.sheet.at(now.inHand))
        return goOn(); // it stands there as it was read
    const auto reading = readTyped();
    if (!reading)
        return refresh();
    const bool isNew = typedAt(was, now.inHand).isLightTyped;
    now.doubt =
        isNew && was.set ? doubtAbout(*reading, expectedAt(was.sheet, *was.set, now.inHand)) : std::nullopt;
    if (now.doubt)
        return refresh();
    take(*reading);
}

void SheetPresenter::answer(const QString& id)
{
    Mind& now = mind();
    if (now.asksForTheFile) {
        now.asksForTheFile = false;
        const visit::SheetOfSwap was = sheet(m_desk.seen());
        const visit::SheetPoint* point = pointAt(was, now.inHand);
        if (point && id == kWholeFile)
            return takeBackAll(*point);
        ++m_turn;
        return refresh();
    }
    if (!now.doubt)
        return;
    now.doubt.reset();
    now.asksForTheFile = false;
    if (id == kOtherUnit)
        useUnit(otherThan(now.unit));
    const auto reading = id == kAgain ? std::nullopt : readTyped();
    if (reading)
        return take(*reading);
    ++m_turn;
    refresh();
}

void SheetPresenter::take(const Reading& reading)
{
    Mind& now = mind();
    keepWhatCanBe(Keeping::ForAReading);
    const visit::VisitState state = m_desk.seen();
    visit::ScreenRead read;
    read.swap = swap(state).id;
    read.step = m_step;
    read.convention = sheet(state).sheet.convention();
    read.unit = reading.shownIn;
    read.points = {{now.inHand, shownBy(reading), reading.colour}};
    if (!tell(read))
        return refresh();
    now.typed.erase(now.inHand);
    goOn();
}

void SheetPresenter::takeBack()
{
    Mind& now = mind();
    const visit::VisitState state = m_desk.seen();
    const visit::SheetOfSwap was = sheet(state);
    const visit::SheetPoint* point = pointAt(was, now.inHand);
    if (!point)
        return;
    if (broughtBy(state, point->entry) <= 1)
        return takeBackAll(*point);
    now.doubt.reset();
    now.asksForTheFile = true;
    refresh();
}

/// The entry that the reading came with. What is typed at other points stays typed.
void SheetPresenter::takeBackAll(const visit::SheetPoint& point)
{
    if (tell(visit::Withdrawn{point.entry, tr("taken back on the screen sheet")}))
        mind().typed.erase(mind().inHand);
    goTo(mind().inHand);
}

// ---- Entries ----------------------------------------------------------------------------------------------

bool SheetPresenter::tell(const visit::Body& body)
{
    const QStringList no = m_desk.tell(body);
    mind().said = no;
    return no.isEmpty();
}

OwnLimits::Used SheetPresenter::ownLimits(const visit::SheetOfSwap& now) const
{
    return mind().ownLimits.usedOn(now.set, m_sets);
}

bool SheetPresenter::tellAll(Keeping keeping)
{
    const bool areLimitsKept = tellLimits();
    if (!areLimitsKept && !mind().said.isEmpty())
        return false; // refused, and said so
    return tellConditions(keeping) && areLimitsKept;
}

bool SheetPresenter::tellLimits()
{
    const visit::VisitState state = m_desk.seen();
    const auto kept = visit::sheetOf(state, swap(state).id, m_time).set;
    const OwnLimits::Used own = ownLimits(sheet(state));
    if (own.set && kept != own.set && !tell(visit::ScreenLimits{swap(state).id, m_step, *own.set}))
        return false;
    return own.faults.isEmpty();
}

bool SheetPresenter::tellConditions(Keeping keeping)
{
    const visit::VisitState state = m_desk.seen();
    const QMap<QString, QString> faults = formFaults(state);
    const visit::SheetOfSwap now = sheet(state);
    visit::ScreenConditions said = mind().form.soFar(mind().unit);
    said.swap = swap(state).id;
    said.step = m_step;
    said.time = m_time;
    said.conditions = keeping == Keeping::ForAReading || !now.isEmpty()
                          ? sheetAsTyped(state).sheet.conditions()
                          : conditionsAsTyped(state);
    const auto same = [&](const visit::ScreenConditions& before) {
        return before.conditions == said.conditions && before.lumens == said.lumens &&
               before.gain == said.gain && before.transmission == said.transmission;
    };
    if (!(now.said && same(*now.said)) && !tell(said))
        return false;
    if (faults.isEmpty())
        mind().form.fill(said, mind().unit);
    return faults.isEmpty();
}

/// Of what belongs to the sheet before its first reading; what can't be kept yet stays typed and marked.
void SheetPresenter::keepWhatCanBe(Keeping keeping)
{
    mind().said.clear();
    mind().isTouched = !tellAll(keeping);
    mind().said.clear();
}

QMap<QString, QString> SheetPresenter::formFaults(const visit::VisitState& state) const
{
    QMap<QString, QString> faults = mind().form.faults(mind().unit);
    const visit::ScreenConditions said = mind().form.soFar(mind().unit);
    if (visit::litClaimOf(state, swap(state), said.conditions.lit, m_desk.clock().now()).isTooLong)
        faults.insert(u"lit"_s,
                      tr("It had not burnt for that long at the first reading: take the early readings "
                         "back, those that were read anew as well, and read once it has."));
    return faults;
}

bool SheetPresenter::isReadEarly(const visit::VisitState& state, const visit::SheetOfSwap& now) const
{
    Conditions first;
    first.lit = visit::litAtFirstReading(state, swap(state), m_desk.clock().now());
    return m_time == SheetTime::After && !now.isEmpty() && warmUpOf(first) == WarmUp::TooShort;
}

QString SheetPresenter::currentDoubt(const visit::SheetOfSwap& now)
{
    const QString outside = currentText(now);
    return outside.isEmpty()
               ? QString()
               : tr("This is %1. Is it what the machine shows? It is kept as it is typed.").arg(outside);
}

// ---- Limits, conditions -----------------------------------------------------------------------------------

void SheetPresenter::choosePanel(SheetPanel panel)
{
    if (mind().isTouched)
        keepWhatCanBe(Keeping::AsSaid);
    mind().panel = panel;
    refresh();
}

void SheetPresenter::chooseSet(const QString& id)
{
    const auto set = std::ranges::find(m_sets, ToleranceSetId(id), &ToleranceSet::id);
    const visit::VisitState state = m_desk.seen();
    mind().ownLimits.clear();
    if (set != m_sets.end() && tell(visit::ScreenLimits{swap(state).id, m_step, *set}))
        return goOn();
    refresh();
}

void SheetPresenter::setCondition(const QString& id, const QString& text)
{
    mind().form.set(id, text);
    mind().isTouched = true;
    refresh();
}

void SheetPresenter::setOwnLimit(const QString& id, const QString& text)
{
    mind().ownLimits.set(id, text);
    mind().isTouched = true;
    refresh();
}

// ---- A meter's table --------------------------------------------------------------------------------------

void SheetPresenter::giveTable(const QString& text)
{
    mind().sure.clear();
    mind().import.give(text);
    refresh();
}

void SheetPresenter::giveFile(const QString& path)
{
    mind().sure.clear();
    QFile file(path);
    if (file.open(QIODevice::ReadOnly))
        mind().import.give(file);
    else
        mind().import.refuse();
    refresh();
}

void SheetPresenter::mapTable(const QString& id, const QString& answer)
{
    mind().sure.clear();
    mind().import.map(id, answer);
    refresh();
}

void SheetPresenter::takeTable()
{
    Mind& now = mind();
    const visit::SheetOfSwap before = sheet(m_desk.seen());
    const auto rows = now.import.rows(before.sheet.convention(), tableOrders(before));
    if (!rows)
        return refresh();
    ScreenSheet with = before.sheet;
    for (const MeterRow& row : *rows)
        static_cast<void>(with.put(*Point::at(with.convention(), *row.place), row.reading));
    std::optional<Doubt> first;
    std::optional<Luminance> firstExpected;
    std::vector<MeterRow> doubtful; // for the same reason as the first of them
    for (const MeterRow& row : *rows) {
        const auto expected = before.set ? expectedAt(with, *before.set, *row.place) : std::nullopt;
        const auto doubt = doubtAbout(row.reading, expected);
        if (!doubt || now.sure.contains(*row.place) || (first && doubt != first))
            continue;
        if (!first) {
            first = doubt;
            firstExpected = expected;
        }
        doubtful.push_back(row);
    }
    if (first)
        return ask(doubtful, *first, *firstExpected);
    takeRows(*rows);
}

void SheetPresenter::ask(const std::vector<MeterRow>& doubtful, Doubt doubt, Luminance expected)
{
    Mind& now = mind();
    now.asked.clear();
    QStringList others;
    for (const MeterRow& row : doubtful) {
        now.asked.insert(*row.place);
        others.append(nameOf(*row.place));
    }
    const QString first = others.takeFirst();
    const LuminanceUnit unit = now.import.unit();
    QString text = tr("%1: %2").arg(
        first, doubtWords(doubt, plainText(shownBy(doubtful.front().reading)), unit, expected));
    if (!others.isEmpty())
        text += u' ' + tr("The same is asked of: %1.").arg(others.join(u", "_s));
    SheetQuestion question = questionOf(text, doubt, unit);
    question.answers.last().text = tr("Look at it again");
    now.import.ask(question);
    refresh();
}

/// An answer is one about the rows that it was asked of; the others are doubted as before.
void SheetPresenter::answerTable(const QString& id)
{
    Mind& now = mind();
    now.import.ask(std::nullopt);
    if (id == kAsTyped)
        now.sure.insert(now.asked.begin(), now.asked.end());
    else
        now.sure.clear();
    if (id == kOtherUnit)
        now.import.setUnit(otherThan(now.import.unit()));
    if (id == kAgain)
        return refresh();
    takeTable();
}

/// All of them, as one entry.
void SheetPresenter::takeRows(const std::vector<MeterRow>& rows)
{
    Mind& now = mind();
    keepWhatCanBe(Keeping::ForAReading);
    const visit::VisitState state = m_desk.seen();
    visit::ScreenRead read;
    read.swap = swap(state).id;
    read.step = m_step;
    read.convention = sheet(state).sheet.convention();
    read.unit = now.import.unit();
    for (const MeterRow& row : rows)
        read.points.append({*row.place, shownBy(row.reading), row.reading.colour});
    if (!tell(read))
        return refresh();
    for (const MeterRow& row : rows)
        now.typed.erase(*row.place);
    useUnit(read.unit);
    now.import.taken(rows.size() == 1 ? tr("One reading was taken.")
                                      : tr("%1 readings were taken.").arg(rows.size()));
    goOn();
}

// ---- The end ----------------------------------------------------------------------------------------------

void SheetPresenter::done()
{
    Mind& now = mind();
    now.said.clear();
    const auto typed = now.typed.find(now.inHand);
    if (typed != now.typed.end() && !typed->second.isEmpty()) {
        enter();
        if (now.doubt || !now.fault.isEmpty() || !now.said.isEmpty())
            return;
    }
    if (const auto place = leftTyped(sheet(m_desk.seen()))) {
        now.said = {tr("At the point %1 something is typed that was not entered: enter it, or clear it.")
                        .arg(nameOf(*place))};
        return goTo(*place);
    }
    if (m_time == SheetTime::Arrival)
        return leave();
    const visit::VisitState state = m_desk.seen();
    if (!formFaults(state).isEmpty()) {
        now.panel = SheetPanel::Conditions;
        now.said = {tr("Put right what is marked among the conditions first.")};
        return refresh();
    }
    if (!ownLimits(sheet(state)).faults.isEmpty()) {
        now.panel = SheetPanel::Verdicts;
        now.said = {tr("Put right what is marked among your own targets first.")};
        return refresh();
    }
    visit::Did did;
    did.swap = swap(state).id;
    did.step = m_step;
    if (tellAll(Keeping::AsSaid) && tell(did))
        return Q_EMIT finished();
    refresh();
}

void SheetPresenter::owe()
{
    keepWhatCanBe(Keeping::AsSaid);
    if (tell(visit::Owed{swap(m_desk.seen()).id, m_step}))
        return Q_EMIT finished();
    refresh();
}

void SheetPresenter::leave()
{
    if (mind().isTouched)
        keepWhatCanBe(Keeping::AsSaid);
    Q_EMIT left();
}

// ---- The view ---------------------------------------------------------------------------------------------

bool SheetPresenter::wantsColour(const visit::SheetOfSwap& now) const
{
    const bool isOfWhite =
        now.set && (now.set->limitOn(Quantity::WhiteX) || now.set->limitOn(Quantity::ColourTemperature));
    if (mind().inHand == Place::Centre)
        return isOfWhite;
    return std::ranges::any_of(now.points, [](const visit::SheetPoint& point) {
        return point.read.place != Place::Centre && point.read.colour.has_value();
    });
}

std::optional<SheetQuestion> SheetPresenter::question(const visit::SheetOfSwap& now,
                                                      const visit::VisitState& state) const
{
    const Mind& m = mind();
    const visit::SheetPoint* point = pointAt(now, m.inHand);
    if (m.asksForTheFile && point)
        return SheetQuestion{tr("It came with a file: all %1 readings of the file are taken back with it.")
                                 .arg(broughtBy(state, point->entry)),
                             {{kWholeFile, tr("Take all of them back")}, {kAgain, tr("Leave them")}}};
    if (!m.doubt)
        return std::nullopt;
    const auto expected = now.set ? expectedAt(now.sheet, *now.set, m.inHand) : std::nullopt;
    return questionOf(doubtWords(*m.doubt, typedAt(now, m.inHand).luminance.trimmed(), m.unit,
                                 expected.value_or(Luminance::fromCdPerM2(0))),
                      *m.doubt, m.unit);
}

void SheetPresenter::showEntry(SheetView& view, const visit::VisitState& state,
                               const visit::SheetOfSwap& now) const
{
    const Mind& m = mind();
    const Typed typed = typedAt(now, m.inHand);
    view.pointName = nameOf(m.inHand);
    view.luminance = typed.luminance;
    view.x = typed.x;
    view.y = typed.y;
    view.wantsColour = wantsColour(now);
    view.fault = m.fault;
    view.said = m.said.join(u'\n');
    view.turn = m_turn;
    view.isFilled = !nextOpen(now) && !m.typed.contains(m.inHand);
    view.unit.label = tr("The meter shows (F7)");
    view.unit.chosen = wordOf(m.unit);
    for (const LuminanceUnit unit : {LuminanceUnit::CdPerM2, LuminanceUnit::FootLamberts})
        view.unit.options.append({wordOf(unit), nameOf(unit)});
    view.question = question(now, state);
    view.canTakeBack = pointAt(now, m.inHand) != nullptr;
}

void SheetPresenter::showVerdicts(SheetView& view, const visit::SheetOfSwap& now) const
{
    for (const ToleranceSet& set : m_sets)
        view.set.options.append({set.id.text(), set.name});
    view.set.label = tr("Held against");
    view.xy = xyViewOf(now);
    for (const EvennessNumber& number : evennessOf(now.sheet))
        view.evenness.append(wordsOf(number));
    if (!now.set || !now.verdict) {
        view.whole = tr("Nothing to hold it against");
        return;
    }
    view.set.chosen = now.set->id.text();
    view.setSource =
        tr("%1, edition %2; %3; %4")
            .arg(now.set->source, now.set->edition, nameOf(now.set->roomClass), nameOf(now.set->convention));
    view.ownLimits = mind().ownLimits.fields(now.set, m_sets);
    view.verdicts = verdictLinesOf(*now.verdict);
    view.notes = notesOf(*now.verdict);
    view.claim = claimOf(*now.verdict);
    view.whole = wordsOf(wholeOf(*now.verdict));
    view.wholeSign = signOf(wholeOf(*now.verdict));
}

void SheetPresenter::showForm(SheetView& view, const visit::VisitState& state,
                              const visit::SheetOfSwap& now) const
{
    const auto watched = visit::litSinceStrike(swap(state), m_desk.clock().now());
    const QString hint =
        watched ? tr("%1 so far").arg(std::chrono::floor<std::chrono::minutes>(*watched).count()) : QString();
    view.form = mind().form.fields(mind().unit, hint);
    const QMap<QString, QString> faults = formFaults(state);
    for (SheetField& field : view.form)
        field.field.error = faults.value(field.id, field.id == u"amperes" ? currentDoubt(now) : QString());
    view.conditions = conditionsLine(now.sheet.conditions());
    if (now.expected)
        view.expected = tr("The screen should show %1 (%2), on the average of its face.")
                            .arg(withUnit(*now.expected, LuminanceUnit::CdPerM2),
                                 withUnit(*now.expected, LuminanceUnit::FootLamberts));
    else
        view.expected =
            tr("With the picture's width and shape, the projector's light and the screen's gain the "
               "expected light is worked out.");
}

void SheetPresenter::showAction(SheetView& view, const visit::VisitState& state,
                                const visit::SheetOfSwap& now) const
{
    const procedure::Step* step = swap(state).step(m_step);
    const bool isAfter = m_time == SheetTime::After;
    view.title = step ? step->title : QString();
    view.time = !isAfter                ? tr("under the lamp that was found")
                : swap(state).followsUp ? tr("under the lamp that is in")
                                        : tr("under the new lamp");
    view.action.stepKey = u"sheet/"_s + m_key;
    view.action.text = isAfter ? tr("The screen is measured") : tr("Back to the bench with it");
    view.action.stand = ActionView::Stand::Ready;
    if (isAfter && !now.sheet.at(Place::Centre) && !mind().typed.contains(Place::Centre)) {
        view.action.stand = ActionView::Stand::Asks;
        view.action.waits = tr("Waits: a reading of the centre");
    }
    view.canOwe = isAfter && step && step->mayFollow;
}

SheetView SheetPresenter::viewOf(const visit::VisitState& state) const
{
    const visit::SheetOfSwap now = sheetAsTyped(state);
    SheetView view;
    view.place = m_desk.placeOf(state, swap(state));
    view.panel = mind().panel;
    view.aspect = now.sheet.conditions().screen ? now.sheet.conditions().screen->aspect() : kUsualAspect;
    view.points = pointViewsOf(now, mind().unit, mind().inHand);
    if (!now.elsewhere.empty())
        view.elsewhere = tr("%1 readings stand at the points of another convention: kept, and not mixed in.")
                             .arg(now.elsewhere.size());
    showEntry(view, state, now);
    showVerdicts(view, now);
    showForm(view, state, now);
    showAction(view, state, now);
    view.import = mind().import.view(now.sheet.convention(), tableOrders(now));
    const auto comparison = visit::comparisonOf(state, swap(state).id);
    view.comparison = comparisonWords(comparison);
    if (comparison)
        view.changes = changeLinesOf(*comparison, mind().unit);
    if (isReadEarly(state, now)) {
        const QString wayOut =
            tr("The first reading came too early. Once the lamp has burnt for 20 minutes: take the "
               "early readings back, those that were read anew as well, and read again.");
        view.notes.append(wayOut);
        if (comparison)
            view.comparison += u' ' + wayOut;
    }
    return view;
}

void SheetPresenter::refresh()
{
    if (m_key.isEmpty())
        return;
    const SheetView view = viewOf(m_desk.seen());
    if (view == m_view)
        return;
    m_view = view;
    Q_EMIT viewChanged(m_view);
}

} // namespace coldarc::ui
