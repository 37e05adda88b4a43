#include "tests/app/workbench_fixture.h"

#include "app/demo.h"
#include "app/visit_room.h"
#include "core/store/workspace_file.h"
#include "ui/parts/combo_field.h"
#include "ui/parts/field.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/text_label.h"
#include "ui/visit/bench_page.h"
#include "ui/visit/book_in_page.h"

#include <QAbstractItemView>
#include <QApplication>
#include <QComboBox>
#include <QDir>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPointer>
#include <QSet>
#include <QTest>

#include <algorithm>

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::app {
namespace {

const QString kPassphrase = u"a long walk by the river"_s;

} // namespace

const Library& library()
{
    static const Library kLibrary(test::sourceFile("resources"));
    return kLibrary;
}

ui::Theme& theme()
{
    static ui::Theme kTheme(*qApp);
    return kTheme;
}

void Hand::press(const QString& name)
{
    settle();
    if (auto* button = find<QAbstractButton>(name))
        press(*button);
}

void Hand::press(QAbstractButton& button)
{
    ++presses;
    QTest::mouseClick(&button, Qt::LeftButton);
    settle();
}

void Hand::key(Qt::Key key, Qt::KeyboardModifiers with)
{
    ++presses;
    QWidget* focus = QApplication::focusWidget();
    QTest::keyClick(focus && m_window->isAncestorOf(focus) ? focus : m_window, key, with);
    settle();
}

void Hand::write(const QString& text, QWidget* at)
{
    for (const QChar letter : text) {
        m_clock.advance(120ms); // no scanner is as slow
        QTest::keyClicks(at, letter);
    }
    typed += static_cast<int>(text.size());
    settle();
}

void Hand::type(const QString& field, const QString& text)
{
    auto* whole = find<QWidget>(field);
    auto* box = whole ? whole->findChild<QLineEdit*>() : nullptr;
    ASSERT_TRUE(box) << field.toStdString();
    if (!box->hasFocus())
        ++presses; // a Tab or a click to get there
    box->setFocus();
    box->selectAll();
    write(text, box);
}

void Hand::choose(const QString& combo, const QString& id)
{
    auto* whole = find<ui::ComboField>(combo);
    ASSERT_TRUE(whole) << combo.toStdString();
    const int index = whole->box()->findData(id);
    ASSERT_GE(index, 0) << id.toStdString();
    whole->box()->setCurrentIndex(index);
    Q_EMIT whole->box()->activated(index);
    presses += 2;
    settle();
}

void Hand::settle()
{
    m_clock.advance(1s);
    for (auto* page : m_window->findChildren<ui::VisitPage*>())
        page->scanner().lookAgain();
    QApplication::sendPostedEvents();
    for (int count = 0; count < 3; ++count)
        QApplication::processEvents();
}

void WorkbenchTest::open()
{
    store::OpenAnswer opened = store::openWorkspace(file(), {u"workspace-1"_s, clock.now().wall});
    ASSERT_TRUE(opened.database) << opened.detail.toStdString();
    bench = std::make_unique<Workbench>(
        Outside{clock, ids, settings, theme(), library(), ui::inPlace(), kCheap}, std::move(opened));
    bench->window().resize(size);
    bench->window().show();
    qApp->installEventFilter(&bench->window()); // as main does
    hand.sitAt(bench->window());
    hand.settle();
}

void WorkbenchTest::start()
{
    hand.type(u"workspace"_s, u"North"_s);
    hand.type(u"name"_s, u"A. Okoro"_s);
    hand.type(u"passphrase"_s, kPassphrase);
    hand.type(u"again"_s, kPassphrase);
    for (const QString& duty : {u"lamp-swap"_s, u"prove-absence"_s, u"supervise"_s})
        hand.press(u"tick-"_s + duty);
    look(u"start"_s);
    hand.press(u"action"_s);
}

void WorkbenchTest::signIn()
{
    look(u"sign-in"_s);
    signInBy(kPassphrase);
}

void WorkbenchTest::signInBy(const QString& passphrase)
{
    hand.type(u"secret"_s, passphrase);
    hand.press(u"action"_s);
    look(u"pin"_s);
    hand.type(u"secret"_s, kPin);
    hand.type(u"again"_s, kPin);
    hand.press(u"action"_s);
}

void WorkbenchTest::openDemoAs(const QString& id)
{
    const DemoRecipe recipe{test::sourceFile("sample-data"),
                            {library().catalogue(), library().proved()},
                            clock.now(),
                            1,
                            ids,
                            people::SigningKey::generate,
                            kCheap};
    const auto made = makeDemo(file(), recipe);
    ASSERT_TRUE(made) << made.error().detail.toStdString();
    const auto demo = readDemoPeople(test::sourceFile("sample-data"));
    ASSERT_TRUE(demo);
    const auto who = std::ranges::find_if(
        demo->people, [&](const DemoPerson& one) { return one.person.id == PersonId(id); });
    ASSERT_NE(who, demo->people.end());
    open();
    look(u"demo-sign-in"_s);
    hand.press(u"row-"_s + id);
    signInBy(who->passphrase);
}

void WorkbenchTest::openOwnWorkspace()
{
    open();
    start();
    signIn();
}

void WorkbenchTest::openOwnVisit()
{
    openOwnWorkspace();
    addSite();
    addLamp();
    openVisit();
}

void WorkbenchTest::addSite()
{
    hand.press(u"place-sites"_s);
    look(u"sites-empty"_s);
    hand.press(u"form-1"_s);
    hand.type(u"name"_s, u"Pier Street"_s);
    hand.press(u"keep"_s);
    look(u"site-new"_s);
    hand.press(u"form-3"_s);
    hand.type(u"name"_s, u"Screen 2"_s);
    hand.choose(u"model"_s, u"larkmoor-teal"_s);
    const auto* model = library().catalogue().model(ModelId(u"larkmoor-teal"_s));
    for (qsizetype role = 0; role < model->isolation.size(); ++role) {
        hand.type(u"panel-%1"_s.arg(role), u"B"_s);
        hand.type(u"circuit-%1"_s.arg(role), QString::number(14 + role));
    }
    look(u"site-screen"_s);
    hand.press(u"keep"_s);
    look(u"site"_s);
}

void WorkbenchTest::teachACode()
{
    hand.press(u"place-labels"_s);
    look(u"codes"_s);
    hand.find<ui::Field>(u"pasted"_s)->box()->setText(u"]C0ORDER 77120/00417"_s); // keyed it would be a scan
    hand.press(u"take"_s);
    look(u"codes-one-in-hand"_s);
    hand.choose(u"typePart"_s, u"3"_s);
    hand.choose(u"serialPart"_s, u"4"_s);
    hand.choose(u"lampType"_s, u"hollin-30b"_s);
    look(u"codes-marked"_s);
    clock.advance(2s);
    hand.press(u"action"_s);
    look(u"codes-taught"_s);
}

void WorkbenchTest::lookAtScanner()
{
    hand.press(u"scanner"_s);
    look(u"scanner"_s);
    EXPECT_TRUE(hand.find<QWidget>(u"setUpCode"_s)->isVisible());
    hand.press(u"back"_s);
}

void WorkbenchTest::lookAtHistories()
{
    hand.press(u"place-histories"_s);
    look(u"histories"_s);
    for (const QString& about : {u"lamphouse"_s, u"person"_s, u"lamp"_s}) {
        hand.press(u"choice-"_s + about);
        hand.press(*hand.find<QWidget>(u"found"_s)->findChild<QAbstractButton*>());
        look(u"history-of-a-"_s + about);
    }
}

void WorkbenchTest::addLamp()
{
    hand.press(u"place-stock"_s);
    look(u"stock-empty"_s);
    hand.choose(u"type"_s, lampType().text());
    hand.type(u"serial"_s, u"HV00123"_s);
    hand.press(u"add"_s);
    look(u"stock"_s);
}

void WorkbenchTest::openVisit()
{
    hand.press(u"place-visits"_s);
    look(u"visits-empty"_s);
    hand.press(u"newVisit"_s);
    look(u"new-visit"_s);
    hand.press(u"action"_s);
    look(u"bench"_s);
}

bool WorkbenchTest::workUntil(machine::Effect effect)
{
    for (int turn = 0; turn < 400 && bench->visitRoom(); ++turn) {
        const auto& entries = bench->visitRoom()->desk().logbook().entries();
        for (const visit::Entry& entry : entries) {
            const auto* did = std::get_if<visit::Did>(&entry.body);
            if (did && did->act && did->act->effect == effect)
                return true;
        }
        oneTurn();
    }
    return false;
}

void WorkbenchTest::oneTurn()
{
    hand.settle();
    bench->visitRoom()->page().refresh();
    if (auto* bookIn = visible<ui::BookInPage>()) {
        for (QLineEdit* box : bookIn->findChildren<QLineEdit*>()) {
            const QString name = box->parentWidget()->objectName();
            if (box->isVisible() && box->text().isEmpty())
                hand.type(name, name.endsWith(u"-type"_s) ? library().catalogue().lampType(lampType())->code
                                                          : u"HV00123"_s);
        }
        return hand.press(u"action"_s);
    }
    auto* page = visible<ui::BenchPage>();
    ASSERT_TRUE(page);
    const ui::StepCard card = page->view().card;
    for (const ui::CaptureView& capture : card.captures) {
        auto* widget = page->findChild<QWidget*>(u"capture-"_s + capture.id);
        if (!widget || !capture.value.isEmpty() || capture.isOptional)
            continue;
        if (capture.kind == ui::CaptureView::Kind::Text || capture.kind == ui::CaptureView::Kind::Number) {
            hand.type(widget->objectName(), u"18"_s);
        } else {
            if (qobject_cast<QLineEdit*>(QApplication::focusWidget()))
                hand.key(Qt::Key_Return); // out of the box, so that a number answers
            hand.key(Qt::Key_1);
        }
    }
    if (page->view().card.stepKey != card.stepKey)
        return; // its last answer was its last press
    if (page->view().card.action.stand == ui::ActionView::Stand::Waits && page->view().card.wait)
        clock.advance(30s);
    hand.key(Qt::Key_PageDown);
}

LampTypeId WorkbenchTest::lampType()
{
    return library().catalogue().model(ModelId(u"larkmoor-teal"_s))->lampTypes.first();
}

void WorkbenchTest::look(const QString& name)
{
    hand.settle();
    if (const QString pictures = qEnvironmentVariable("COLDARC_PICTURES"); !pictures.isEmpty()) {
        const QString kind = theme().kind() == ui::ThemeKind::Booth ? u"booth"_s : u"office"_s;
        bench->window().grab().save(
            QDir(pictures).filePath(u"%1-%2-%3.png"_s.arg(name, kind).arg(size.width())));
    }
    for (const auto* label : bench->window().findChildren<ui::TextLabel*>()) {
        EXPECT_TRUE(!label->isVisible() || label->fits())
            << name.toStdString() << ": " << label->text().toStdString() << ": " << label->width() << "x"
            << label->height() << ", needs " << label->heightForWidth(label->width());
    }
    for (const auto* button : bench->window().findChildren<ui::PaintedButton*>())
        EXPECT_TRUE(!button->isVisible() || button->fits())
            << name.toStdString() << ": " << button->text().toStdString();
    if (goesRoundByTab)
        goRoundByTab(name);
}

void WorkbenchTest::goRoundByTab(const QString& name)
{
    QWidget& window = bench->window();
    const QPointer<QWidget> before = QApplication::focusWidget();
    const auto saidOf = [&name](const QWidget* widget) {
        return u"%1: %2 in %3"_s.arg(name, widget->objectName(), widget->parentWidget()->objectName())
            .toStdString();
    };
    const auto next = [&window] {
        QWidget* from = QApplication::focusWidget();
        QTest::keyClick(from ? from : &window, Qt::Key_Tab);
        QApplication::processEvents();
        return QApplication::focusWidget();
    };
    QSet<QWidget*> reached;
    for (QWidget* at = next(); at && !reached.contains(at); at = next()) {
        reached.insert(at);
        EXPECT_GE(at->visibleRegion().boundingRect().height(), std::min(at->height(), 40)) << saidOf(at);
        const QRect there(at->mapTo(&window, QPoint(-4, -4)), at->size() + QSize(8, 8));
        const QImage with = window.grab(there).toImage();
        at->clearFocus();
        EXPECT_NE(with, window.grab(there).toImage()) << "the focus is not seen: " << saidOf(at);
        at->setFocus(Qt::TabFocusReason);
    }
    for (QWidget* widget : window.findChildren<QWidget*>()) {
        const bool isTarget = qobject_cast<QAbstractButton*>(widget) || qobject_cast<QLineEdit*>(widget) ||
                              qobject_cast<QComboBox*>(widget) || qobject_cast<QPlainTextEdit*>(widget) ||
                              qobject_cast<QAbstractItemView*>(widget);
        if (isTarget && widget->isVisible() && widget->isEnabled()) {
            EXPECT_TRUE(reached.contains(widget)) << "out of reach: " << saidOf(widget);
        }
    }
    if (before)
        before->setFocus(Qt::OtherFocusReason);
}

} // namespace coldarc::app
