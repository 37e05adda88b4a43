#include "ui/parts/strip.h"

#include "ui/parts/plain_button.h"
#include "ui/parts/text_label.h"

#include <QHBoxLayout>
#include <QPainter>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

Strip::Strip(QWidget* parent)
    : QWidget(parent)
    , m_text(new TextLabel(TextRole::Strong, Ink::Text, this))
    , m_act(new PlainButton(QString(), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_dismiss(new PlainButton(tr("Seen"), Reach::Hand, PlainButton::Weight::Quiet, this))
{
    setObjectName(u"strip"_s);
    m_text->setObjectName(u"stripText"_s);
    m_act->setObjectName(u"stripAct"_s);
    m_dismiss->setObjectName(u"stripDismiss"_s);
    m_text->setAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(22, 6, 18, 6);
    row->setSpacing(12);
    row->addWidget(m_text, 1);
    row->addWidget(m_act);
    row->addWidget(m_dismiss);
    hide();
    connect(m_act, &QAbstractButton::clicked, this, &Strip::actRequested);
    connect(m_dismiss, &QAbstractButton::clicked, this, &Strip::dismissed);
}

void Strip::setView(const StripView& view)
{
    if (view == m_view)
        return;
    const bool isNew = view.text != m_view.text && !view.text.isEmpty();
    m_view = view;
    m_text->setText(view.text);
    m_act->setText(view.act);
    m_act->setAccessibleName(view.act);
    m_act->setKeyCap(view.key);
    m_act->setVisible(!view.act.isEmpty());
    setVisible(!view.text.isEmpty());
    if (isNew && view.call == StripView::Call::Sounds && m_sound)
        m_sound();
}

void Strip::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    const Tokens& t = tokensOf(*this);
    painter.fillRect(rect(), t.panel);
    painter.fillRect(QRect(0, 0, 4, height()), t.text);
    painter.fillRect(QRect(0, height() - 1, width(), 1), t.line);
}

} // namespace coldarc::ui
