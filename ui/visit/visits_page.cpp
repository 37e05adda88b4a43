#include "ui/visit/visits_page.h"

#include "ui/parts/page_keys.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/show_text.h"
#include "ui/parts/text_label.h"

#include <QHBoxLayout>
#include <QVBoxLayout>

#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kActionWidth = 400;
constexpr int kListGap = 12;

} // namespace

VisitsPage::VisitsPage(const Clock& clock, QWidget* parent)
    : SidePage(parent)
    , m_message(new TextLabel(TextRole::Strong, Ink::Text, bodyArea()))
    , m_tonightName(new SectionLabel(tr("Tonight"), sideArea()))
    , m_tonight(new RowList(tr("Visits planned for tonight"), sideArea()))
    , m_unfinishedName(new SectionLabel(tr("Unfinished"), sideArea()))
    , m_unfinished(new RowList(tr("Unfinished visits"), sideArea()))
    , m_sentBackName(new SectionLabel(tr("Sent back"), sideArea()))
    , m_sentBack(new RowList(tr("Sent back"), sideArea()))
    , m_owedName(new SectionLabel(tr("Owed"), sideArea()))
    , m_owed(new RowList(tr("What earlier visits left"), sideArea()))
    , m_comingName(new SectionLabel(tr("Coming"), sideArea()))
    , m_coming(new RowList(tr("Coming visits"), sideArea()))
    , m_closedName(new SectionLabel(tr("Over"), sideArea()))
    , m_closed(new RowList(tr("Visits that are over"), sideArea()))
    , m_empty(new TextLabel(TextRole::Body, Ink::Quiet, bodyArea()))
    , m_card(new QWidget(bodyArea()))
    , m_title(new TextLabel(TextRole::Title, Ink::Text, m_card))
    , m_sub(new TextLabel(TextRole::Small, Ink::Quiet, m_card))
    , m_needs(new TextLabel(TextRole::Heading, Ink::Text, m_card))
    , m_gap(new TextLabel(TextRole::Body, Ink::Text, m_card))
    , m_verdict(new TextLabel(TextRole::Small, Ink::Quiet, m_card))
    , m_said(new TextLabel(TextRole::Body, Ink::Text, m_card))
    , m_linesName(new SectionLabel(QString(), m_card))
    , m_lines(new CardLines(m_card))
    , m_kit(new TickList(m_card))
    , m_new(new PlainButton(tr("New visit"), Reach::Hand, PlainButton::Weight::Quiet, sideArea()))
    , m_dropQuestion(new TextLabel(TextRole::Strong, Ink::Text, this))
    , m_drop(new PlainButton(tr("Take it off the list"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_dropNow(new PlainButton(tr("Take it off"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_keep(new PlainButton(tr("Keep it"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_look(new PlainButton(QString(), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_action(new ActionButton(clock, this))
{
    setObjectName(u"visitsPage"_s);
    m_new->setObjectName(u"newVisit"_s);
    m_new->setKeyCap(u"Ctrl+N"_s);
    m_drop->setObjectName(u"drop"_s);
    m_dropNow->setObjectName(u"dropNow"_s);
    m_keep->setObjectName(u"keepPlan"_s);
    m_dropQuestion->setObjectName(u"dropQuestion"_s);
    m_look->setObjectName(u"whatWasDone"_s);
    m_message->setObjectName(u"message"_s);
    m_said->setObjectName(u"supervisorSaid"_s);
    m_empty->setObjectName(u"empty"_s);
    for (QWidget* asked : {static_cast<QWidget*>(m_dropQuestion), static_cast<QWidget*>(m_dropNow),
                           static_cast<QWidget*>(m_keep)})
        asked->hide();
    m_kit->setObjectName(u"kit"_s);
    side()->addWidget(m_new);
    side()->addSpacing(8);
    const std::initializer_list<std::pair<TextLabel*, RowList*>> lists{
        {m_tonightName, m_tonight}, {m_unfinishedName, m_unfinished}, {m_sentBackName, m_sentBack},
        {m_owedName, m_owed},       {m_comingName, m_coming},         {m_closedName, m_closed}};
    for (const auto& [name, list] : lists) {
        side()->addWidget(name);
        side()->addWidget(list);
        list->setContentsMargins(0, 0, 0, kListGap); // or its last line would seem to belong to the next name
        connect(list, &RowList::rowChosen, this, &VisitsPage::rowChosen);
    }
    side()->addStretch(1);

    auto* column = new QVBoxLayout(m_card);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(10);
    column->addWidget(m_title);
    column->addWidget(m_sub);
    column->addSpacing(6);
    column->addWidget(m_needs);
    column->addWidget(m_gap);
    column->addWidget(m_verdict);
    column->addWidget(m_said);
    column->addSpacing(10);
    column->addWidget(m_linesName);
    column->addWidget(m_lines);
    column->addSpacing(10);
    column->addWidget(m_kit);
    body()->addWidget(m_message);
    body()->addWidget(m_empty);
    body()->addWidget(m_card);
    body()->addStretch(1);

    auto* row = new QHBoxLayout;
    row->setSpacing(16);
    for (PlainButton* button : {m_drop, m_dropNow, m_keep})
        row->addWidget(button, 0, Qt::AlignBottom);
    row->addWidget(m_look, 0, Qt::AlignBottom);
    row->addStretch(1);
    row->addWidget(m_action);
    m_action->setFixedWidth(kActionWidth);
    foot()->setSpacing(12);
    foot()->addWidget(m_dropQuestion);
    foot()->addLayout(row);

    connect(m_kit, &TickList::ticksChanged, this, &VisitsPage::kitTicked);
    connect(m_action, &ActionButton::done, this, &VisitsPage::goRequested);
    connect(m_lines, &CardLines::actRequested, this, &VisitsPage::settleRequested);
    connect(m_drop, &QAbstractButton::clicked, this, &VisitsPage::dropAsked);
    connect(m_dropNow, &QAbstractButton::clicked, this, &VisitsPage::dropRequested);
    connect(m_keep, &QAbstractButton::clicked, this, &VisitsPage::dropLeft);
    connect(m_look, &QAbstractButton::clicked, this, &VisitsPage::whatWasDoneRequested);
    connect(m_new, &QAbstractButton::clicked, this, &VisitsPage::newVisitRequested);
    onEnter(*this, [this] {
        if (!pressWalkedTo(*this) && m_action->isVisible())
            m_action->click();
    });
}

void VisitsPage::setView(const VisitsView& view)
{
    m_view = view;
    m_tonight->setRows(view.tonight, view.chosen, tr("No visit is planned for tonight."));
    const auto showList = [&](TextLabel* name, RowList* list, const QList<RowView>& rows) {
        name->setVisible(!rows.isEmpty());
        list->setVisible(!rows.isEmpty());
        list->setRows(rows, view.chosen);
    };
    showList(m_unfinishedName, m_unfinished, view.unfinished);
    showList(m_sentBackName, m_sentBack, view.sentBack);
    showList(m_owedName, m_owed, view.owed);
    showList(m_comingName, m_coming, view.coming);
    showList(m_closedName, m_closed, view.closed);
    m_new->setVisible(view.canOpen);
    showText(m_message, view.message);
    showText(m_empty, view.empty);
    m_card->setVisible(view.card.has_value());
    m_action->setVisible(view.card && !view.card->action.text.isEmpty());
    const bool wasAsked = m_keep->isVisibleTo(this);
    const QString question = view.card ? view.card->dropQuestion : QString();
    showText(m_dropQuestion, question);
    m_keep->setVisible(!question.isEmpty());
    m_dropNow->setVisible(!question.isEmpty());
    if (wasAsked && question.isEmpty() && isVisible())
        setFocus(Qt::OtherFocusReason);
    else if (!wasAsked && !question.isEmpty())
        m_keep->setFocus(Qt::TabFocusReason); // to drop something is not the answer of a hasty Enter
    m_drop->setVisible(view.card && view.card->canDrop);
    m_look->setVisible(view.card && !view.card->look.isEmpty());
    if (view.card)
        showCard(*view.card);
}

void VisitsPage::showCard(const VisitCard& card)
{
    m_title->setText(card.title);
    showText(m_sub, card.sub);
    showText(m_needs, card.needs);
    showText(m_gap, card.gap);
    showText(m_verdict, card.verdict);
    showText(m_said, card.said);
    showText(m_linesName, card.linesName);
    m_lines->setLines(card.lines);
    m_kit->setVisible(!card.kit.items.isEmpty());
    m_kit->setView(card.kit);
    m_look->setText(card.look);
    m_look->setAccessibleName(card.look);
    m_action->setView(card.action);
}

} // namespace coldarc::ui
