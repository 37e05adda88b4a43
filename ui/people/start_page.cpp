#include "ui/people/start_page.h"

#include "ui/parts/page_keys.h"
#include "ui/parts/side_page.h"
#include "ui/parts/text_label.h"
#include "ui/people/secret_words.h"

#include <QHBoxLayout>
#include <QPainter>
#include <QScrollArea>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kColumn = 560;
constexpr int kActionWidth = 400;

} // namespace

StartPage::StartPage(const Clock& clock, QWidget* parent)
    : QWidget(parent)
    , m_workspace(new Field(Field::Kind::Text, this))
    , m_name(new Field(Field::Kind::Text, this))
    , m_role(new ChoiceRow(this))
    , m_passphrase(new Field(Field::Kind::Secret, this))
    , m_again(new Field(Field::Kind::Secret, this))
    , m_passphraseNote(new TextLabel(TextRole::Caption, Ink::Quiet, this))
    , m_duties(new TickList(this))
    , m_dutiesNote(new TextLabel(TextRole::Caption, Ink::Quiet, this))
    , m_from(new Field(Field::Kind::Text, this))
    , m_until(new Field(Field::Kind::Text, this))
    , m_message(new TextLabel(TextRole::Strong, Ink::Text, this))
    , m_action(new ActionButton(clock, this))
{
    setObjectName(u"startPage"_s);
    m_workspace->setObjectName(u"workspace"_s);
    m_name->setObjectName(u"name"_s);
    m_role->setObjectName(u"role"_s);
    m_passphrase->setObjectName(u"passphrase"_s);
    m_again->setObjectName(u"again"_s);
    m_duties->setObjectName(u"duties"_s);
    m_from->setObjectName(u"from"_s);
    m_until->setObjectName(u"until"_s);
    m_message->setObjectName(u"message"_s);

    auto* title = new TextLabel(TextRole::Title, Ink::Text, this);
    title->setText(tr("Start here"));
    auto* lead = new TextLabel(TextRole::Small, Ink::Quiet, this);
    lead->setText(
        tr("This workspace is one file on this laptop and is empty. You are its first person. Sites, "
           "lamps and colleagues come afterwards, each on its own page."));

    auto* content = new QWidget(this);
    auto* columns = new QHBoxLayout;
    columns->setSpacing(72);
    columns->addWidget(makeYou(), 1);
    columns->addWidget(makeDuties(), 1);
    columns->addStretch(0);
    auto* page = new QVBoxLayout(content);
    page->setContentsMargins(56, 28, 56, 12);
    page->setSpacing(8);
    page->addWidget(title);
    page->addWidget(lead);
    page->addSpacing(16);
    page->addLayout(columns);
    page->addStretch(1);

    auto* foot = new QHBoxLayout;
    foot->setContentsMargins(56, 8, 56, 28);
    foot->setSpacing(40);
    foot->addWidget(m_message, 1);
    foot->addWidget(m_action);
    m_action->setFixedWidth(kActionWidth);
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(0, 0, 0, 0);
    whole->setSpacing(0);
    whole->addWidget(bareScroll(content, this), 1);
    whole->addLayout(foot);
    m_message->setAlignment(Qt::AlignLeft | Qt::AlignVCenter);

    connect(m_action, &ActionButton::done, this, [this] { Q_EMIT createRequested(form()); });
    setFocusProxy(m_workspace);
    onEnter(*this, [this] { m_action->click(); });
}

QWidget* StartPage::makeYou()
{
    auto* you = new QWidget(this);
    you->setMaximumWidth(kColumn);
    auto* column = new QVBoxLayout(you);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(12);
    column->addWidget(new SectionLabel(tr("Workspace and you"), you));
    for (QWidget* widget : {static_cast<QWidget*>(m_workspace), static_cast<QWidget*>(m_name),
                            static_cast<QWidget*>(m_role), static_cast<QWidget*>(m_passphrase),
                            static_cast<QWidget*>(m_again), static_cast<QWidget*>(m_passphraseNote)})
        column->addWidget(widget);
    column->addStretch(1);
    return you;
}

QWidget* StartPage::makeDuties()
{
    auto* duties = new QWidget(this);
    duties->setMaximumWidth(kColumn);
    auto* column = new QVBoxLayout(duties);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(12);
    column->addWidget(new SectionLabel(tr("What you may do"), duties));
    column->addWidget(m_duties);
    auto* dates = new QHBoxLayout;
    dates->setSpacing(16);
    dates->addWidget(m_from);
    dates->addWidget(m_until);
    column->addLayout(dates);
    column->addWidget(m_dutiesNote);
    column->addStretch(1);
    return duties;
}

StartForm StartPage::form() const
{
    return {m_workspace->value(), m_name->value(),    m_role->chosen(), typedIn(*m_passphrase),
            typedIn(*m_again),    m_duties->ticked(), m_from->value(),  m_until->value()};
}

void StartPage::setView(const StartView& view)
{
    m_workspace->setView(view.workspace);
    m_name->setView(view.name);
    m_role->setView(view.role);
    m_passphrase->setView(view.passphrase);
    m_again->setView(view.again);
    if (!view.busy.isEmpty()) {
        m_passphrase->wipe();
        m_again->wipe();
    }
    m_passphraseNote->setText(view.passphraseNote);
    m_duties->setView(view.duties);
    m_dutiesNote->setText(view.dutiesNote);
    m_from->setView(view.from);
    m_until->setView(view.until);
    m_message->setText(view.busy.isEmpty() ? view.message : view.busy);
    m_action->setView(view.action);
}

void StartPage::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.fillRect(rect(), tokensOf(*this).ground);
}

} // namespace coldarc::ui
