#include "ui/visit/incident_page.h"

#include "ui/parts/page_keys.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/retire.h"
#include "ui/parts/side_page.h"
#include "ui/parts/text_label.h"
#include "ui/visit/bench_captures.h"

#include <QApplication>
#include <QGridLayout>
#include <QKeyEvent>
#include <QPainter>
#include <QScrollArea>
#include <QStackedLayout>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kColumns = 4;

QString numbered(const QStringList& lines)
{
    QStringList all;
    for (qsizetype i = 0; i < lines.size(); ++i)
        all.append(u"%1.\u2002%2"_s.arg(i + 1).arg(lines.at(i)));
    return all.join(u'\n');
}

} // namespace

IncidentPage::IncidentPage(const Clock& clock, QWidget* parent)
    : QWidget(parent)
    , m_pages(new QStackedLayout)
    , m_place(new SectionLabel(QString(), this))
    , m_kindGrid(new QGridLayout)
    , m_openTitle(new SectionLabel(tr("Not answered yet"), this))
    , m_openLayout(new QVBoxLayout)
    , m_title(new TextLabel(TextRole::Title, Ink::Text, this))
    , m_now(new TextLabel(TextRole::Heading, Ink::Text, this))
    , m_asks(new CapturePanel(this))
    , m_said(new TextLabel(TextRole::Strong, Ink::Text, this))
    , m_action(new ActionButton(clock, this))
{
    setObjectName(u"incidentPage"_s);
    setFocusPolicy(Qt::ClickFocus); // Tab halts at its parts
    m_title->setObjectName(u"incidentTitle"_s);
    m_now->setObjectName(u"nowDo"_s);
    m_said->setObjectName(u"said"_s);
    m_now->setLeading(8);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(40, 26, 40, 24);
    column->setSpacing(8);
    column->addWidget(m_place);
    column->addLayout(m_pages, 1);
    m_pages->addWidget(makeList());
    m_pages->addWidget(makePath());
    connect(m_action, &ActionButton::done, this, [this] { Q_EMIT doneRequested(m_asks->answers()); });
    onEnter(*this, [this] { press(); });
    onEscape(*this, [this] { back(); });
}

QWidget* IncidentPage::makeList()
{
    auto* page = new QWidget(this);
    auto* body = new QWidget;
    auto* inside = new QVBoxLayout(body);
    inside->setContentsMargins(0, 0, 8, 0);
    inside->setSpacing(16);
    inside->addWidget(m_openTitle);
    inside->addLayout(m_openLayout);
    inside->addLayout(m_kindGrid);
    inside->addStretch(1);
    m_kindGrid->setVerticalSpacing(gloveGap(*this));
    m_kindGrid->setHorizontalSpacing(gloveGap(*this));
    auto* title = new TextLabel(TextRole::Title, Ink::Text, page);
    title->setText(tr("What went wrong?"));
    auto* leave =
        new PlainButton(tr("Nothing: back to the bench"), Reach::Glove, PlainButton::Weight::Quiet, page);
    leave->setObjectName(u"leave"_s);
    leave->setKeyCap(u"Esc"_s);
    connect(leave, &QAbstractButton::clicked, this, &IncidentPage::leaveRequested);
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(14);
    column->addWidget(title);
    column->addWidget(bareScroll(body, page), 1);
    column->addWidget(leave, 0, Qt::AlignLeft);
    return page;
}

QWidget* IncidentPage::makePath()
{
    auto* page = new QWidget(this);
    auto* body = new QWidget;
    auto* inside = new QVBoxLayout(body);
    inside->setContentsMargins(0, 0, 8, 0);
    inside->setSpacing(20);
    inside->addWidget(new SectionLabel(tr("Now"), body));
    inside->addWidget(m_now);
    inside->addWidget(m_asks);
    inside->addWidget(m_said);
    inside->addStretch(1);
    auto* leave = new PlainButton(tr("Another one"), Reach::Glove, PlainButton::Weight::Quiet, page);
    leave->setObjectName(u"another"_s);
    leave->setKeyCap(u"Esc"_s);
    connect(leave, &QAbstractButton::clicked, this, &IncidentPage::listRequested);
    m_action->setMaximumWidth(520);
    auto* buttons = new QHBoxLayout;
    buttons->addWidget(leave, 0, Qt::AlignBottom);
    buttons->addSpacing(gloveGap(*this));
    buttons->addStretch(1);
    buttons->addWidget(m_action, 1000, Qt::AlignBottom);
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(18);
    column->addWidget(m_title);
    column->addWidget(bareScroll(body, page), 1);
    column->addLayout(buttons);
    return page;
}

void IncidentPage::showKinds()
{
    if (!m_kinds.isEmpty())
        return; // the list is always the same
    for (int i = 0; i < static_cast<int>(m_view.kinds.size()); ++i) {
        const IncidentView::Kind& kind = m_view.kinds.at(i);
        const auto weight = kind.isWorst ? PlainButton::Weight::Strong : PlainButton::Weight::Quiet;
        auto* button = new PlainButton(kind.name, Reach::Glove, weight, this);
        button->setObjectName(u"incident-%1"_s.arg(kind.id));
        connect(button, &QAbstractButton::clicked, this, [this, id = kind.id] { Q_EMIT kindChosen(id); });
        m_kindGrid->addWidget(button, i / kColumns, i % kColumns);
        m_kinds.append(button);
    }
    for (int column = 0; column < kColumns; ++column)
        m_kindGrid->setColumnStretch(column, 1);
}

void IncidentPage::showOpen()
{
    for (PlainButton* button : m_open)
        retire(button);
    m_open.clear();
    for (const IncidentView::Open& one : m_view.open) {
        auto* button = new PlainButton(tr("%1, %2: say what was done").arg(one.when, one.name), Reach::Hand,
                                       PlainButton::Weight::Quiet, this);
        button->setObjectName(u"open-%1"_s.arg(one.entry));
        connect(button, &QAbstractButton::clicked, this,
                [this, entry = one.entry] { Q_EMIT openChosen(entry); });
        m_openLayout->addWidget(button);
        m_open.append(button);
    }
    m_openTitle->setVisible(!m_open.isEmpty());
}

void IncidentPage::setView(const IncidentView& view)
{
    const bool isNew = view.chosen != m_view.chosen || view.action.stepKey != m_view.action.stepKey;
    m_view = view;
    m_place->setText(view.place);
    showKinds();
    showOpen();
    m_title->setText(view.title);
    m_now->setText(numbered(view.nowDo));
    m_asks->setCaptures(view.action.stepKey, view.asks);
    m_said->setText(view.said.join(u'\n'));
    m_said->setVisible(!view.said.isEmpty());
    m_action->setView(view.action);
    m_pages->setCurrentIndex(view.chosen < 0 ? 0 : 1);
    if (isNew && !m_asks->focusFirst())
        setFocus(Qt::OtherFocusReason);
}

void IncidentPage::press()
{
    auto* button = qobject_cast<QAbstractButton*>(QApplication::focusWidget());
    if (button && !m_asks->isAncestorOf(button))
        button->click();
    else if (m_view.chosen >= 0 && !m_asks->chooseWalkedTo())
        m_action->click();
}

void IncidentPage::back()
{
    if (m_view.chosen < 0)
        Q_EMIT leaveRequested();
    else
        Q_EMIT listRequested();
}

void IncidentPage::keyPressEvent(QKeyEvent* event)
{
    const bool isAnswer =
        m_view.chosen >= 0 && !event->isAutoRepeat() && m_asks->chooseByNumber(event->key() - Qt::Key_0);
    if (!isAnswer)
        QWidget::keyPressEvent(event);
}

void IncidentPage::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.fillRect(rect(), tokensOf(*this).ground);
}

} // namespace coldarc::ui
