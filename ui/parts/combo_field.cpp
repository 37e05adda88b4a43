#include "ui/parts/combo_field.h"

#include "ui/parts/reach.h"
#include "ui/parts/text_label.h"

#include <QComboBox>
#include <QSignalBlocker>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

ComboField::ComboField(QWidget* parent)
    : QWidget(parent)
    , m_label(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_box(new QComboBox(this))
    , m_error(new TextLabel(TextRole::Strong, Ink::Text, this))
{
    m_box->setMinimumHeight(kHandTarget);
    m_box->setObjectName(u"combo"_s);
    m_box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    m_box->setMinimumContentsLength(8);
    m_error->hide();
    setFocusProxy(m_box);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(5);
    column->addWidget(m_label);
    column->addWidget(m_box);
    column->addWidget(m_error);
    connect(m_box, &QComboBox::activated, this, [this] { Q_EMIT choiceChanged(chosen()); });
}

void ComboField::setView(const ChoiceView& view)
{
    if (view == m_view)
        return;
    const bool isNew = view.options != m_view.options;
    const bool isChosenAnew = isNew || view.chosen != m_view.chosen;
    m_view = view;
    const QSignalBlocker quiet(m_box);
    if (isNew) {
        m_box->clear();
        for (const ChoiceOption& option : view.options)
            m_box->addItem(option.text, option.id);
    }
    if (isChosenAnew)
        m_box->setCurrentIndex(view.chosen.isEmpty() ? -1 : m_box->findData(view.chosen));
    m_label->setText(view.label);
    m_label->setVisible(!view.label.isEmpty());
    m_box->setAccessibleName(view.label);
    m_box->setAccessibleDescription(view.error);
    m_error->setText(view.error);
    m_error->setVisible(!view.error.isEmpty());
}

QString ComboField::chosen() const
{
    return m_box->currentData().toString();
}

} // namespace coldarc::ui
