#include "app/walker.h"

#include "core/visit/light_of_visit.h"
#include "ui/visit/bench_captures.h"

#include <QApplication>
#include <QDir>
#include <QLineEdit>
#include <QTest>

#include <algorithm>
#include <array>

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::app {
namespace {

constexpr int kMostTurnsHere = 60; // presses in front of one step before it counts as stuck
constexpr int kMostTurns = 6000;
constexpr std::uint64_t kLampSeed = 3;

bool isOfTheLight(const procedure::Step& step)
{
    using machine::Effect;
    const bool isReading =
        std::any_of(step.captures.begin(), step.captures.end(), [](const procedure::Capture& capture) {
            return capture.kind == procedure::CaptureKind::Reading;
        });
    return step.effect == Effect::Peak || step.effect == Effect::PeakAgain || step.effect == Effect::Settle ||
           step.effect == Effect::MeasureScreen || (step.effect == Effect::Look && isReading);
}

} // namespace

Walker::Walker(ui::VisitPage& room, const ui::VisitDesk& desk, WalkClock& clock, QString pictures,
               QList<NewLamp> lamps, Refusals refusals, Labels labels)
    : m_room(room)
    , m_desk(desk)
    , m_clock(clock)
    , m_folder(std::move(pictures))
    , m_lamps(std::move(lamps))
    , m_wanted(refusals)
    , m_labels(labels)
{
}

bool Walker::walk()
{
    for (int count = 0; count < kMostTurns; ++count) {
        settle();
        if (!m_desk.logbook().state().end.isEmpty()) {
            picture(u"closed"_s);
            return true;
        }
        if (isStuck()) {
            picture(u"stuck"_s);
            return false;
        }
        QWidget* page = pageInSight();
        if (auto* bench = qobject_cast<ui::BenchPage*>(page)) {
            turnOfBench(*bench);
        } else if (auto* bookIn = qobject_cast<ui::BookInPage*>(page)) {
            turnOfBookIn(*bookIn);
        } else if (auto* sheet = qobject_cast<ui::SheetPage*>(page)) {
            turnOfSheet(*sheet);
        } else if (auto* light = qobject_cast<ui::LightPage*>(page)) {
            turnOfLight(*light);
        } else if (auto* signOff = qobject_cast<ui::SignOffPage*>(page)) {
            pictureOf(u"sign "_s + signOff->view().action.text);
            goOn(*page, signOff->view().asks);
        } else {
            m_trouble.append(u"a page that nobody asked for: %1"_s.arg(page->objectName()));
            return false;
        }
    }
    m_trouble.append(u"it never ends"_s);
    return false;
}

QWidget* Walker::pageInSight() const
{
    for (QWidget* child : m_room.findChildren<QWidget*>(QString(), Qt::FindDirectChildrenOnly)) {
        if (child->isVisible())
            return child;
    }
    return &m_room;
}

void Walker::settle()
{
    const QString before = m_room.bench().view().card.stepKey;
    m_clock.advance(1s); // a step just shown takes no press at once
    m_room.scanner().lookAgain();
    m_room.refresh();
    if (m_room.bench().view().card.stepKey != before)
        m_clock.advance(1s);
    QApplication::sendPostedEvents();
    QApplication::processEvents();
}

bool Walker::isStuck()
{
    const ui::StepCard& card = m_room.bench().view().card;
    const QString place = u"%1/%2/%3/%4"_s.arg(pageInSight()->objectName(), card.stepKey)
                              .arg(entries())
                              .arg(card.wait ? card.wait->number : QString());
    m_turnsHere = place == m_place ? m_turnsHere + 1 : 0;
    m_place = place;
    if (m_turnsHere < kMostTurnsHere)
        return false;
    m_trouble.append(u"stuck at %1: %2 %3"_s.arg(card.title, card.action.waits, card.sub));
    return true;
}

const procedure::Step* Walker::step() const
{
    const auto& swaps = m_desk.logbook().state().swaps;
    const QString key = m_room.bench().view().card.stepKey;
    return swaps[m_room.bench().swapInHand()].step(StepId(key.section(u'/', 1, 1)));
}

Walker::Tally& Walker::tally()
{
    const procedure::Step* now = step();
    if (m_isVain)
        return m_vain;
    return now && isOfTheLight(*now) ? m_light : m_plain;
}

void Walker::turnOfBench(ui::BenchPage& page)
{
    const ui::StepCard card = page.view().card;
    pictureOf(card.phase);
    const procedure::Step* now = step();
    const bool isGear = now && now->effect == machine::Effect::GearOn;
    if (card.wait && card.action.stand == ui::ActionView::Stand::Waits)
        hold(page);
    else if (isGear && !m_triedGear && m_wanted == Refusals::OnePerGate)
        tryWithBadGear(page);
    else
        goOn(page, card.captures);
}

void Walker::hold(ui::BenchPage& page)
{
    const ui::StepCard card = page.view().card;
    if (m_wanted == Refusals::OnePerGate && !m_pictured.contains(card.title)) {
        pictureOf(card.title);
        m_isVain = true;
        const qint64 before = entries();
        key(Qt::Key_PageDown);
        m_isVain = false;
        if (entries() != before)
            m_trouble.append(u"a press in a wait was taken"_s);
        m_refusals.append(u"%1: %2"_s.arg(card.title, page.view().card.action.waits));
    }
    m_clock.advance(30s);
}

void Walker::tryWithBadGear(ui::BenchPage& page)
{
    m_triedGear = true;
    m_isVain = true;
    const QList<ui::CaptureView> captures = page.view().card.captures;
    const qint64 before = entries();
    for (qsizetype index = 0; index < captures.size(); ++index)
        key(index == 0 ? Qt::Key_2 : Qt::Key_1);
    settle();
    key(Qt::Key_PageDown);
    if (entries() != before)
        m_trouble.append(u"gear that is not fit was taken"_s);
    settle();
    picture(u"refused gear"_s);
    m_refusals.append(u"Geared, with one item not fit to wear: %1"_s.arg(page.view().card.sub +
                                                                         page.view().card.action.waits));
    if (auto* first = page.findChild<QWidget*>(u"capture-"_s + captures.first().id))
        first->setFocus();
    key(Qt::Key_1);
    m_isVain = false;
}

/// Item and serial in a GS1 Data Matrix, as a scanner sends it.
QString Walker::codeOnLabel() const
{
    const auto ground = m_desk.logbook().state().ground;
    for (const catalogue::LampType& type : ground->catalogue.lampTypes()) {
        if (type.code == newLamp().code && !type.packageCodes.isEmpty())
            return u"]d201"_s + type.packageCodes.first().rightJustified(14, u'0') + u"21"_s +
                   newLamp().serial;
    }
    return {};
}

void Walker::scan(const QString& text)
{
    ++tally().scans;
    for (const QChar letter : text) {
        m_clock.advance(2ms);
        QTest::sendKeyEvent(QTest::Click, QApplication::focusWidget(),
                            static_cast<Qt::Key>(letter.toUpper().unicode()), QString(letter),
                            Qt::NoModifier);
    }
    m_clock.advance(2ms);
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
}

bool Walker::scanOrChoose(const ui::BookInView& card)
{
    const bool isBookIn = card.columns.last().id == u"marking";
    const ui::BookInColumn& asked = isBookIn ? card.columns.last() : card.columns.first();
    if (isBookIn && asked.type.text.isEmpty() &&
        (!asked.takesCodes || asked.holdsCode)) { // that it is the lamp's own is said by a press
        m_room.findChild<QWidget*>(u"marking-codes"_s)->setFocus();
        key(Qt::Key_Return);
        return true;
    }
    if (asked.takesCodes) {
        scan(codeOnLabel());
        return true;
    }
    const auto isMeant = [this](const ui::PersonAct& lamp) {
        return lamp.text == newLamp().code && lamp.sub == newLamp().serial &&
               lamp.stand == ui::PersonAct::Stand::Open;
    };
    const auto lamp = std::find_if(card.atHand.begin(), card.atHand.end(), isMeant);
    if (lamp == card.atHand.end())
        return false;
    key(Qt::Key_F6 + static_cast<int>(lamp - card.atHand.begin()));
    return true;
}

void Walker::turnOfBookIn(ui::BookInPage& page)
{
    if (m_labels == Labels::Scanned && scanOrChoose(page.view()))
        return pictureOf(u"scanned %1"_s.arg(page.view().scanSays));
    goOn(page, page.view().rest);
    settle();
    const bool isAsked = openChoice(page, page.view().rest); // what it waits for may be that answer
    if (pageInSight() != &page || page.view().waits.isEmpty() || isAsked)
        return;
    if (m_triedType || m_wanted == Refusals::None)
        m_trouble.append(u"not taken: %1"_s.arg(page.view().waits.join(u"; "_s)));
    else
        putTypeRight(page);
}

/// The conditions from field to field, then back to the reading in hand.
void Walker::sayConditions(ui::SheetPage& page)
{
    static const QHash<QString, QString> kSaid{
        {u"field-meter"_s, u"Spot 2"_s}, {u"field-calibrated"_s, u"2026-03-02"_s},
        {u"field-acceptance"_s, u"1"_s}, {u"field-distance"_s, u"13"_s},
        {u"field-format"_s, u"Scope"_s}, {u"field-dark"_s, u"0.02"_s},
        {u"field-watts"_s, u"2100"_s}};
    if (page.view().panel != ui::SheetPanel::Conditions)
        return key(Qt::Key_F3);
    auto* box = qobject_cast<QLineEdit*>(QApplication::focusWidget());
    const QString field = box ? box->parentWidget()->objectName() : QString();
    if (box && box->text().isEmpty() && kSaid.contains(field))
        type(*box, kSaid.value(field));
    m_saidConditions = field == u"field-watts";
    key(m_saidConditions ? Qt::Key_F2 : Qt::Key_Return);
}

void Walker::turnOfSheet(ui::SheetPage& page)
{
    struct Seen {
        const char16_t* place;
        const char16_t* light; ///< cd/m2, invented
    };
    static constexpr std::array<Seen, 3> kSeen{
        {{u"centre", u"47.6"}, {u"left", u"40.9"}, {u"right", u"39.8"}}};
    static const QHash<QString, QString> kWhite{{u"x"_s, u"0.3152"_s}, {u"y"_s, u"0.3524"_s}};
    if (!m_saidConditions)
        return sayConditions(page);
    if (page.view().isFilled) {
        pictureOf(u"screen sheet"_s);
        return key(Qt::Key_Return);
    }
    auto* box = qobject_cast<QLineEdit*>(QApplication::focusWidget());
    const auto point = std::find_if(page.view().points.begin(), page.view().points.end(),
                                    [](const ui::SheetPointView& one) { return one.isInHand; });
    if (box && box->text().isEmpty() && point != page.view().points.end()) {
        const auto seen = std::find_if(kSeen.begin(), kSeen.end(),
                                       [&](const Seen& one) { return point->id == QStringView(one.place); });
        const QString name = box->parentWidget()->objectName();
        const QString text = name == u"luminance" && seen != kSeen.end() ? QString::fromUtf16(seen->light)
                                                                         : kWhite.value(name);
        type(*box, text);
    }
    key(Qt::Key_Return);
}

void Walker::putTypeRight(ui::BookInPage& page)
{
    m_triedType = true;
    picture(u"refused type"_s);
    m_refusals.append(
        u"Matched, with one letter of the type wrong: %1"_s.arg(page.view().waits.join(u"; "_s)));
    auto* entry = page.findChild<QWidget*>(u"entry-type"_s);
    if (auto* box = entry ? entry->findChild<QLineEdit*>() : nullptr) {
        m_isVain = true;
        box->setFocus();
        box->selectAll();
        type(*box, newLamp().code);
        m_isVain = false;
    }
}

/// Turns as the page says, at a light that answers, and types what the meter shows.
void Walker::turnOfLight(ui::LightPage& page)
{
    const visit::VisitState& state = m_desk.logbook().state();
    const visit::SwapState& swap = state.swaps[m_room.bench().swapInHand()];
    const visit::LightOfSwap light = visit::lightOf(state, swap.id);
    pictureOf(u"light "_s + page.view().axesTitle + page.view().action.text);
    if (!m_lamp)
        m_lamp.emplace(alignment::testLampFor(light.run.setup), kLampSeed);
    if (page.view().wait) {
        m_clock.advance(30s);
        if (!m_hasSettled)
            m_lamp->settle();
        m_hasSettled = true;
        return;
    }
    if (page.view().isFinishing)
        return key(Qt::Key_Return);
    for (const alignment::Move& move : light.advice().moves)
        m_lamp->turn(move);
    m_clock.advance(20s);
    if (auto* box = qobject_cast<QLineEdit*>(QApplication::focusWidget()))
        type(*box, QString::number(m_lamp->read(), 'f', 1));
    key(Qt::Key_Return);
}

bool Walker::isHere(const QString& points) const
{
    const visit::VisitState& state = m_desk.logbook().state();
    const site::SiteDocument& site = state.ground->opening.site;
    const visit::SwapState& swap = state.swaps[m_room.bench().swapInHand()];
    QStringList names;
    for (const PointId& point : site.pointsFeeding(state.ground->lamphouses[swap.lamphouse]))
        names.append(site.point(point)->name);
    return points == names.join(u"; "_s);
}

void Walker::goOn(QWidget& page, const QList<ui::CaptureView>& asks)
{
    auto* box = qobject_cast<QLineEdit*>(QApplication::focusWidget());
    if (box && page.isAncestorOf(box)) {
        if (const QString text = textFor(*box); box->text().isEmpty() && !text.isEmpty())
            type(*box, text);
        settle();
        if (qobject_cast<ui::BookInPage*>(&page))
            pictureOf(u"book in "_s + box->accessibleName());
        return key(Qt::Key_Return);
    }
    const ui::CaptureView* choice = openChoice(page, asks);
    if (!choice)
        return key(Qt::Key_Return);
    const auto right = std::find_if(
        choice->options.begin(), choice->options.end(), [&](const ui::CaptureView::Option& option) {
            return option.id == newLamp().code || (choice->id == u"point" && isHere(option.id));
        });
    const auto number = right == choice->options.end() ? 0 : right - choice->options.begin();
    key(Qt::Key_1 + static_cast<int>(number));
}

const ui::CaptureView* Walker::openChoice(QWidget& page, const QList<ui::CaptureView>& asks) const
{
    for (auto* panel : page.findChildren<ui::CapturePanel*>()) {
        for (const ui::CaptureAnswer& answer : panel->answers()) {
            const auto asked = std::find_if(asks.begin(), asks.end(), [&](const ui::CaptureView& one) {
                return one.id == answer.id && one.kind == ui::CaptureView::Kind::Choice;
            });
            if (asked != asks.end() && answer.value.isEmpty())
                return &*asked;
        }
    }
    return nullptr;
}

void Walker::type(QLineEdit& box, const QString& text)
{
    Tally& here = tally();
    const visit::VisitState& state = m_desk.logbook().state();
    const bool isInGear = state.machine.person[state.lead].gear == machine::Gear::Worn;
    for (const QChar letter : text) {
        m_clock.advance(120ms); // no scanner is as slow
        QTest::keyClicks(&box, letter);
    }
    m_clock.advance(120ms);
    m_room.scanner().lookAgain();
    here.typed += static_cast<int>(text.size());
    here.typedInGear += isInGear ? static_cast<int>(text.size()) : 0;
}

void Walker::key(int key)
{
    ++tally().presses;
    QWidget* focus = QApplication::focusWidget();
    QWidget* here = focus && pageInSight()->isAncestorOf(focus) ? focus : pageInSight();
    const auto press = [&] { QTest::keyClick(here, static_cast<Qt::Key>(key)); };
    if (m_watch)
        m_watch(press);
    else
        press();
}

/// What is written into a box, by the name of the question around it; empty: it stays so.
QString Walker::textFor(const QLineEdit& box) const
{
    static const QHash<QString, QString> kTexts{
        {u"capture-name"_s, u"C. Moor"_s}, {u"capture-role"_s, u"duty"_s},   {u"capture-who"_s, u"C. Moor"_s},
        {u"capture-lock"_s, u"47"_s},      {u"capture-strikes"_s, u"337"_s}, {u"capture-tools"_s, u"8"_s},
        {u"capture-fasteners"_s, u"12"_s}, {u"capture-count"_s, u"8 12"_s},
    };
    const visit::VisitState& state = m_desk.logbook().state();
    const visit::SwapState& swap = state.swaps[m_room.bench().swapInHand()];
    const QString threshold = QString::number(swap.thresholdHours.value_or(0));
    const auto& contacts = state.ground->opening.site.site.contacts;
    for (const QWidget* around = &box; around; around = around->parentWidget()) {
        const QString name = around->objectName();
        if (name == u"capture-hours")
            return step() && step()->effect == machine::Effect::KeyController ? u"0"_s : u"1380"_s;
        if (name == u"capture-threshold")
            return threshold;
        if (name == u"entry-type" && m_wanted == Refusals::OnePerGate && !m_triedType)
            return newLamp().code.chopped(1) + u'X';
        if (name.endsWith(u"-type"_s))
            return newLamp().code;
        if (name.endsWith(u"-serial"_s))
            return newLamp().serial;
        if (name == u"capture-name" && !contacts.empty())
            return contacts.front().name;
        if (kTexts.contains(name))
            return kTexts.value(name);
    }
    return {};
}

void Walker::pictureOf(const QString& part)
{
    if (m_pictured.contains(part))
        return;
    m_pictured.insert(part);
    picture(part);
}

void Walker::picture(const QString& name)
{
    if (m_folder.isEmpty())
        return;
    QString plain = name.toLower();
    for (QChar& letter : plain) {
        if (!letter.isLetterOrNumber())
            letter = u'-';
    }
    const QString file =
        QDir(m_folder).filePath(u"%1-%2.png"_s.arg(m_taken.size() + 1, 2, 10, QLatin1Char('0')).arg(plain));
    if (m_room.window()->grab().save(file))
        m_taken.append(file);
}

} // namespace coldarc::app
