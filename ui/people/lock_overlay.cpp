#include "ui/people/lock_overlay.h"

#include "ui/parts/action_button.h"
#include "ui/parts/field.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/text_label.h"
#include "ui/people/secret_words.h"

#include <QEvent>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPainter>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

LockPresenter::LockPresenter(SessionKeeper& keeper, QObject* parent)
    : QObject(parent)
    , m_keeper(keeper)
{
    connect(&keeper, &SessionKeeper::stateChanged, this, &LockPresenter::refresh);
    connect(&keeper, &SessionKeeper::pinAnswered, this, &LockPresenter::answered);
    connect(&keeper, &SessionKeeper::pinNotTried, this, [this] {
        m_message = tr("The PIN could not be tried: this computer has too little memory free. It was not "
                       "counted.");
        refresh();
    });
}

void LockPresenter::tryPin(const people::TypedSecret& pin)
{
    m_message.clear();
    m_keeper.unlock(pin);
}

void LockPresenter::answered(people::Session::PinOutcome outcome)
{
    ++m_emptied;
    m_message.clear();
    const int left = m_keeper.wrongPinsLeft();
    if (outcome == people::Session::PinOutcome::Wrong) {
        m_message = left == 1 ? tr("That is not the PIN. One more try, then only the passphrase helps.")
                              : tr("That is not the PIN. %1 more tries.").arg(left);
    }
    refresh();
}

void LockPresenter::refresh()
{
    const SessionKeeper::State state = m_keeper.state();
    LockView view;
    const bool isLocked = state == SessionKeeper::State::Locked;
    const bool isEnded = state == SessionKeeper::State::Ended;
    // While a PIN is tried the lock stays up; a PIN that is being set has none to hide behind.
    const bool isTrying = state == SessionKeeper::State::Busy && m_wasLocked;
    m_wasLocked = isLocked || isTrying;
    view.isUp = isLocked || isEnded || isTrying;
    view.asksPin = !isEnded;
    view.emptied = m_emptied;
    if (view.isUp && m_keeper.who()) {
        view.title = m_keeper.who()->name;
        view.sub = isEnded ? tr("Ten wrong PINs, or no PIN was set: the key is gone from this session. What "
                                "was done is kept. Sign in with your passphrase.")
                           : tr("Your key is locked. Nothing of the work is lost, and waits run on.");
        view.message = isEnded ? QString() : m_message;
        view.busy = isTrying ? tr("Trying the PIN.") : QString();
    }
    if (!view.isUp)
        m_message.clear();
    if (view == m_view)
        return;
    m_view = view;
    Q_EMIT viewChanged(m_view);
}

LockOverlay::LockOverlay(const Clock& clock, QWidget* over)
    : QWidget(over)
    , m_over(over)
    , m_card(new QWidget(this))
    , m_title(new TextLabel(TextRole::Title, Ink::Text, m_card))
    , m_sub(new TextLabel(TextRole::Small, Ink::Quiet, m_card))
    , m_pin(new Field(Field::Kind::Secret, m_card))
    , m_message(new TextLabel(TextRole::Strong, Ink::Text, m_card))
    , m_busy(new TextLabel(TextRole::Small, Ink::Quiet, m_card))
    , m_unlock(new ActionButton(clock, m_card))
    , m_other(
          new PlainButton(tr("Sign in as somebody else"), Reach::Hand, PlainButton::Weight::Quiet, m_card))
{
    setObjectName(u"lockOverlay"_s);
    m_pin->setObjectName(u"pin"_s);
    m_message->setObjectName(u"message"_s);
    m_other->setObjectName(u"other"_s);
    m_pin->setView({tr("PIN"), {}, {}, {}, {}});
    m_pin->box()->setInputMethodHints(Qt::ImhDigitsOnly | Qt::ImhHiddenText);
    m_card->setFixedWidth(460);
    auto* column = new QVBoxLayout(m_card);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(14);
    for (QWidget* widget :
         {static_cast<QWidget*>(m_title), static_cast<QWidget*>(m_sub), static_cast<QWidget*>(m_pin),
          static_cast<QWidget*>(m_message), static_cast<QWidget*>(m_busy), static_cast<QWidget*>(m_unlock),
          static_cast<QWidget*>(m_other)})
        column->addWidget(widget);
    auto* middle = new QVBoxLayout(this);
    middle->addStretch(1);
    middle->addWidget(m_card, 0, Qt::AlignHCenter);
    middle->addStretch(2);
    hide();
    over->installEventFilter(this);
    connect(m_unlock, &ActionButton::done, this, [this] {
        if (m_view.asksPin)
            Q_EMIT pinGiven(typedIn(*m_pin));
        else
            Q_EMIT signInRequested();
    });
    connect(m_pin->box(), &QLineEdit::returnPressed, m_unlock, &QAbstractButton::click);
    connect(m_other, &QAbstractButton::clicked, this, &LockOverlay::signInRequested);
}

void LockOverlay::setView(const LockView& view)
{
    const bool isEmptied = view.emptied != m_view.emptied || view.isUp != m_view.isUp;
    m_view = view;
    m_title->setText(view.title);
    m_sub->setText(view.sub);
    m_pin->setVisible(view.asksPin);
    m_pin->setEnabled(view.busy.isEmpty());
    m_message->setText(view.message);
    m_message->setVisible(!view.message.isEmpty());
    m_busy->setText(view.busy);
    m_busy->setVisible(!view.busy.isEmpty());
    m_other->setVisible(view.asksPin);
    ActionView action{u"unlock"_s, view.asksPin ? tr("Unlock") : tr("Sign in"), tr("One moment"),
                      view.busy.isEmpty() ? ActionView::Stand::Ready : ActionView::Stand::Waits};
    m_unlock->setView(action);
    if (isEmptied || !view.busy.isEmpty())
        m_pin->wipe();
    if (view.isUp && !isVisible()) {
        setGeometry(m_over->rect());
        show();
    }
    setVisible(view.isUp);
    if (!view.isUp)
        return;
    raise();
    if (view.asksPin && view.busy.isEmpty())
        m_pin->setFocus();
    else if (!view.asksPin)
        m_unlock->setFocus();
}

bool LockOverlay::eventFilter(QObject* watched, QEvent* event)
{
    if (watched == m_over && event->type() == QEvent::Resize)
        setGeometry(m_over->rect());
    return QWidget::eventFilter(watched, event);
}

bool LockOverlay::focusNextPrevChild(bool /*next*/)
{
    // Nothing beneath is reached while it is locked: the focus walks in a circle.
    const QList<QWidget*> stops{m_pin->box(), m_unlock, m_other};
    QWidget* now = focusWidget();
    for (qsizetype step = 1; step <= stops.size(); ++step) {
        QWidget* next = stops[(stops.indexOf(now) + step) % stops.size()];
        if (next->isVisible() && next->isEnabled()) {
            next->setFocus(Qt::TabFocusReason);
            return true;
        }
    }
    return true;
}

void LockOverlay::mousePressEvent(QMouseEvent* event)
{
    event->accept();
}

void LockOverlay::keyPressEvent(QKeyEvent* event)
{
    event->accept();
}

void LockOverlay::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.fillRect(rect(), tokensOf(*this).ground);
}

} // namespace coldarc::ui
