#include "ui/parts/card_lines.h"

#include "ui/parts/plain_button.h"
#include "ui/parts/retire.h"
#include "ui/parts/text_label.h"

#include <QApplication>
#include <QHBoxLayout>
#include <QPainter>
#include <QVBoxLayout>

#include <algorithm>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

/// A hairline across the width.
class Hairline final : public QWidget {
public:
    explicit Hairline(QWidget* parent)
        : QWidget(parent)
    {
        setFixedHeight(1);
    }

protected:
    void paintEvent(QPaintEvent* /*event*/) override
    {
        QPainter painter(this);
        painter.fillRect(rect(), tokensOf(*this).line);
    }
};

} // namespace

CardLines::CardLines(QWidget* parent)
    : QWidget(parent)
    , m_layout(new QVBoxLayout(this))
{
    m_layout->setContentsMargins(0, 0, 0, 0);
    m_layout->setSpacing(8);
}

void CardLines::setLines(const QList<CardLine>& lines, const QString& empty)
{
    if (m_built && lines == m_lines && empty == m_empty)
        return;
    m_built = true;
    const auto [held, button] = focused();
    m_lines = lines;
    m_empty = empty;
    while (QLayoutItem* item = m_layout->takeAt(0)) {
        retire(item->widget());
        delete item;
    }
    if (lines.isEmpty() && !empty.isEmpty()) {
        auto* sentence = new TextLabel(TextRole::Small, Ink::Quiet, this);
        sentence->setText(empty);
        m_layout->addWidget(sentence);
    }
    for (const CardLine& line : lines) {
        if (m_layout->count() > 0)
            m_layout->addWidget(new Hairline(this));
        m_layout->addWidget(makeLine(line));
    }
    if (!held.id.isEmpty())
        giveFocus(held, button);
}

std::pair<CardLines::Held, QString> CardLines::focused() const
{
    const QWidget* holder = QApplication::focusWidget();
    if (holder == nullptr || !isAncestorOf(holder))
        return {};
    for (qsizetype row = 0; row < m_lines.size(); ++row) {
        const QString& id = m_lines.at(row).id;
        const auto* line = findChild<QWidget*>(u"line-"_s + id, Qt::FindDirectChildrenOnly);
        if (line && line->isAncestorOf(holder))
            return {{row, id}, holder->objectName().chopped(id.size())};
    }
    return {};
}

/// Whoever walks the list goes on where they were: at the same line, or at the one that stands there now.
void CardLines::giveFocus(const Held& held, const QString& button)
{
    const auto same = std::ranges::find(m_lines, held.id, &CardLine::id);
    const qsizetype from = same == m_lines.end() ? held.row : same - m_lines.begin();
    QList<qsizetype> rows;
    for (qsizetype row = from; row < m_lines.size(); ++row)
        rows << row;
    for (qsizetype row = std::min(from, m_lines.size()) - 1; row >= 0; --row)
        rows << row;
    for (const qsizetype row : std::as_const(rows)) {
        const CardLine& line = m_lines.at(row);
        const QString name = button == u"other-act-" && line.otherAct.isEmpty() ? u"act-"_s : button;
        if (auto* act = findChild<PlainButton*>(name + line.id))
            return act->setFocus(Qt::TabFocusReason);
    }
}

QWidget* CardLines::makeLine(const CardLine& line)
{
    auto* whole = new QWidget(this);
    whole->setObjectName(u"line-"_s + line.id);
    auto* texts = new QVBoxLayout;
    texts->setSpacing(2);
    auto* text = new TextLabel(TextRole::Strong, Ink::Text, whole);
    text->setText(line.text);
    texts->addWidget(text);
    if (!line.sub.isEmpty()) {
        auto* sub = new TextLabel(TextRole::Caption, Ink::Quiet, whole);
        sub->setText(line.sub);
        texts->addWidget(sub);
    }
    if (!line.code.isEmpty()) {
        auto* code = new TextLabel(TextRole::Code, Ink::Text, whole);
        code->setText(line.code);
        texts->addWidget(code);
    }
    auto* row = new QHBoxLayout(whole);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(16);
    row->addLayout(texts, 1);
    if (!line.otherAct.isEmpty()) {
        PlainButton* act = makeAct(line, line.otherAct, u"other-act-"_s + line.id, whole);
        row->addWidget(act, 0, Qt::AlignVCenter);
        connect(act, &QAbstractButton::clicked, this, [this, id = line.id] { Q_EMIT otherActRequested(id); });
    }
    if (!line.act.isEmpty()) {
        PlainButton* act = makeAct(line, line.act, u"act-"_s + line.id, whole);
        row->addWidget(act, 0, Qt::AlignVCenter);
        connect(act, &QAbstractButton::clicked, this, [this, id = line.id] { Q_EMIT actRequested(id); });
    }
    return whole;
}

PlainButton* CardLines::makeAct(const CardLine& line, const QString& act, const QString& name,
                                QWidget* parent)
{
    auto* button = new PlainButton(act, Reach::Hand, PlainButton::Weight::Quiet, parent);
    button->setObjectName(name);
    button->setAccessibleName(u"%1: %2"_s.arg(act, line.text));
    return button;
}

} // namespace coldarc::ui
