#include "ui/people/sign_in_page.h"

#include "ui/parts/plain_button.h"
#include "ui/parts/show_text.h"
#include "ui/parts/side_page.h"
#include "ui/parts/text_label.h"
#include "ui/people/secret_words.h"

#include <QHBoxLayout>
#include <QLineEdit>
#include <QPainter>
#include <QScrollArea>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kColumn = 460;

} // namespace

SignInPage::SignInPage(const Clock& clock, QWidget* parent)
    : QWidget(parent)
    , m_workspace(new TextLabel(TextRole::Title, Ink::Text, this))
    , m_note(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_inside(new TextLabel(TextRole::Strong, Ink::Text, this))
    , m_goInside(
          new PlainButton(tr("Go on without signing in"), Reach::Glove, PlainButton::Weight::Strong, this))
    , m_people(new RowList(tr("People"), this))
    , m_title(new TextLabel(TextRole::Heading, Ink::Text, this))
    , m_sub(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_secret(new Field(Field::Kind::Secret, this))
    , m_again(new Field(Field::Kind::Secret, this))
    , m_message(new TextLabel(TextRole::Strong, Ink::Text, this))
    , m_busy(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_action(new ActionButton(clock, this))
    , m_right(new QWidget(this))
{
    setObjectName(u"signInPage"_s);
    m_inside->setObjectName(u"inside"_s);
    m_goInside->setObjectName(u"goInside"_s);
    m_secret->setObjectName(u"secret"_s);
    m_again->setObjectName(u"again"_s);
    m_message->setObjectName(u"message"_s);
    m_busy->setObjectName(u"busy"_s);

    auto* leftContent = new QWidget(this);
    auto* leftScroll = bareScroll(leftContent, this);
    leftScroll->setMaximumWidth(kColumn);
    auto* left = new QVBoxLayout(leftContent);
    left->setContentsMargins(0, 0, 8, 0);
    left->setSpacing(14);
    left->addWidget(m_workspace);
    left->addWidget(m_note);
    left->addWidget(m_inside);
    left->addWidget(m_goInside);
    left->addSpacing(10);
    left->addWidget(new SectionLabel(tr("Who works here"), leftContent));
    left->addWidget(m_people);
    left->addStretch(1);

    auto* right = new QVBoxLayout(m_right);
    right->setContentsMargins(0, 0, 0, 0);
    right->setSpacing(14);
    right->addWidget(m_title);
    right->addWidget(m_sub);
    right->addSpacing(6);
    right->addWidget(m_secret);
    right->addWidget(m_again);
    right->addWidget(m_message);
    right->addWidget(m_busy);
    right->addStretch(1);
    right->addWidget(m_action);
    m_right->setMaximumWidth(kColumn);

    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(48, 64, 48, 48);
    row->setSpacing(72);
    row->addStretch(1);
    row->addWidget(leftScroll, 4);
    row->addWidget(m_right, 4);
    row->addStretch(1);

    connect(m_people, &RowList::rowChosen, this, &SignInPage::personChosen);
    connect(m_goInside, &QAbstractButton::clicked, this, &SignInPage::insideRequested);
    connect(m_action, &ActionButton::done, this, &SignInPage::press);
    connect(m_secret->box(), &QLineEdit::returnPressed, this, [this] {
        if (m_view.ask == SignInView::Ask::Pin)
            m_again->setFocus();
        else
            m_action->click();
    });
    connect(m_again->box(), &QLineEdit::returnPressed, m_action, &QAbstractButton::click);
}

void SignInPage::press()
{
    Q_EMIT goRequested(typedIn(*m_secret), typedIn(*m_again));
}

void SignInPage::setView(const SignInView& view)
{
    const bool isEmptied = view.emptied != m_view.emptied;
    const bool isNewQuestion = view.ask != m_view.ask || view.chosen != m_view.chosen;
    m_view = view;
    m_workspace->setText(view.workspace);
    showText(m_note, view.note.join(u'\n'));
    showText(m_inside, view.inside);
    m_goInside->setVisible(!view.inside.isEmpty());
    m_people->setRows(view.people, view.chosen);
    m_people->setEnabled(view.busy.isEmpty());
    showText(m_title, view.title);
    showText(m_sub, view.sub);
    const bool asks = view.ask != SignInView::Ask::Who;
    m_secret->setVisible(asks);
    m_again->setVisible(view.ask == SignInView::Ask::Pin);
    m_secret->setView(view.secret);
    m_again->setView(view.again);
    if (isEmptied || !view.busy.isEmpty()) { // what is being tried stands nowhere else by now
        m_secret->wipe();
        m_again->wipe();
    }
    m_secret->setEnabled(view.busy.isEmpty());
    m_again->setEnabled(view.busy.isEmpty());
    showText(m_message, view.message);
    showText(m_busy, view.busy);
    m_action->setView(view.action);
    if (asks && view.busy.isEmpty() && (isNewQuestion || isEmptied))
        m_secret->setFocus();
}

void SignInPage::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    const Tokens& t = tokensOf(*this);
    painter.fillRect(rect(), t.ground);
    painter.setPen(t.line);
    const int x = m_right->x() - 36;
    painter.drawLine(x, 64, x, height() - 48);
}

} // namespace coldarc::ui
