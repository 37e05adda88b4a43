#include "ui/parts/choice_row.h"

#include "ui/parts/mark_button.h"
#include "ui/parts/retire.h"
#include "ui/parts/text_label.h"

#include <QGridLayout>
#include <QKeyEvent>
#include <QVBoxLayout>

#include <algorithm>

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

ChoiceRow::ChoiceRow(QWidget* parent)
    : QWidget(parent)
    , m_label(new TextLabel(TextRole::Small, Ink::Text, this))
    , m_grid(new QGridLayout)
    , m_error(errorLabel(this))
{
    m_label->setMinimumWidth(kLabelWidth);
    m_label->setMaximumWidth(kLabelWidth);
    m_label->setAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    m_grid->setContentsMargins(0, 0, 0, 0);
    auto* answers = new QVBoxLayout;
    answers->setSpacing(4);
    answers->addLayout(m_grid);
    answers->addWidget(m_error);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(kLabelGap);
    row->addWidget(m_label);
    row->addLayout(answers, 1);
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
        m_buttons.append(button);
    }
    m_columns = 0;
    arrange();
}

int ChoiceRow::columnsFor(int width) const
{
    qreal least = kHandTarget;
    for (const MarkButton* button : m_buttons)
        least = std::max(least, button->leastWidth());
    const int room = width - kLabelWidth - kLabelGap + m_grid->spacing();
    const auto count = static_cast<int>(m_buttons.size());
    const int most = std::clamp(static_cast<int>(room / (least + m_grid->spacing())), 1, std::max(count, 1));
    const int rows = (count + most - 1) / most;
    return rows == 0 ? 1 : (count + rows - 1) / rows; // rows of equal length, as far as it goes
}

void ChoiceRow::arrange()
{
    const int columns = columnsFor(width());
    if (columns == m_columns)
        return;
    m_columns = columns;
    for (int i = 0; i < static_cast<int>(m_buttons.size()); ++i)
        m_grid->addWidget(m_buttons.at(i), i / columns, i % columns);
    for (int column = 0; column < m_grid->columnCount(); ++column)
        m_grid->setColumnStretch(column, column < columns ? 1 : 0);
}

void ChoiceRow::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    arrange();
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
    if (!event->isAutoRepeat() && chooseByNumber(event->key() - Qt::Key_0))
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
