#include "ui/visit/bench_card.h"

#include "ui/parts/plain_button.h"
#include "ui/parts/retire.h"
#include "ui/parts/show_text.h"
#include "ui/parts/text_label.h"
#include "ui/visit/bench_captures.h"

#include <QApplication>
#include <QHBoxLayout>
#include <QScrollArea>
#include <QScrollBar>
#include <QShortcut>
#include <QVBoxLayout>

#include <algorithm>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kSide = 40;
constexpr int kWidestAction = 520;
constexpr int kAboveDanger = 14;
constexpr int kAboveButtons = 18;

QString placeLine(const StepCard& card)
{
    QStringList parts{card.place, card.counter, card.phase};
    parts.removeAll(QString());
    return parts.join(u"\u2002·\u2002"_s);
}

} // namespace

StepCardPanel::StepCardPanel(const Clock& clock, QWidget* parent)
    : QWidget(parent)
    , m_place(new SectionLabel(QString(), this))
    , m_title(new TextLabel(TextRole::Title, Ink::Text, this))
    , m_scroll(new QScrollArea(this))
    , m_ring(new WaitRing(this))
    , m_why(new TextLabel(TextRole::Body, Ink::Text, this))
    , m_sub(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_keyIn(new TextLabel(TextRole::Action, Ink::Text, this))
    , m_aids(new QWidget(this))
    , m_top(new QHBoxLayout)
    , m_words(new QVBoxLayout)
    , m_note(new PlainButton(tr("Note"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_picture(new PlainButton(tr("Picture"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_captures(new CapturePanel(this))
    , m_actLayout(new QVBoxLayout)
    , m_belowBody(new QSpacerItem(0, kAboveDanger, QSizePolicy::Minimum, QSizePolicy::Fixed))
    , m_danger(new SignalPanel(this))
    , m_wrong(new PlainButton(tr("Something went wrong"), Reach::Glove, PlainButton::Weight::Quiet, this))
    , m_action(new ActionButton(clock, this))
{
    m_place->setObjectName(u"place"_s);
    m_title->setObjectName(u"stepTitle"_s);
    m_why->setObjectName(u"why"_s);
    m_why->setLeading(4);
    m_sub->setObjectName(u"sub"_s);
    m_keyIn->setObjectName(u"keyIn"_s);
    m_sub->setLeading(3);
    m_note->setObjectName(u"note"_s);
    m_picture->setObjectName(u"picture"_s);
    m_wrong->setObjectName(u"somethingWrong"_s);
    m_wrong->setKeyCap(u"F9"_s);

    m_scroll->setObjectName(u"cardScroll"_s);
    m_scroll->setWidget(makeBody());
    m_scroll->setWidgetResizable(true);
    m_scroll->setFrameShape(QFrame::NoFrame);
    m_scroll->setFocusPolicy(Qt::NoFocus);
    m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);

    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(0);
    buttons->addWidget(m_wrong, 0, Qt::AlignBottom);
    buttons->addSpacing(gloveGap(*this));
    buttons->addStretch(1);
    buttons->addWidget(m_action, 1000, Qt::AlignBottom);
    m_action->setMaximumWidth(kWidestAction);

    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(kSide, 26, kSide, 24);
    column->setSpacing(0);
    column->addWidget(m_place);
    column->addSpacing(8);
    column->addWidget(m_title);
    column->addSpacing(16);
    column->addWidget(m_scroll, 1);
    column->addItem(m_belowBody);
    column->addWidget(m_danger);
    column->addSpacing(kAboveButtons);
    column->addLayout(buttons);

    connect(m_action, &ActionButton::done, this, &StepCardPanel::press);
    connect(m_captures, &CapturePanel::answersChanged, this, &StepCardPanel::answersChanged);
    connect(m_wrong, &QAbstractButton::clicked, this, &StepCardPanel::somethingWrongRequested);
    connect(m_note, &QAbstractButton::clicked, this, &StepCardPanel::noteRequested);
    connect(m_picture, &QAbstractButton::clicked, this, &StepCardPanel::pictureRequested);
}

QWidget* StepCardPanel::makeBody()
{
    auto* body = new QWidget;
    body->setProperty("bare", true);
    auto* aids = new QHBoxLayout(m_aids);
    aids->setContentsMargins(0, 0, 0, 0);
    aids->setSpacing(12);
    aids->addWidget(m_note);
    aids->addWidget(m_picture);
    aids->addStretch(1);
    m_words->setSpacing(14);
    m_words->addWidget(m_why);
    m_words->addWidget(m_sub);
    m_words->addWidget(m_keyIn);
    m_words->addStretch(1);
    m_top->setSpacing(48);
    m_top->addWidget(m_ring, 0, Qt::AlignTop);
    m_top->addLayout(m_words, 1);
    placeAids(true);
    m_actLayout->setSpacing(gloveGap(*this));
    auto* column = new QVBoxLayout(body);
    column->setContentsMargins(0, 0, 8, 0);
    column->setSpacing(0);
    column->addLayout(m_top);
    column->addSpacing(16);
    column->addWidget(m_captures);
    column->addLayout(m_actLayout);
    column->addStretch(1);
    return body;
}

void StepCardPanel::setCard(const StepCard& card)
{
    if (card == m_card)
        return;
    const bool isNewStep = card.stepKey != m_card.stepKey;
    // Asked before anything is taken out of sight: a focus that goes with it falls on some other part.
    const bool isFocusOurs = hasFocusOrNobody();
    m_card = card;
    m_place->setText(placeLine(card));
    m_title->setText(card.title);
    showText(m_why, card.why);
    showText(m_sub, card.sub);
    showText(m_keyIn, card.keyIn);
    m_ring->setVisible(card.wait.has_value());
    m_ring->setView(card.wait.value_or(WaitView{}));
    placeAids(card.wait.has_value());
    m_captures->setCaptures(card.stepKey, card.captures);
    showActs(card.acts);
    m_danger->setView(card.danger);
    // Without a panel between them, what a glove hits in the body still stands clear of the buttons.
    const int gap = card.danger ? kAboveDanger : gloveGap(*this) - kAboveButtons;
    m_belowBody->changeSize(0, gap, QSizePolicy::Minimum, QSizePolicy::Fixed);
    layout()->invalidate();
    m_wrong->setSub(card.unanswered);
    m_action->setView(card.action);
    if (isNewStep)
        bringUp(isFocusOurs);
}

void StepCardPanel::press()
{
    const QString step = m_card.stepKey;
    Q_EMIT doneRequested(m_captures->answers());
    if (step == m_card.stepKey)
        m_captures->goToMarked();
}

void StepCardPanel::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    const int side = std::clamp(width() * 30 / 100, 210, 320);
    m_ring->setFixedSize(side, side);
}

void StepCardPanel::placeAids(bool underWords)
{
    m_top->removeWidget(m_aids);
    m_words->removeWidget(m_aids);
    if (underWords)
        m_words->insertWidget(2, m_aids);
    else
        m_top->addWidget(m_aids, 0, Qt::AlignTop);
}

bool StepCardPanel::hasFocusOrNobody() const
{
    const QWidget* holder = QApplication::focusWidget();
    return holder == nullptr || isAncestorOf(holder) || holder == parentWidget();
}

void StepCardPanel::bringUp(bool takesFocus)
{
    m_scroll->verticalScrollBar()->setValue(0);
    // The focus moves only if it was here already, or nowhere: it is never taken from another part of the
    // page.
    if (!takesFocus)
        return;
    if (!m_captures->focusFirst())
        m_action->setFocus(Qt::OtherFocusReason);
}

void StepCardPanel::showActs(const QList<PersonAct>& acts)
{
    m_actLayout->setContentsMargins(0, acts.isEmpty() ? 0 : gloveGap(*this), 0, 0);
    while (m_acts.size() > acts.size())
        retire(m_acts.takeLast());
    while (m_acts.size() < acts.size()) {
        auto* button = new PlainButton(QString(), Reach::Glove, PlainButton::Weight::Quiet, this);
        auto* key = new QShortcut(button);
        key->setAutoRepeat(false);
        connect(key, &QShortcut::activated, button, &QAbstractButton::click);
        connect(button, &QAbstractButton::clicked, this, [this, i = m_acts.size()] {
            if (m_card.acts.value(i).stand == PersonAct::Stand::Open)
                Q_EMIT personActRequested(m_card.acts.value(i).id);
        });
        m_actLayout->addWidget(button);
        m_acts.append(button);
    }
    for (qsizetype i = 0; i < acts.size(); ++i) {
        const PersonAct& act = acts.at(i);
        PlainButton* button = m_acts.at(i);
        button->setObjectName(u"act-"_s + act.id);
        button->setText(act.text);
        button->setAccessibleName(act.text);
        button->setSub(act.sub);
        button->setKeyCap(act.key);
        button->setEnabled(act.stand == PersonAct::Stand::Open);
        button->findChild<QShortcut*>()->setKey(QKeySequence(act.key));
    }
}

} // namespace coldarc::ui
