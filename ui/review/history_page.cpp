#include "ui/review/history_page.h"

#include "ui/parts/field.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/show_text.h"

#include <QApplication>
#include <QClipboard>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QScrollArea>
#include <QScrollBar>
#include <QShortcut>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kAboveSection = 4;

} // namespace

HistoryPage::HistoryPage(QWidget* parent)
    : SidePage(parent)
    , m_about(new ChoiceRow(this))
    , m_search(new Field(Field::Kind::Text, this))
    , m_found(new RowList(tr("Found"), this))
    , m_more(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_reach(new TextLabel(TextRole::Small, Ink::Text, this))
    , m_title(new TextLabel(TextRole::Title, Ink::Text, this))
    , m_sub(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_owedName(new SectionLabel(tr("Owed still"), this))
    , m_owed(new CardLines(this))
    , m_staysName(new SectionLabel(QString(), this))
    , m_stays(new CardLines(this))
    , m_linesName(new SectionLabel(tr("What happened"), this))
    , m_part(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_lines(new CardLines(this))
    , m_newer(new PlainButton(tr("Newer"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_older(new PlainButton(tr("Older"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_copy(new PlainButton(tr("Copy as text"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_said(new TextLabel(TextRole::Small, Ink::Quiet, this))
{
    setObjectName(u"historyPage"_s);
    const std::initializer_list<std::pair<QWidget*, QString>> names{
        {m_about, u"about"_s}, {m_search, u"search"_s}, {m_found, u"found"_s}, {m_reach, u"reach"_s},
        {m_title, u"title"_s}, {m_owed, u"owed"_s},     {m_stays, u"stays"_s}, {m_lines, u"lines"_s},
        {m_part, u"part"_s},   {m_newer, u"newer"_s},   {m_older, u"older"_s}, {m_copy, u"copy"_s},
        {m_said, u"said"_s}};
    for (const auto& [widget, name] : names)
        widget->setObjectName(name);
    m_copy->setKeyCap(u"Ctrl+C"_s);
    makeSide();
    makeBody();
    connect(m_about, &ChoiceRow::choiceChanged, this, &HistoryPage::aboutChosen);
    connect(m_search, &Field::valueChanged, this, &HistoryPage::searched);
    connect(m_search->box(), &QLineEdit::returnPressed, this, &HistoryPage::chooseFirst);
    connect(m_found, &RowList::rowChosen, this, &HistoryPage::chosen);
    connect(m_lines, &CardLines::actRequested, this, &HistoryPage::lookUpRequested);
    connect(m_stays, &CardLines::actRequested, this, &HistoryPage::stayFollowed);
    connect(m_newer, &QAbstractButton::clicked, this, &HistoryPage::newerRequested);
    connect(m_older, &QAbstractButton::clicked, this, &HistoryPage::olderRequested);
    connect(m_copy, &QAbstractButton::clicked, this, &HistoryPage::copy);
    const auto bind = [this](const QKeySequence& keys, void (HistoryPage::*deed)()) {
        auto* shortcut = new QShortcut(keys, this);
        shortcut->setContext(Qt::WidgetWithChildrenShortcut);
        connect(shortcut, &QShortcut::activated, this, deed);
    };
    bind(QKeySequence::Find, &HistoryPage::takeFocus);
    bind(QKeySequence::Copy, &HistoryPage::copy);
    setView({});
}

void HistoryPage::makeSide()
{
    side()->addWidget(new SectionLabel(tr("The history of a"), this));
    side()->addWidget(m_about);
    side()->addSpacing(6);
    side()->addWidget(m_search);
    side()->addWidget(m_reach);
    side()->addWidget(m_found);
    side()->addWidget(m_more);
    side()->addStretch(1);
}

void HistoryPage::makeBody()
{
    body()->addWidget(m_title);
    body()->addWidget(m_sub);
    for (const auto& [name, lines] : {std::pair(m_owedName, m_owed), std::pair(m_staysName, m_stays)}) {
        body()->addSpacing(kAboveSection);
        body()->addWidget(name);
        body()->addWidget(lines);
    }
    body()->addSpacing(kAboveSection);
    body()->addWidget(m_linesName);
    body()->addWidget(m_lines);
    auto* pages = new QHBoxLayout;
    pages->setSpacing(12);
    pages->addWidget(m_newer);
    pages->addWidget(m_older);
    pages->addWidget(m_part, 1);
    body()->addLayout(pages);
    body()->addStretch(1);
    auto* row = new QHBoxLayout;
    row->setSpacing(16);
    row->addWidget(m_copy);
    row->addWidget(m_said);
    row->addStretch(1);
    foot()->addLayout(row);
}

void HistoryPage::showSection(SectionLabel* name, CardLines* lines, const QString& text,
                              const QList<CardLine>& shown)
{
    name->setText(text);
    name->setVisible(!shown.isEmpty());
    lines->setVisible(!shown.isEmpty());
    lines->setLines(shown);
}

void HistoryPage::setView(const HistoryView& view)
{
    const bool isAnother = view.title != m_view.title || view.part != m_view.part;
    m_view = view;
    m_about->setView(view.about);
    m_about->setAccessibleName(tr("The history of a"));
    m_search->setView({tr("Find"), view.words, QString(), view.hint, QString()});
    m_found->setRows(view.found, view.chosen, view.notFound);
    showText(m_more, view.more);
    showText(m_reach, view.reach);
    showText(m_title, view.title);
    showText(m_sub, view.sub);
    showSection(m_owedName, m_owed, tr("Owed still"), view.owed);
    showSection(m_staysName, m_stays, view.staysName, view.stays);
    m_linesName->setVisible(!view.title.isEmpty());
    showText(m_part, view.part);
    m_lines->setLines(view.lines, view.noLines);
    m_newer->setVisible(view.hasNewer);
    m_older->setVisible(view.hasOlder);
    m_copy->setVisible(!view.title.isEmpty());
    showText(m_said, view.said);
    if (isAnother)
        bodyScroll()->verticalScrollBar()->setValue(0);
}

void HistoryPage::takeFocus()
{
    m_search->box()->setFocus(Qt::ShortcutFocusReason);
    m_search->box()->selectAll();
}

void HistoryPage::chooseFirst()
{
    if (!m_view.found.isEmpty())
        Q_EMIT chosen(m_view.found.value(0).id);
}

void HistoryPage::copy()
{
    if (!m_text || m_view.title.isEmpty())
        return;
    QApplication::clipboard()->setText(m_text());
    Q_EMIT copied();
}

void HistoryPage::showEvent(QShowEvent* event)
{
    SidePage::showEvent(event);
    Q_EMIT inSight();
}

} // namespace coldarc::ui
