#include "ui/parts/choice_row.h"

#include "ui/parts/mark_button.h"
#include "ui/parts/retire.h"
#include "ui/parts/text_label.h"

#include <QGridLayout>
#include <QKeyEvent>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kLabelWidth = 160;
constexpr int kLabelGap = 16;

TextLabel* errorLabel(QWidget* parent)
{
    auto* label = new TextLabel(TextRole::Strong, Ink::Text, parent);
    label->setObjectName(u"error"_s);
    label->hide();
    return label;
}

void showError(TextLabel* label, const QString& error)
{
    label->setText(error);
    label->setVisible(!error.isEmpty());
}

void clear(QList<MarkButton*>& buttons)
{
    for (MarkButton* button : buttons)
        retire(button);
    buttons.clear();
}

} // namespace

/// The answers in rows of equal length, as many beside each other as the width holds. What height they need
/// follows from the width alone, so that nothing around them is laid out by an arrangement that is gone.
class ChoiceRow::AnswerGrid final : public QLayout {
public:
    AnswerGrid() { setContentsMargins(0, 0, 0, 0); }
    ~AnswerGrid() override { qDeleteAll(m_items); }

    void addItem(QLayoutItem* item) override { m_items.append(item); }
    [[nodiscard]] int count() const override { return static_cast<int>(m_items.size()); }
    [[nodiscard]] QLayoutItem* itemAt(int index) const override { return m_items.value(index); }
    QLayoutItem* takeAt(int index) override
    {
        return index >= 0 && index < count() ? m_items.takeAt(index) : nullptr;
    }
    [[nodiscard]] Qt::Orientations expandingDirections() const override { return Qt::Horizontal; }
    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override
    {
        int height = -spacing();
        for (const int row : rowHeights(width))
            height += row + spacing();
        return std::max(height, 0);
    }
    [[nodiscard]] QSize minimumSize() const override { return {leastWidth(), kHandTarget}; }
    [[nodiscard]] QSize sizeHint() const override
    {
        const int width = (leastWidth() + spacing()) * std::max(count(), 1) - spacing();
        return {width, heightForWidth(width)};
    }
    void setGeometry(const QRect& rect) override
    {
        QLayout::setGeometry(rect);
        const int columns = columnsFor(rect.width());
        const QList<int> heights = rowHeights(rect.width());
        const int pitch = widthOf(rect.width(), columns) + spacing();
        int top = rect.top();
        for (int i = 0; i < count(); ++i) {
            const int column = i % columns;
            const int height = heights[i / columns];
            m_items[i]->setGeometry({rect.left() + column * pitch, top, pitch - spacing(), height});
            if (column == columns - 1)
                top += height + spacing();
        }
    }

private:
    [[nodiscard]] int leastWidth() const
    {
        qreal least = kHandTarget;
        for (QLayoutItem* item : m_items) {
            if (const auto* button = dynamic_cast<const MarkButton*>(item->widget()))
                least = std::max(least, button->leastWidth());
        }
        return static_cast<int>(std::ceil(least));
    }
    [[nodiscard]] int columnsFor(int width) const
    {
        const int most =
            std::clamp((width + spacing()) / (leastWidth() + spacing()), 1, std::max(count(), 1));
        const int rows = std::max((count() + most - 1) / most, 1);
        return std::max((count() + rows - 1) / rows, 1);
    }
    [[nodiscard]] int widthOf(int width, int columns) const
    {
        return (width - (columns - 1) * spacing()) / columns;
    }
    [[nodiscard]] QList<int> rowHeights(int width) const
    {
        const int columns = columnsFor(width);
        QList<int> heights;
        for (int i = 0; i < count(); ++i) {
            if (i % columns == 0)
                heights.append(0);
            heights.last() = std::max(heights.last(), m_items[i]->heightForWidth(widthOf(width, columns)));
        }
        return heights;
    }

    QList<QLayoutItem*> m_items;
};

ChoiceRow::ChoiceRow(QWidget* parent)
    : QWidget(parent)
    , m_label(new TextLabel(TextRole::Small, Ink::Text, this))
    , m_grid(new AnswerGrid)
    , m_error(errorLabel(this))
{
    m_label->setMinimumWidth(kLabelWidth);
    m_label->setMaximumWidth(kLabelWidth);
    m_label->setAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    auto* rows = new QGridLayout(this);
    rows->setContentsMargins(0, 0, 0, 0);
    rows->setHorizontalSpacing(kLabelGap);
    rows->setVerticalSpacing(4);
    rows->setColumnStretch(1, 1);
    rows->addWidget(m_label, 0, 0); // beside the answers, whatever stands below them
    rows->addLayout(m_grid, 0, 1);
    rows->addWidget(m_error, 1, 1);
}

void ChoiceRow::setView(const ChoiceView& view)
{
    if (view == m_view)
        return;
    const bool sameQuestion =
        view.label == m_view.label && view.options == m_view.options && view.reach == m_view.reach;
    const bool newAnswer = !sameQuestion || view.chosen != m_view.chosen;
    m_view = view;
    if (!sameQuestion)
        rebuild();
    if (newAnswer)
        m_chosen = view.chosen;
    showError(m_error, view.error);
    showChosen();
}

void ChoiceRow::rebuild()
{
    clear(m_buttons);
    m_label->setText(m_view.label);
    m_label->setVisible(!m_view.label.isEmpty()); // the answers take its room
    setAccessibleName(m_view.label);
    m_grid->setSpacing(m_view.reach == Reach::Glove ? 16 : 8);
    const auto count = static_cast<int>(m_view.options.size());
    for (int i = 0; i < count; ++i) {
        const ChoiceOption& option = m_view.options.at(i);
        auto* button = new MarkButton(MarkButton::Mark::Round, m_view.reach, this);
        button->setObjectName(u"choice-"_s + option.id);
        button->setText(option.text);
        button->setAccessibleName(u"%1: %2"_s.arg(m_view.label, option.text));
        button->setKeyCap(QString::number(i + 1));
        connect(button, &QAbstractButton::clicked, this, [this, id = option.id] { choose(id); });
        m_grid->addWidget(button);
        m_buttons.append(button);
    }
}

bool ChoiceRow::chooseByNumber(int number)
{
    if (number < 1 || number > m_view.options.size())
        return false;
    choose(m_view.options.at(number - 1).id);
    return true;
}

void ChoiceRow::choose(const QString& id)
{
    const bool changed = id != m_chosen;
    m_chosen = id;
    showChosen();
    if (changed)
        Q_EMIT choiceChanged(id);
}

void ChoiceRow::showChosen()
{
    for (qsizetype i = 0; i < m_buttons.size(); ++i)
        m_buttons.at(i)->setChecked(m_view.options.at(i).id == m_chosen);
}

void ChoiceRow::keyPressEvent(QKeyEvent* event)
{
    if (m_takesNumbers && !event->isAutoRepeat() && chooseByNumber(event->key() - Qt::Key_0))
        return;
    QWidget::keyPressEvent(event);
}

TickList::TickList(QWidget* parent)
    : QWidget(parent)
    , m_label(new TextLabel(TextRole::Small, Ink::Text, this))
    , m_grid(new QGridLayout)
    , m_error(errorLabel(this))
{
    m_grid->setContentsMargins(0, 0, 0, 0);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(10);
    column->addWidget(m_label);
    column->addLayout(m_grid);
    column->addWidget(m_error);
}

void TickList::setView(const TickListView& view)
{
    if (view == m_view)
        return;
    const bool sameList =
        view.label == m_view.label && view.items == m_view.items && view.reach == m_view.reach;
    const bool newTicks = !sameList || view.ticked != m_view.ticked;
    m_view = view;
    if (!sameList)
        rebuild();
    if (newTicks) {
        for (qsizetype i = 0; i < m_buttons.size(); ++i)
            m_buttons.at(i)->setChecked(view.ticked.contains(view.items.at(i).id));
    }
    showError(m_error, view.error);
}

void TickList::rebuild()
{
    clear(m_buttons);
    m_label->setText(m_view.label);
    setAccessibleName(m_view.label);
    m_grid->setSpacing(m_view.reach == Reach::Glove ? gloveGap(*this) : 10);
    for (int i = 0; i < static_cast<int>(m_view.items.size()); ++i) {
        const TickItem& item = m_view.items.at(i);
        auto* button = new MarkButton(MarkButton::Mark::Square, m_view.reach, this);
        button->setObjectName(u"tick-"_s + item.id);
        button->setText(item.text);
        button->setAccessibleName(item.text);
        button->setSub(item.sub);
        connect(button, &QAbstractButton::clicked, this, [this] { Q_EMIT ticksChanged(ticked()); });
        m_grid->addWidget(button, i / 2, i % 2);
        m_buttons.append(button);
    }
    m_grid->setColumnStretch(0, 1);
    m_grid->setColumnStretch(1, 1);
}

QStringList TickList::ticked() const
{
    QStringList ids;
    for (qsizetype i = 0; i < m_buttons.size(); ++i) {
        if (m_buttons.at(i)->isChecked())
            ids.append(m_view.items.at(i).id);
    }
    return ids;
}

} // namespace coldarc::ui
