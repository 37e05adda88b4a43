#include "app/walker.h"

#include <QApplication>
#include <QDir>
#include <QLineEdit>
#include <QTest>

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::app {
namespace {

constexpr int kMostTries = 4;
constexpr int kMostTurns = 4000;

} // namespace

Walker::Walker(ui::VisitPage& room, const ui::VisitDesk& desk, WalkClock& clock, QString pictures,
               QList<NewLamp> lamps)
    : m_room(room)
    , m_desk(desk)
    , m_clock(clock)
    , m_folder(std::move(pictures))
    , m_lamps(std::move(lamps))
{
}

bool Walker::walk()
{
    for (int count = 0; count < kMostTurns; ++count) {
        switch (turn()) {
        case Turn::Over:
            picture(u"closed"_s);
            return true;
        case Turn::Stuck:
            picture(u"stuck"_s);
            return false;
        default:
            break;
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
    m_clock.advance(1s); // a step just shown takes no press at once
    m_room.refresh();
    QApplication::sendPostedEvents();
    QApplication::processEvents();
}

Walker::Turn Walker::turn()
{
    settle();
    const visit::VisitState& state = m_desk.logbook().state();
    if (!state.end.isEmpty())
        return Turn::Over;
    QWidget* page = pageInSight();
    if (auto* bench = qobject_cast<ui::BenchPage*>(page))
        return turnOfBench(*bench);
    return turnOfOther(*page);
}

Walker::Turn Walker::turnOfOther(QWidget& page)
{
    const qint64 before = entries();
    const QString kind = QString::fromLatin1(page.metaObject()->className()).section(u':', -1);
    if (auto* bookIn = qobject_cast<ui::BookInPage*>(&page)) {
        if (!m_triedType)
            tryWithWrongType(*bookIn);
        fillBookIn(*bookIn);
    } else {
        answer(page, qobject_cast<ui::SignOffPage*>(&page) ? static_cast<ui::SignOffPage&>(page).view().asks
                                                           : QList<ui::CaptureView>());
    }
    settle();
    if (m_tries == 0)
        picture(kind);
    key(Qt::Key_Return);
    const bool went = entries() > before || pageInSight() != &page;
    m_tries = went ? 0 : m_tries + 1;
    if (m_tries <= kMostTries)
        return went ? Turn::Went : Turn::Held;
    m_trouble.append(u"stuck at %1"_s.arg(kind));
    return Turn::Stuck;
}

void Walker::tryInVain(const QString& what, const QString& answer)
{
    m_refusals.append(u"%1: %2"_s.arg(what, answer));
}

void Walker::tryWithBadGear(ui::BenchPage& page)
{
    m_triedGear = true;
    const QList<ui::CaptureView> captures = page.view().card.captures;
    const qint64 before = entries();
    for (qsizetype index = 0; index < captures.size(); ++index)
        key(index == 0 ? Qt::Key_2 : Qt::Key_1);
    settle();
    key(Qt::Key_PageDown);
    if (entries() != before) {
        m_trouble.append(u"gear that is not fit was taken"_s);
        return;
    }
    picture(u"refused gear"_s);
    tryInVain(u"Geared, with one item not fit to wear"_s,
              page.view().card.sub + page.view().card.action.waits);
    if (auto* first = page.findChild<QWidget*>(u"capture-"_s + captures.first().id))
        first->setFocus();
    key(Qt::Key_1);
}

void Walker::tryWithWrongType(ui::BookInPage& page)
{
    m_triedType = true;
    const NewLamp right = m_lamps.value(m_room.bench().swapInHand());
    NewLamp wrong = right;
    wrong.code.back() = wrong.code.back() == u'X' ? u'Y' : u'X';
    m_lamps[m_room.bench().swapInHand()] = wrong;
    auto* entry = page.findChild<QWidget*>(u"entry-type"_s);
    auto* box = entry ? entry->findChild<QLineEdit*>() : nullptr;
    if (!box) {
        m_lamps[m_room.bench().swapInHand()] = right;
        return;
    }
    type(*box, wrong.code);
    m_lamps[m_room.bench().swapInHand()] = right;
    fillBookIn(page);
    settle();
    key(Qt::Key_Return);
    settle();
    if (pageInSight() != &page) {
        m_trouble.append(u"a type that differs was taken"_s);
        return;
    }
    picture(u"refused type"_s);
    tryInVain(u"Matched, with one letter of the type wrong"_s, page.view().waits.join(u"; "_s));
    box->clear();
    type(*box, right.code);
}

Walker::Turn Walker::turnOfBench(ui::BenchPage& page)
{
    const ui::StepCard card = page.view().card;
    if (m_lastKey != card.stepKey) {
        m_lastKey = card.stepKey;
        m_tries = 0;
    }
    if (!m_pictured.contains(card.phase)) {
        m_pictured.insert(card.phase, {});
        picture(card.phase);
    }
    if (!m_triedGear && card.captures.size() > 3 &&
        m_desk.seen().swaps[m_room.bench().swapInHand()].step(StepId(u"gear-on"_s)) != nullptr &&
        card.stepKey.contains(u"gear-on"_s))
        tryWithBadGear(page);
    else
        answer(page, card.captures);
    settle();
    const bool isHeld =
        page.view().card.wait.has_value() && page.view().card.action.stand == ui::ActionView::Stand::Waits;
    if (isHeld && !m_pictured.contains(card.title)) {
        m_pictured.insert(card.title, {});
        picture(u"hold "_s + card.title);
        const qint64 before = entries();
        key(Qt::Key_PageDown);
        if (entries() != before)
            m_trouble.append(u"a press in a wait was taken"_s);
        tryInVain(card.title, page.view().card.action.waits);
    }
    if (isHeld) {
        m_clock.advance(30s);
        return Turn::Held;
    }
    const qint64 before = entries();
    key(Qt::Key_PageDown);
    const bool went =
        entries() > before || pageInSight() != &page || page.view().card.stepKey != card.stepKey;
    if (went || ++m_tries <= kMostTries)
        return went ? Turn::Went : Turn::Held;
    m_trouble.append(
        u"stuck at %1: %2 %3"_s.arg(card.title, page.view().card.action.waits, page.view().card.sub));
    return Turn::Stuck;
}

void Walker::fillBookIn(ui::BookInPage& page)
{
    const NewLamp lamp = m_lamps.value(m_room.bench().swapInHand());
    for (QLineEdit* box : page.findChildren<QLineEdit*>()) {
        const QString name = box->parentWidget() ? box->parentWidget()->objectName() : QString();
        if (!box->isVisible() || !box->text().isEmpty())
            continue;
        if (name.endsWith(u"-type"_s))
            type(*box, lamp.code);
        else if (name.endsWith(u"-serial"_s))
            type(*box, lamp.serial);
    }
    answer(page, page.view().rest);
}

void Walker::answer(QWidget& page, const QList<ui::CaptureView>& captures)
{
    for (const ui::CaptureView& capture : captures) {
        if (!capture.value.isEmpty())
            continue;
        auto* widget = page.findChild<QWidget*>(u"capture-"_s + capture.id);
        if (capture.kind == ui::CaptureView::Kind::Choice || capture.kind == ui::CaptureView::Kind::Ticks) {
            if (widget)
                widget->setFocus();
            key(Qt::Key_1);
            continue;
        }
        auto* box = widget ? widget->findChild<QLineEdit*>() : nullptr;
        if (box && box->text().isEmpty())
            type(*box, textFor(capture));
    }
}

void Walker::type(QLineEdit& box, const QString& text)
{
    box.setFocus();
    QTest::keyClicks(&box, text);
    m_typed += static_cast<int>(text.size());
}

void Walker::key(int key)
{
    QWidget* focus = QApplication::focusWidget();
    QTest::keyClick(focus && pageInSight()->isAncestorOf(focus) ? focus : pageInSight(),
                    static_cast<Qt::Key>(key));
    ++m_presses;
}

QString Walker::textFor(const ui::CaptureView& capture) const
{
    static const QHash<QString, QString> kTexts{
        {u"contact"_s, u"C. Moor"_s},
        {u"name"_s, u"C. Moor"_s},
        {u"role"_s, u"duty manager"_s},
        {u"who"_s, u"C. Moor"_s},
        {u"lock"_s, u"47"_s},
        {u"gap"_s, u"180"_s},
        {u"stands"_s, u"Okoro"_s},
        {u"shut"_s, u"both"_s},
        {u"point"_s, u"B 14"_s},
        {u"moved"_s, u"B 14"_s},
        {u"tester"_s, u"none"_s},
        {u"hours"_s, u"1380"_s},
        {u"threshold"_s, u"900"_s},
        {u"fasteners"_s, u"12"_s},
        {u"tools"_s, u"9"_s},
        {u"count"_s, u"9, 12"_s},
        {u"type"_s, m_lamps.value(m_room.bench().swapInHand()).code},
    };
    return kTexts.value(capture.id, u"12"_s);
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
