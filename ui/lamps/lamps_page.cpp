#include "ui/lamps/lamps_page.h"

#include "ui/parts/combo_field.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/show_text.h"
#include "ui/parts/side_page.h"
#include "ui/parts/text_label.h"
#include "ui/parts/theme.h"

#include <QHBoxLayout>
#include <QLineEdit>
#include <QPainter>
#include <QScrollArea>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kColumn = 640;

} // namespace

LampsPage::LampsPage(QWidget* parent)
    : QWidget(parent)
    , m_message(new TextLabel(TextRole::Strong, Ink::Text, this))
    , m_van(new CardLines(this))
    , m_stockName(new SectionLabel(tr("In the store"), this))
    , m_stock(new CardLines(this))
    , m_boxedName(new SectionLabel(tr("Boxed, not given away yet"), this))
    , m_boxed(new CardLines(this))
    , m_awayName(new SectionLabel(tr("Elsewhere"), this))
    , m_away(new CardLines(this))
    , m_type(new ComboField(this))
    , m_serial(new Field(Field::Kind::Text, this))
    , m_hours(new Field(Field::Kind::Number, this))
    , m_custody(new ChoiceRow(this))
    , m_add(new PlainButton(tr("Add this lamp"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_paste(new PastePanel(this))
{
    setObjectName(u"lampsPage"_s);
    m_message->setObjectName(u"message"_s);
    m_van->setObjectName(u"van"_s);
    m_stock->setObjectName(u"stock"_s);
    m_boxed->setObjectName(u"boxed"_s);
    m_away->setObjectName(u"away"_s);
    m_type->setObjectName(u"type"_s);
    m_type->takeWholeTextsOnly();
    m_serial->setObjectName(u"serial"_s);
    m_hours->setObjectName(u"hours"_s);
    m_custody->setObjectName(u"custody"_s);
    m_add->setObjectName(u"add"_s);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    row->addWidget(bareScroll(makeLists(), this), 1);
    row->addWidget(bareScroll(makeForms(), this), 1);
    for (CardLines* lines : {m_van, m_stock, m_boxed, m_away})
        connect(lines, &CardLines::actRequested, this, &LampsPage::actRequested);
    connect(m_boxed, &CardLines::otherActRequested, this, &LampsPage::recycleRequested);
    connect(m_add, &QAbstractButton::clicked, this, [this] {
        Q_EMIT addRequested(m_type->chosen(), m_serial->value(), m_hours->value(), m_custody->chosen());
    });
    for (const Field* field : {m_serial, m_hours})
        connect(field->box(), &QLineEdit::returnPressed, m_add, &QAbstractButton::click);
    connect(m_paste, &PastePanel::pasted, this, &LampsPage::pasted);
}

QWidget* LampsPage::makeLists()
{
    auto* lists = new QWidget(this);
    lists->setMaximumWidth(kColumn);
    auto* column = new QVBoxLayout(lists);
    column->setContentsMargins(40, 26, 32, 26);
    column->setSpacing(10);
    auto* title = new TextLabel(TextRole::Title, Ink::Text, lists);
    title->setText(tr("Van stock"));
    column->addWidget(title);
    column->addWidget(m_message);
    column->addSpacing(8);
    column->addWidget(new SectionLabel(tr("In my van"), lists));
    column->addWidget(m_van);
    column->addSpacing(12);
    column->addWidget(m_stockName);
    column->addWidget(m_stock);
    column->addSpacing(12);
    column->addWidget(m_boxedName);
    column->addWidget(m_boxed);
    column->addSpacing(12);
    column->addWidget(m_awayName);
    column->addWidget(m_away);
    column->addStretch(1);
    return lists;
}

QWidget* LampsPage::makeForms()
{
    auto* forms = new QWidget(this);
    forms->setMaximumWidth(kColumn);
    auto* column = new QVBoxLayout(forms);
    column->setContentsMargins(40, 34, 40, 26);
    column->setSpacing(12);
    column->addWidget(new SectionLabel(tr("One more lamp"), forms));
    auto* row = new QHBoxLayout;
    row->setSpacing(16);
    row->addWidget(m_type, 1, Qt::AlignTop); // what is wrong with one of them moves the other nowhere
    row->addWidget(m_serial, 1, Qt::AlignTop);
    column->addLayout(row);
    column->addWidget(m_hours);
    column->addWidget(m_custody);
    auto* add = new QHBoxLayout;
    add->addWidget(m_add);
    add->addStretch(1);
    column->addLayout(add);
    column->addSpacing(18);
    column->addWidget(m_paste);
    column->addStretch(1);
    return forms;
}

void LampsPage::setView(const LampsView& view)
{
    const bool isEmptied = view.emptied != m_view.emptied;
    m_view = view;
    showText(m_message, view.message);
    m_van->setLines(view.van, view.noVan);
    m_stockName->setVisible(!view.stock.isEmpty());
    m_stock->setVisible(!view.stock.isEmpty());
    m_stock->setLines(view.stock);
    m_boxedName->setVisible(!view.boxed.isEmpty());
    m_boxed->setVisible(!view.boxed.isEmpty());
    m_boxed->setLines(view.boxed);
    m_awayName->setVisible(!view.away.isEmpty());
    m_away->setVisible(!view.away.isEmpty());
    m_away->setLines(view.away);
    m_type->setView(view.type);
    m_serial->setView(view.serial);
    m_hours->setView(view.hours);
    m_custody->setView(view.custody);
    m_paste->setView(view.paste);
    if (isEmptied) {
        m_serial->box()->clear();
        m_hours->box()->setText(view.hours.value);
        m_serial->setFocus();
    }
}

void LampsPage::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    const Tokens& t = tokensOf(*this);
    painter.fillRect(rect(), t.ground);
    painter.setPen(t.line);
    painter.drawLine(width() / 2, 0, width() / 2, height());
}

} // namespace coldarc::ui
