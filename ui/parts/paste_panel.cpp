#include "ui/parts/paste_panel.h"

#include "ui/parts/plain_button.h"
#include "ui/parts/show_text.h"
#include "ui/parts/text_label.h"

#include <QHBoxLayout>
#include <QPlainTextEdit>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kBoxHeight = 116;

} // namespace

PastePanel::PastePanel(QWidget* parent)
    : QWidget(parent)
    , m_title(new TextLabel(TextRole::Heading, Ink::Text, this))
    , m_explains(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_box(new QPlainTextEdit(this))
    , m_act(new PlainButton(QString(), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_outcome(new TextLabel(TextRole::Strong, Ink::Text, this))
    , m_bad(new TextLabel(TextRole::Small, Ink::Text, this))
{
    m_box->setObjectName(u"pasteBox"_s);
    m_box->setFixedHeight(kBoxHeight);
    m_box->setTabChangesFocus(true);
    m_box->setLineWrapMode(QPlainTextEdit::NoWrap);
    m_act->setObjectName(u"pasteAct"_s);
    m_outcome->setObjectName(u"pasteOutcome"_s);
    m_bad->setObjectName(u"pasteBad"_s);
    auto* row = new QHBoxLayout;
    row->addWidget(m_act);
    row->addStretch(1);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(8);
    for (QWidget* widget :
         {static_cast<QWidget*>(m_title), static_cast<QWidget*>(m_explains), static_cast<QWidget*>(m_box)})
        column->addWidget(widget);
    column->addLayout(row);
    column->addWidget(m_outcome);
    column->addWidget(m_bad);
    m_outcome->hide();
    m_bad->hide();
    connect(m_act, &QAbstractButton::clicked, this, [this] { Q_EMIT pasted(m_box->toPlainText()); });
}

void PastePanel::setView(const PasteView& view)
{
    if (view == m_view)
        return;
    if (view.taken != m_view.taken)
        m_box->clear();
    m_view = view;
    m_title->setText(view.title);
    m_explains->setText(view.explains);
    m_box->setPlaceholderText(view.hint);
    m_box->setAccessibleName(view.title);
    m_act->setText(view.act);
    m_act->setAccessibleName(view.act);
    m_act->updateGeometry();
    showText(m_outcome, view.outcome);
    showText(m_bad, view.bad.join(u'\n'));
}

} // namespace coldarc::ui
