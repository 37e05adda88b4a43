#include "ui/visit/people_here_page.h"

#include "ui/parts/page_keys.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/retire.h"
#include "ui/parts/show_text.h"
#include "ui/parts/tab_stops.h"
#include "ui/parts/text_label.h"
#include "ui/people/secret_words.h"
#include "ui/visit/bench_captures.h"

#include <QApplication>
#include <QGridLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QScrollArea>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kDeedColumns = 2;
constexpr int kLabelWidth = 110;

} // namespace

PeopleHerePage::PeopleHerePage(const Clock& clock, QWidget* parent)
    : SidePage(parent)
    , m_people(new RowList(tr("Who is here"), this))
    , m_join(new PlainButton(tr("Somebody came"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_leave(new PlainButton(tr("Back to the bench"), Reach::Glove, PlainButton::Weight::Quiet, this))
    , m_title(namedLabel(TextRole::Title, Ink::Text, u"personTitle"_s, this))
    , m_sub(namedLabel(TextRole::Body, Ink::Quiet, u"personSub"_s, this))
    , m_factGrid(new QGridLayout)
    , m_deedGrid(new QGridLayout)
    , m_begun(namedLabel(TextRole::Heading, Ink::Text, u"begun"_s, this))
    , m_words(namedLabel(TextRole::Body, Ink::Text, u"words"_s, this))
    , m_newcomers(new RowList(tr("Who came"), this))
    , m_asks(new CapturePanel(this))
    , m_secret(new Field(Field::Kind::Secret, this))
    , m_again(new Field(Field::Kind::Secret, this))
    , m_said(namedLabel(TextRole::Strong, Ink::Text, u"said"_s, this))
    , m_busy(namedLabel(TextRole::Small, Ink::Quiet, u"busy"_s, this))
    , m_notNow(new PlainButton(tr("Not now"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_action(new ActionButton(clock, this))
{
    setObjectName(u"peopleHerePage"_s);
    setFocusPolicy(Qt::ClickFocus); // Tab halts at its parts
    m_people->setObjectName(u"peopleHere"_s);
    m_newcomers->setObjectName(u"newcomers"_s);
    m_join->setObjectName(u"join"_s);
    m_leave->setObjectName(u"leave"_s);
    m_leave->setKeyCap(u"Esc"_s);
    m_notNow->setObjectName(u"notNow"_s);
    m_notNow->setKeyCap(u"Esc"_s);
    m_secret->setObjectName(u"secret"_s);
    m_again->setObjectName(u"again"_s);
    makeSide();
    makeBody();
    bindKeys();
    connect(m_people, &RowList::rowChosen, this, &PeopleHerePage::personChosen);
    connect(m_newcomers, &RowList::rowChosen, this, &PeopleHerePage::newcomerChosen);
    connect(m_join, &QAbstractButton::clicked, this, &PeopleHerePage::joinRequested);
    connect(m_leave, &QAbstractButton::clicked, this, &PeopleHerePage::leaveRequested);
    connect(m_notNow, &QAbstractButton::clicked, this, &PeopleHerePage::leaveRequested);
    connect(m_action, &ActionButton::done, this, &PeopleHerePage::tellDone);
}

void PeopleHerePage::makeSide()
{
    side()->addWidget(new SectionLabel(tr("Who is here"), this));
    side()->addWidget(m_people);
    side()->addSpacing(8);
    side()->addWidget(m_join);
    side()->addStretch(1);
    side()->addWidget(m_leave);
}

void PeopleHerePage::makeBody()
{
    m_factGrid->setColumnMinimumWidth(0, kLabelWidth);
    m_factGrid->setColumnStretch(1, 1);
    m_factGrid->setVerticalSpacing(8);
    m_deedGrid->setSpacing(12);
    for (int column = 0; column < kDeedColumns; ++column)
        m_deedGrid->setColumnStretch(column, 1);
    m_words->setLeading(4);
    body()->addWidget(m_title);
    body()->addWidget(m_sub);
    body()->addLayout(m_factGrid);
    body()->addSpacing(8);
    body()->addLayout(m_deedGrid);
    body()->addWidget(m_begun);
    body()->addWidget(m_words);
    body()->addWidget(m_newcomers);
    body()->addWidget(m_asks);
    body()->addWidget(m_secret);
    body()->addWidget(m_again);
    body()->addWidget(m_said);
    body()->addWidget(m_busy);
    body()->addStretch(1);
    m_secret->setMaximumWidth(460);
    m_again->setMaximumWidth(460);
    m_action->setMaximumWidth(520);
    auto* buttons = new QHBoxLayout;
    buttons->addWidget(m_notNow, 0, Qt::AlignBottom);
    buttons->addSpacing(gloveGap(*this));
    buttons->addStretch(1);
    buttons->addWidget(m_action, 1000, Qt::AlignBottom);
    foot()->addLayout(buttons);
}

void PeopleHerePage::bindKeys()
{
    onEnter(*this, [this] { press(); });
    onEscape(*this, [this] { Q_EMIT leaveRequested(); });
}

void PeopleHerePage::press()
{
    if (m_asks->chooseWalkedTo() || pressWalkedTo(*this))
        return;
    const QWidget* holder = QApplication::focusWidget();
    if (holder == m_secret->box() && m_again->isVisible())
        return m_again->box()->setFocus(Qt::TabFocusReason);
    if (!m_asks->moveOn())
        m_action->click();
}

void PeopleHerePage::tellDone()
{
    Q_EMIT doneRequested(m_asks->answers(), typedIn(*m_secret), typedIn(*m_again));
}

void PeopleHerePage::keyPressEvent(QKeyEvent* event)
{
    if (event->isAutoRepeat() || !m_asks->chooseByNumber(event->key() - Qt::Key_0))
        SidePage::keyPressEvent(event);
}

void PeopleHerePage::showFacts()
{
    for (QWidget* label : m_facts)
        retire(label);
    m_facts.clear();
    for (int row = 0; row < static_cast<int>(m_view.facts.size()); ++row) {
        auto* label = new TextLabel(TextRole::Body, Ink::Quiet, this);
        label->setText(m_view.facts.at(row).label);
        auto* text = new TextLabel(TextRole::Body, Ink::Text, this);
        text->setText(m_view.facts.at(row).text);
        text->setObjectName(u"fact-%1"_s.arg(row));
        text->setAccessibleName(u"%1: %2"_s.arg(label->text(), text->text()));
        m_factGrid->addWidget(label, row, 0, Qt::AlignTop);
        m_factGrid->addWidget(text, row, 1, Qt::AlignTop);
        m_facts << label << text;
    }
}

void PeopleHerePage::showDeeds()
{
    for (PlainButton* button : m_deeds)
        retire(button);
    m_deeds.clear();
    for (int index = 0; index < static_cast<int>(m_view.deeds.size()); ++index) {
        const PeopleHereView::Deed& deed = m_view.deeds.at(index);
        auto* button = new PlainButton(deed.text, Reach::Hand, PlainButton::Weight::Quiet, this);
        button->setObjectName(u"deed-%1"_s.arg(deed.id));
        button->setSub(deed.sub);
        connect(button, &QAbstractButton::clicked, this, [this, id = deed.id] { Q_EMIT deedRequested(id); });
        m_deedGrid->addWidget(button, index / kDeedColumns, index % kDeedColumns);
        m_deeds.append(button);
    }
}

void PeopleHerePage::setView(const PeopleHereView& view)
{
    const PeopleHereView before = std::exchange(m_view, view);
    const bool isNew = view.action.stepKey != before.action.stepKey;
    const bool isBegun = !view.begun.isEmpty();
    m_people->setRows(view.people, view.chosen);
    m_people->setEnabled(view.busy.isEmpty());
    showText(m_title, view.title);
    showText(m_sub, view.sub);
    if (view.facts != before.facts)
        showFacts();
    if (view.deeds != before.deeds)
        showDeeds();
    showText(m_begun, view.begun);
    showText(m_words, view.words.join(u'\n'));
    m_newcomers->setRows(view.newcomers, view.newcomer, view.noNewcomers);
    m_newcomers->setVisible(!view.noNewcomers.isEmpty());
    m_asks->setCaptures(view.action.stepKey, view.asks);
    m_asks->setVisible(!view.asks.isEmpty());
    m_secret->setVisible(view.asksSecret);
    m_again->setVisible(view.asksTwice);
    m_secret->setView(view.secret);
    m_again->setView(view.again);
    if (view.emptied != before.emptied || !view.busy.isEmpty()) {
        m_secret->wipe();
        m_again->wipe();
    }
    m_secret->setEnabled(view.busy.isEmpty());
    m_again->setEnabled(view.busy.isEmpty());
    showText(m_said, view.said.join(u'\n'));
    showText(m_busy, view.busy);
    m_notNow->setVisible(isBegun);
    m_leave->setVisible(!isBegun);
    m_action->setVisible(isBegun);
    m_action->setView(view.action);
    const bool isAskedAgain = view.asksSecret && view.busy.isEmpty() && view.emptied != before.emptied;
    if (isNew || isAskedAgain)
        takeFocus();
}

void PeopleHerePage::takeFocus()
{
    const bool isJoining = !m_view.noNewcomers.isEmpty();
    if (m_view.asksSecret)
        m_secret->box()->setFocus(Qt::OtherFocusReason);
    else if (const QList<QWidget*> rows = tabStops(*m_newcomers); isJoining && !rows.isEmpty())
        rows.first()->setFocus(Qt::TabFocusReason);
    else if (m_view.asks.isEmpty() || !m_asks->focusFirst())
        setFocus(Qt::OtherFocusReason);
}

} // namespace coldarc::ui
