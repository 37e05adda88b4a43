#include "ui/visit/bench_page.h"

#include "ui/machine/machine_drawing.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/text_label.h"
#include "ui/visit/bench_captures.h"
#include "ui/visit/bench_card.h"
#include "ui/visit/bench_steps.h"
#include "ui/visit/bench_swaps.h"
#include "ui/visit/people_button.h"

#include <QApplication>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QPainter>
#include <QScrollArea>
#include <QShortcut>
#include <QVBoxLayout>

#include <algorithm>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kRightMargins = 19 + 18;
constexpr int kLowColumns = 640; ///< below that the drawing of a pair has no room beside gates at ease

TextLabel* headerLabel(TextRole role, Ink ink, const char* name, QWidget* parent)
{
    auto* label = new TextLabel(role, ink, parent);
    label->setObjectName(QString::fromLatin1(name));
    label->setOverflow(TextLabel::Overflow::Elides);
    label->setAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    return label;
}

void showText(TextLabel* label, const QString& text)
{
    label->setText(text);
    label->setToolTip(text);
    label->setVisible(!text.isEmpty());
}

} // namespace

BenchPage::BenchPage(const Clock& clock, QWidget* parent)
    : QWidget(parent)
    , m_guard(clock)
    , m_site(headerLabel(TextRole::Heading, Ink::Text, "site", this))
    , m_subtitle(headerLabel(TextRole::Small, Ink::Quiet, "subtitle", this))
    , m_nextShow(headerLabel(TextRole::Small, Ink::Text, "nextShow", this))
    , m_needsWord(headerLabel(TextRole::Small, Ink::Text, "needsWord", this))
    , m_needs(headerLabel(TextRole::Strong, Ink::Text, "needs", this))
    , m_gap(headerLabel(TextRole::Small, Ink::Text, "gap", this))
    , m_people(new PeopleButton(u"F10"_s, this))
    , m_strip(new Strip(this))
    , m_swaps(new SwapList(this))
    , m_steps(new StepList(this))
    , m_card(new StepCardPanel(clock, this))
    , m_machine(new MachineDrawing(this))
    , m_machineScroll(new QScrollArea(this))
    , m_gates(new GateList(this))
    , m_done(new PlainButton(tr("What was done"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_makeSafe(new PlainButton(tr("MAKE SAFE"), Reach::Glove, PlainButton::Weight::Strong, this))
    , m_header(makeHeader())
    , m_left(makeLeft())
    , m_right(makeRight())
{
    setObjectName(u"benchPage"_s);
    setFocusPolicy(Qt::ClickFocus); // Tab halts at its parts
    m_makeSafe->setObjectName(u"makeSafe"_s);
    m_makeSafe->setKeyCap(u"F12"_s);
    m_people->setObjectName(u"people"_s);
    m_done->setObjectName(u"whatWasDone"_s);
    m_done->setKeyCap(u"F11"_s);

    auto* columns = new QHBoxLayout;
    columns->setSpacing(0);
    columns->addWidget(m_left);
    columns->addWidget(m_card, 1);
    columns->addWidget(m_right);
    auto* page = new QVBoxLayout(this);
    page->setContentsMargins(0, 0, 0, 0);
    page->setSpacing(0);
    page->addWidget(m_header);
    page->addWidget(m_strip);
    page->addLayout(columns, 1);

    connect(m_card, &StepCardPanel::doneRequested, this, &BenchPage::doneRequested);
    connect(m_card, &StepCardPanel::answersChanged, this, &BenchPage::answersChanged);
    connect(m_card, &StepCardPanel::somethingWrongRequested, this, &BenchPage::somethingWrongRequested);
    connect(m_card, &StepCardPanel::noteRequested, this, &BenchPage::noteRequested);
    connect(m_card, &StepCardPanel::pictureRequested, this, &BenchPage::pictureRequested);
    connect(m_card, &StepCardPanel::personActRequested, this, &BenchPage::personActRequested);
    connect(m_swaps, &SwapList::swapChosen, this, &BenchPage::swapChosen);
    connect(m_makeSafe, &QAbstractButton::clicked, this, &BenchPage::makeSafeRequested);
    connect(m_people, &QAbstractButton::clicked, this, &BenchPage::peopleRequested);
    connect(m_done, &QAbstractButton::clicked, this, &BenchPage::whatWasDoneRequested);
    connect(m_strip, &Strip::actRequested, this, &BenchPage::stripActRequested);
    connect(m_strip, &Strip::dismissed, this, [this] {
        Q_EMIT stripDismissed();
        takeFocus();
    });
    bindKeys();
}

QWidget* BenchPage::makeHeader()
{
    auto* header = new QWidget(this);
    header->setFixedHeight(50);
    auto* show = new QHBoxLayout;
    show->setSpacing(5);
    for (TextLabel* label : {m_nextShow, m_needsWord, m_needs, m_gap})
        show->addWidget(label);
    auto* row = new QHBoxLayout(header);
    row->setContentsMargins(22, 0, 22, 0);
    row->setSpacing(28);
    row->addWidget(m_site);
    row->addWidget(m_subtitle);
    row->addLayout(show);
    row->addStretch(1);
    row->addWidget(m_people);
    // What counts against the clock is never cut; the words around it are.
    for (TextLabel* label : {m_site, m_nextShow, m_needsWord, m_needs, m_gap})
        label->setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Preferred);
    return header;
}

QWidget* BenchPage::makeLeft()
{
    auto* left = new QWidget(this);
    auto* swapsPart = new QVBoxLayout;
    swapsPart->setContentsMargins(11, 22, 11, 10);
    swapsPart->setSpacing(8);
    auto* title = new SectionLabel(tr("Swaps"), left);
    auto* titleRow = new QHBoxLayout;
    titleRow->setContentsMargins(9, 0, 0, 0);
    titleRow->addWidget(title);
    swapsPart->addLayout(titleRow);
    swapsPart->addWidget(m_swaps);
    auto* column = new QVBoxLayout(left);
    column->setContentsMargins(0, 0, 1, 0);
    column->setSpacing(0);
    column->addLayout(swapsPart);
    column->addWidget(m_steps, 1);
    auto* donePart = new QVBoxLayout;
    donePart->setContentsMargins(11, 8, 11, 12);
    donePart->addWidget(m_done);
    column->addLayout(donePart);
    return left;
}

QWidget* BenchPage::makeRight()
{
    auto* right = new QWidget(this);
    m_machineScroll->setObjectName(u"machineScroll"_s);
    m_machine->setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Preferred); // it may shrink
    m_machineScroll->setWidget(m_machine);
    m_machineScroll->setWidgetResizable(true);
    m_machineScroll->setFrameShape(QFrame::NoFrame);
    m_machineScroll->setFocusPolicy(Qt::NoFocus);
    m_machineScroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    auto* column = new QVBoxLayout(right);
    column->setContentsMargins(19, 22, 18, 24);
    column->setSpacing(0);
    column->addWidget(new SectionLabel(tr("The machine"), right));
    column->addSpacing(10);
    // The drawing takes the height that it needs and no more; where that is not there, it shrinks, and only
    // then scrolls: the gates and the way out stay in sight.
    column->addWidget(m_machineScroll, 1000);
    column->addSpacing(12);
    column->addWidget(new SectionLabel(tr("Gates"), right));
    column->addSpacing(4);
    column->addWidget(m_gates);
    column->addStretch(1);
    column->addSpacing(14);
    column->addWidget(m_makeSafe);
    return right;
}

void BenchPage::bind(const QKeySequence& keys, const std::function<void()>& deed)
{
    auto* shortcut = new QShortcut(keys, this);
    shortcut->setAutoRepeat(false);
    connect(shortcut, &QShortcut::activated, this, deed);
}

void BenchPage::bindKeys()
{
    for (const Qt::Key key : {Qt::Key_Return, Qt::Key_Enter})
        bind(QKeySequence(key), [this] { pressMain(); });
    bind(QKeySequence(Qt::Key_PageDown), [this] { m_card->action()->click(); });
    bind(QKeySequence(Qt::Key_F9), [this] { Q_EMIT somethingWrongRequested(); });
    bind(QKeySequence(Qt::Key_F11), [this] { Q_EMIT whatWasDoneRequested(); });
    bind(QKeySequence(Qt::Key_F10), [this] { Q_EMIT peopleRequested(); });
    bind(QKeySequence(Qt::Key_F12), [this] { Q_EMIT makeSafeRequested(); });
}

void BenchPage::pressMain()
{
    // Who walked to another button by keyboard means that button.
    auto* button = qobject_cast<QAbstractButton*>(QApplication::focusWidget());
    const bool isAnswer = button != nullptr && m_card->captures()->isAncestorOf(button);
    if (button != nullptr && !isAnswer)
        button->click();
    else if (m_guard.takesPress() && m_card->captures()->chooseWalkedTo())
        return;
    else if (button != nullptr || !m_card->captures()->moveOn())
        m_card->action()->click();
}

void BenchPage::takeFocus()
{
    if (!m_card->captures()->comeBack())
        m_card->action()->setFocus(Qt::OtherFocusReason);
}

void BenchPage::keyPressEvent(QKeyEvent* event)
{
    const QString step = m_view.card.stepKey;
    if (!event->isAutoRepeat() && m_guard.takesPress() &&
        m_card->captures()->chooseByNumber(event->key() - Qt::Key_0)) {
        // A box that comes next is written in at once; a step that the answer has ended is left alone.
        if (step == m_view.card.stepKey)
            m_card->captures()->focusOpenBox();
        return;
    }
    QWidget::keyPressEvent(event);
}

void BenchPage::setSound(std::function<void()> sound)
{
    m_strip->setSound(std::move(sound));
}

void BenchPage::setView(const BenchView& view)
{
    if (view == m_view)
        return;
    if (view.card.stepKey != m_view.card.stepKey)
        m_guard.shown();
    m_view = view;
    showHeader();
    m_strip->setView(view.strip);
    m_swaps->setSwaps(view.swaps, view.swapInHand);
    m_steps->setSteps(view.steps);
    m_card->setCard(view.card);
    m_machine->setView(view.machine);
    fitMachine();
    m_gates->setView(view.gates);
    m_makeSafe->setSub(view.makeSafeEnd);
}

void BenchPage::showHeader()
{
    showText(m_site, m_view.site);
    showText(m_subtitle, m_view.subtitle);
    showText(m_nextShow, m_view.nextShow);
    showText(m_needsWord, m_view.needs.isEmpty() ? QString() : tr("·\u2002needs"));
    showText(m_needs, m_view.needs);
    showText(m_gap, m_view.gap.isEmpty() ? QString() : tr("·\u2002%1").arg(m_view.gap));
    m_people->setPeople(m_view.people);
    update();
}

void BenchPage::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    // The side columns give way first, down to what their contents need.
    m_left->setFixedWidth(std::clamp(width() * 21 / 100, 270, 360));
    m_right->setFixedWidth(
        std::clamp(width() * 24 / 100, kRightMargins + MachineDrawing::kLeastWidth + 12, 430));
    fitMachine();
}

void BenchPage::fitMachine()
{
    const int strip = m_strip->isVisibleTo(this) ? m_strip->sizeHint().height() : 0;
    m_gates->setDense(height() - m_header->height() - strip < kLowColumns);
    // A bar appears only where the height is short, and takes its width from the drawing's.
    const int room = m_right->width() - kRightMargins;
    m_machineScroll->setMaximumHeight(m_machine->heightForWidth(room));
}

void BenchPage::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    const Tokens& t = tokensOf(*this);
    painter.fillRect(rect(), t.ground);
    painter.setPen(t.line);
    const int top = m_left->y();
    const int headerLine = m_header->geometry().bottom();
    painter.drawLine(0, headerLine, width(), headerLine);
    painter.drawLine(m_left->geometry().right(), top, m_left->geometry().right(), height());
    painter.drawLine(m_right->x(), top, m_right->x(), height());
}

} // namespace coldarc::ui
