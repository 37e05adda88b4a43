#include "ui/visit/sign_off_page.h"

#include "ui/parts/page_keys.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/retire.h"
#include "ui/parts/show_text.h"
#include "ui/parts/side_page.h"
#include "ui/parts/text_label.h"
#include "ui/visit/bench_captures.h"

#include <QApplication>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QPainter>
#include <QScrollArea>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

SignOffPage::SignOffPage(const Clock& clock, QWidget* parent)
    : QWidget(parent)
    , m_place(new SectionLabel(QString(), this))
    , m_summaryLayout(new QVBoxLayout)
    , m_lineLayout(new QVBoxLayout)
    , m_nobody(new TextLabel(TextRole::Body, Ink::Quiet, this))
    , m_said(new TextLabel(TextRole::Strong, Ink::Text, this))
    , m_asks(new CapturePanel(this))
    , m_head(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_missing(new TextLabel(TextRole::Small, Ink::Text, this))
    , m_without(new PlainButton(QString(), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_action(new ActionButton(clock, this))
{
    setObjectName(u"signOffPage"_s);
    setFocusPolicy(Qt::ClickFocus); // Tab halts at its parts
    m_said->setObjectName(u"said"_s);
    m_nobody->setObjectName(u"nobody"_s);
    m_nobody->setText(tr("Nobody has signed yet."));
    m_head->setObjectName(u"head"_s);
    m_missing->setObjectName(u"missing"_s);
    m_without->setObjectName(u"without"_s);
    auto* title = new TextLabel(TextRole::Title, Ink::Text, this);
    title->setText(tr("Sign and close"));
    m_lineLayout->setSpacing(14);
    auto* body = new QWidget;
    auto* inside = new QVBoxLayout(body);
    inside->setContentsMargins(0, 0, 8, 0);
    inside->setSpacing(18);
    inside->addWidget(m_said);
    inside->addWidget(m_asks);
    auto* columns = new QHBoxLayout;
    columns->setSpacing(48);
    columns->addLayout(m_summaryLayout, 3);
    columns->addLayout(makeSignatures(), 2);
    inside->addLayout(columns);
    inside->addStretch(1);
    QScrollArea* scroll = bareScroll(body, this);
    auto* leave = new PlainButton(tr("Back to the bench"), Reach::Hand, PlainButton::Weight::Quiet, this);
    leave->setObjectName(u"leave"_s);
    leave->setKeyCap(u"Esc"_s);
    auto* print = new PlainButton(tr("Print the visit"), Reach::Hand, PlainButton::Weight::Quiet, this);
    print->setObjectName(u"print"_s);
    m_action->setMaximumWidth(520);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(12);
    buttons->addWidget(leave, 0, Qt::AlignBottom);
    buttons->addWidget(print, 0, Qt::AlignBottom);
    buttons->addWidget(m_without, 0, Qt::AlignBottom);
    buttons->addSpacing(gloveGap(*this));
    buttons->addStretch(1);
    buttons->addWidget(m_action, 1000, Qt::AlignBottom);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(40, 26, 40, 24);
    column->setSpacing(14);
    column->addWidget(m_place);
    column->addWidget(title);
    column->addWidget(scroll, 1);
    column->addLayout(buttons);
    connect(m_action, &ActionButton::done, this, [this] {
        Q_EMIT doneRequested(m_asks->answers());
        m_asks->goToMarked();
    });
    connect(m_without, &QAbstractButton::clicked, this, &SignOffPage::withoutRequested);
    connect(leave, &QAbstractButton::clicked, this, &SignOffPage::leaveRequested);
    connect(print, &QAbstractButton::clicked, this, &SignOffPage::printRequested);
    onEnter(*this, [this] { press(); });
    onEscape(*this, [this] { Q_EMIT leaveRequested(); });
}

QLayout* SignOffPage::makeSignatures()
{
    auto* column = new QVBoxLayout;
    column->setSpacing(14);
    column->addWidget(new SectionLabel(tr("Signatures"), this));
    column->addWidget(m_nobody);
    column->addLayout(m_lineLayout);
    column->addWidget(m_missing);
    column->addWidget(m_head);
    column->addStretch(1);
    return column;
}

void SignOffPage::showSummary()
{
    if (m_summary != nullptr)
        retire(m_summary);
    m_summary = new QWidget(this);
    m_summary->setObjectName(u"summary"_s);
    auto* grid = new QGridLayout(m_summary);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setHorizontalSpacing(24);
    grid->setVerticalSpacing(8);
    grid->setColumnStretch(1, 1);
    int row = 0;
    for (const SummarySection& section : m_view.summary) {
        if (row > 0)
            grid->setRowMinimumHeight(row++, 6);
        grid->addWidget(new SectionLabel(section.title, m_summary), row++, 0, 1, 2);
        for (const SummaryRow& line : section.rows) {
            auto* what = new TextLabel(TextRole::Small, Ink::Quiet, m_summary);
            what->setText(line.what);
            auto* said = new TextLabel(TextRole::Body, Ink::Text, m_summary);
            said->setText(line.said);
            const bool isWhole = line.what.isEmpty();
            if (!isWhole)
                grid->addWidget(what, row, 0, Qt::AlignTop);
            what->setVisible(!isWhole);
            grid->addWidget(said, row++, isWhole ? 0 : 1, 1, isWhole ? 2 : 1);
        }
    }
    grid->setRowStretch(row, 1);
    m_summaryLayout->addWidget(m_summary);
}

void SignOffPage::showLines()
{
    m_nobody->setVisible(m_view.lines.isEmpty());
    for (QWidget* line : m_lines)
        retire(line);
    m_lines.clear();
    for (const SignLine& line : m_view.lines) {
        auto* row = new QWidget(this);
        auto* name = new TextLabel(TextRole::Heading, Ink::Text, row);
        name->setText(line.role.isEmpty() ? line.name : u"%1, %2"_s.arg(line.name, line.role));
        auto* said = new TextLabel(TextRole::Body, Ink::Quiet, row);
        said->setText(line.isKeyMissing ? tr("%1, %2; waits for the key").arg(line.meaning, line.when)
                                        : tr("%1, %2").arg(line.meaning, line.when));
        auto* column = new QVBoxLayout(row);
        column->setContentsMargins(0, 0, 0, 0);
        column->setSpacing(2);
        column->addWidget(name);
        column->addWidget(said);
        m_lineLayout->addWidget(row);
        m_lines.append(row);
    }
}

void SignOffPage::setView(const SignOffView& view)
{
    const bool isNew = view.action.stepKey != m_view.action.stepKey;
    const bool isOtherSummary = m_summary == nullptr || view.summary != m_view.summary;
    m_view = view;
    m_place->setText(view.site);
    if (isOtherSummary)
        showSummary();
    showLines();
    showText(m_said, view.said.join(u'\n'));
    m_asks->setCaptures(view.action.stepKey, view.asks);
    showText(m_head,
             tr("The logbook ends in %1. A later change of what was signed would show; what comes after "
                "the last signature, or a whole file put back, would not.")
                 .arg(view.head));
    showText(m_missing, view.missing.isEmpty() ? QString()
                                               : tr("Wait for their key:\n%1").arg(view.missing.join(u'\n')));
    m_without->setText(view.without);
    m_without->setVisible(!view.without.isEmpty());
    m_action->setView(view.action);
    if (isNew && !m_asks->focusFirst())
        setFocus(Qt::OtherFocusReason);
}

void SignOffPage::press()
{
    auto* button = qobject_cast<QAbstractButton*>(QApplication::focusWidget());
    if (button && !m_asks->isAncestorOf(button))
        return button->click();
    if (!m_asks->chooseWalkedTo() && !m_asks->moveOn())
        m_action->click();
}

void SignOffPage::keyPressEvent(QKeyEvent* event)
{
    if (event->isAutoRepeat() || !m_asks->chooseByNumber(event->key() - Qt::Key_0))
        QWidget::keyPressEvent(event);
}

void SignOffPage::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.fillRect(rect(), tokensOf(*this).ground);
}

} // namespace coldarc::ui
