#include "ui/alignment/light_page.h"

#include "ui/alignment/axis_rows.h"
#include "ui/alignment/light_chart.h"
#include "ui/alignment/turn_dial.h"
#include "ui/parts/page_keys.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/show_text.h"
#include "ui/parts/text_label.h"

#include <QAbstractButton>
#include <QApplication>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPainter>
#include <QShortcut>
#include <QVBoxLayout>

#include <algorithm>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kBoxHeight = 72;
constexpr int kMostLargeFigures = 5; // with the decimal sign: what the left column holds at its narrowest

} // namespace

LightPage::LightPage(const Clock& clock, QWidget* parent)
    : QWidget(parent)
    , m_guard(clock)
    , m_strip(new Strip(this))
    , m_stripKey(new QShortcut(this))
    , m_axesTitle(new SectionLabel(QString(), this))
    , m_axes(new AxisRows(this))
    , m_light(namedLabel(TextRole::Number, Ink::Text, u"light"_s, this))
    , m_longLight(namedLabel(TextRole::Title, Ink::Text, u"longLight"_s, this))
    , m_lightSub(namedLabel(TextRole::Small, Ink::Quiet, u"lightSub"_s, this))
    , m_leftTitle(new SectionLabel(QString(), this))
    , m_leftToWin(namedLabel(TextRole::Title, Ink::Text, u"leftToWin"_s, this))
    , m_leftSub(namedLabel(TextRole::Caption, Ink::Quiet, u"leftSub"_s, this))
    , m_won(namedLabel(TextRole::Title, Ink::Text, u"won"_s, this))
    , m_wonSub(namedLabel(TextRole::Caption, Ink::Quiet, u"wonSub"_s, this))
    , m_place(new SectionLabel(QString(), this))
    , m_title(namedLabel(TextRole::Heading, Ink::Text, u"scanTitle"_s, this))
    , m_scan(new ScanChart(this))
    , m_trace(new TraceChart(this))
    , m_said(namedLabel(TextRole::Strong, Ink::Text, u"said"_s, this))
    , m_fieldName(namedLabel(TextRole::Small, Ink::Quiet, u"fieldName"_s, this))
    , m_box(new QLineEdit(this))
    , m_action(new ActionButton(clock, this))
    , m_first(namedLabel(TextRole::Strong, Ink::Text, u"first"_s, this))
    , m_what(namedLabel(TextRole::Heading, Ink::Text, u"what"_s, this))
    , m_how(namedLabel(TextRole::Small, Ink::Quiet, u"how"_s, this))
    , m_then(namedLabel(TextRole::Small, Ink::Quiet, u"then"_s, this))
    , m_dial(new TurnDial(this))
    , m_wait(new WaitRing(this))
    , m_takeBack(addButton(u"takeBack"_s, u"F8"_s, &LightPage::takeBackRequested))
    , m_putRight(addButton(u"putRight"_s, u"F7"_s, &LightPage::putRightRequested))
    , m_form(addButton(u"form"_s, u"F4"_s, &LightPage::formRequested))
    , m_finish(addButton(u"finish"_s, u"F6"_s, &LightPage::finishRequested, Ends::Step))
    , m_owe(addButton(u"owe"_s, u"F5"_s, &LightPage::oweRequested, Ends::Step))
    , m_back(addButton(u"back"_s, u"Esc"_s, &LightPage::leaveRequested))
    , m_wrong(addButton(u"somethingWrong"_s, u"F9"_s, &LightPage::somethingWrongRequested))
    , m_makeSafe(new PlainButton(tr("MAKE SAFE"), Reach::Glove, PlainButton::Weight::Strong, this))
    , m_left(makeLeft())
    , m_middle(makeMiddle())
    , m_right(makeRight())
{
    setObjectName(u"lightPage"_s);
    setFocusPolicy(Qt::ClickFocus); // Tab halts at its parts
    setFocusProxy(m_box);
    m_takeBack->setText(tr("Take back"));
    m_owe->setText(tr("Leave to a later visit"));
    m_back->setText(tr("Back to the bench"));
    m_wrong->setText(tr("Something went wrong"));
    m_makeSafe->setObjectName(u"makeSafe"_s);
    m_makeSafe->setKeyCap(u"F12"_s);
    m_makeSafe->setFocusPolicy(Qt::TabFocus);
    m_action->setFocusPolicy(Qt::TabFocus);
    m_action->setObjectName(u"action"_s);
    m_box->setObjectName(u"reading"_s);
    m_box->setInputMethodHints(Qt::ImhFormattedNumbersOnly);
    m_box->setMinimumHeight(kBoxHeight);
    m_box->setMaxLength(24);
    m_box->setAlignment(Qt::AlignRight);
    m_box->setStyleSheet(u"font-size: 30px; font-weight: 600; min-height: 64px; padding-right: 16px;"_s);
    for (TextLabel* label : {m_said, m_how, m_then})
        label->setLeading(3);

    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(0, 0, 0, 0);
    page->setSpacing(0);
    page->addWidget(m_strip);
    auto* columns = new QHBoxLayout;
    columns->setSpacing(0);
    page->addLayout(columns, 1);
    columns->addWidget(m_left);
    columns->addWidget(m_middle, 1);
    columns->addWidget(m_right);

    connect(m_action, &ActionButton::done, this, &LightPage::pressAction);
    connect(m_makeSafe, &QAbstractButton::clicked, this, &LightPage::makeSafeRequested);
    m_stripKey->setAutoRepeat(false);
    connect(m_stripKey, &QShortcut::activated, this, &LightPage::stripActRequested);
    connect(m_strip, &Strip::actRequested, this, &LightPage::stripActRequested);
    connect(m_strip, &Strip::dismissed, this, [this] {
        Q_EMIT stripDismissed();
        begin();
    });
    bindKeys();
    setStrip({});
    setView({}); // a page that was never opened asks for no room
}

PlainButton* LightPage::addButton(const QString& name, const QString& key, void (LightPage::*signal)(),
                                  Ends ends)
{
    auto* button = new PlainButton(QString(), Reach::Hand, PlainButton::Weight::Quiet, this);
    button->setObjectName(name);
    button->setKeyCap(key);
    button->setFocusPolicy(Qt::TabFocus);
    connect(button, &QAbstractButton::clicked, this, [this, signal, ends] {
        m_box->setFocus(Qt::OtherFocusReason);
        if (ends == Ends::Nothing || m_guard.takesPress())
            Q_EMIT(this->*signal)();
    });
    return button;
}

QWidget* LightPage::makeLeft()
{
    auto* left = new QWidget(this);
    auto* column = new QVBoxLayout(left);
    column->setContentsMargins(18, 22, 18, 20);
    column->setSpacing(3);
    column->addWidget(m_axesTitle);
    column->addSpacing(4);
    column->addWidget(m_axes);
    column->addSpacing(10);
    column->addWidget(new SectionLabel(tr("This light"), left));
    column->addWidget(m_light);
    column->addWidget(m_longLight);
    column->addWidget(m_lightSub);
    column->addSpacing(12);
    column->addWidget(m_leftTitle);
    column->addWidget(m_leftToWin);
    column->addWidget(m_leftSub);
    column->addSpacing(12);
    column->addWidget(new SectionLabel(tr("Won since the first reading"), left));
    column->addWidget(m_won);
    column->addWidget(m_wonSub);
    column->addStretch(1);
    column->addWidget(m_back);
    return left;
}

QWidget* LightPage::makeMiddle()
{
    auto* middle = new QWidget(this);
    auto* quiet = new QHBoxLayout;
    quiet->setSpacing(12);
    for (PlainButton* button : {m_takeBack, m_putRight, m_form, m_finish})
        quiet->addWidget(button);
    quiet->addStretch(1);
    auto* typed = new QHBoxLayout;
    typed->setSpacing(16);
    typed->addWidget(m_box, 2);
    typed->addWidget(m_action, 3);
    auto* column = new QVBoxLayout(middle);
    column->setContentsMargins(34, 22, 34, 24);
    column->setSpacing(6);
    column->addWidget(m_place);
    column->addWidget(m_title);
    column->addWidget(m_scan, 5);
    column->addWidget(m_trace, 2);
    column->addWidget(m_said);
    column->addSpacing(4);
    column->addLayout(quiet);
    column->addSpacing(4);
    column->addWidget(m_fieldName);
    column->addLayout(typed);
    return middle;
}

QWidget* LightPage::makeRight()
{
    auto* right = new QWidget(this);
    auto* column = new QVBoxLayout(right);
    column->setContentsMargins(19, 22, 18, 24);
    column->setSpacing(10);
    column->addWidget(new SectionLabel(tr("What to do"), right));
    column->addWidget(m_dial, 0, Qt::AlignHCenter);
    column->addWidget(m_wait, 0, Qt::AlignHCenter);
    column->addWidget(m_first);
    column->addWidget(m_what);
    column->addWidget(m_how);
    column->addWidget(m_then);
    column->addStretch(1);
    column->addWidget(m_owe);
    column->addWidget(m_wrong);
    column->addSpacing(40);
    column->addWidget(m_makeSafe);
    return right;
}

void LightPage::bindKeys()
{
    onEnter(*this, [this] { press(); });
    onEscape(*this, [this] { Q_EMIT leaveRequested(); });
    onKey(*this, Qt::Key_PageDown, [this] { m_action->click(); });
    onKey(*this, Qt::Key_F4, *m_form);
    onKey(*this, Qt::Key_F5, *m_owe);
    onKey(*this, Qt::Key_F6, *m_finish);
    onKey(*this, Qt::Key_F7, *m_putRight);
    onKey(*this, Qt::Key_F8, *m_takeBack);
    onKey(*this, Qt::Key_F9, *m_wrong);
    onKey(*this, Qt::Key_F12, *m_makeSafe);
}

void LightPage::press()
{
    auto* button = qobject_cast<QAbstractButton*>(QApplication::focusWidget());
    if (button && isAncestorOf(button))
        return button->click();
    if (m_box->text().trimmed().isEmpty() && m_view.isFinishing)
        return m_action->click(); // the guard keeps an Enter too many from ending the step
    Q_EMIT entered(m_box->text());
}

void LightPage::pressAction()
{
    m_box->setFocus(Qt::OtherFocusReason);
    if (m_view.isFinishing && m_box->text().trimmed().isEmpty())
        return Q_EMIT doneRequested();
    Q_EMIT entered(m_box->text());
}

void LightPage::begin()
{
    m_box->setFocus(Qt::OtherFocusReason);
}

void LightPage::setView(const LightView& view)
{
    const bool isOtherBox = view.boxTurn != m_view.boxTurn;
    if (view.action.stepKey != m_view.action.stepKey)
        m_guard.shown();
    m_view = view;
    m_axesTitle->setText(view.axesTitle);
    m_axes->setRows(view.axes);
    const bool isLong = view.light.size() > kMostLargeFigures;
    showText(m_light, isLong ? QString() : view.light);
    showText(m_longLight, isLong ? view.light : QString());
    showText(m_lightSub, view.lightSub);
    m_leftTitle->setText(view.leftTitle);
    m_leftToWin->setText(view.left);
    showText(m_leftSub, view.leftSub);
    m_won->setText(view.won);
    showText(m_wonSub, view.wonSub);
    m_place->setText(view.place);
    showText(m_title, view.scan.title);
    m_scan->setVisible(!view.scan.title.isEmpty());
    m_scan->setView(view.scan);
    m_trace->setView(view.trace);
    m_said->setText(view.said);
    m_fieldName->setText(view.fieldName);
    m_box->setAccessibleName(view.fieldName);
    m_box->setAccessibleDescription(view.what);
    if (isOtherBox) {
        m_box->setText(view.boxText);
        m_box->selectAll();
    }
    m_action->setView(view.action);
    showText(m_first, view.first);
    showText(m_what, view.what);
    showText(m_how, view.how);
    showText(m_then, view.then);
    m_dial->setVisible(view.dial.has_value());
    m_dial->setView(view.dial.value_or(TurnDialView{}));
    m_wait->setVisible(view.wait.has_value());
    m_wait->setView(view.wait.value_or(WaitView{}));
    const auto showButton = [](PlainButton* button, const QString& text) {
        button->setText(text);
        button->setVisible(!text.isEmpty());
    };
    showButton(m_finish, view.finish);
    showButton(m_form, view.form);
    showButton(m_putRight, view.putRight);
    m_takeBack->setVisible(view.canTakeBack);
    m_owe->setVisible(view.canOwe);
    m_makeSafe->setSub(view.makeSafeEnd);
}

void LightPage::setStrip(const StripView& view)
{
    m_strip->setView(view);
    m_stripKey->setKey(QKeySequence(view.key));
    update();
}

void LightPage::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    m_left->setFixedWidth(std::clamp(width() * 19 / 100, 250, 340));
    m_right->setFixedWidth(std::clamp(width() * 24 / 100, 310, 430));
}

void LightPage::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    const Tokens& t = tokensOf(*this);
    painter.fillRect(rect(), t.ground);
    painter.setPen(t.line);
    const int top = m_left->y();
    painter.drawLine(m_left->geometry().right(), top, m_left->geometry().right(), height());
    painter.drawLine(m_right->x(), top, m_right->x(), height());
}

} // namespace coldarc::ui
