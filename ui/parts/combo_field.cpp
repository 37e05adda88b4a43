#include "ui/parts/combo_field.h"

#include "ui/parts/reach.h"
#include "ui/parts/text_label.h"

#include <QComboBox>
#include <QPainter>
#include <QSignalBlocker>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

/// A combo box with a sign of our own at its right end, in the theme's ink.
class Box final : public QComboBox {
public:
    using QComboBox::QComboBox;

protected:
    void paintEvent(QPaintEvent* event) override
    {
        QComboBox::paintEvent(event);
        QPainter painter(this);
        painter.setRenderHint(QPainter::Antialiasing);
        painter.setPen(QPen(tokensOf(*this).quiet, 1.6, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
        const QPointF middle(width() - 18.0, height() / 2.0);
        painter.drawPolyline(
            QPolygonF{middle + QPointF(-5, -2.5), middle + QPointF(0, 2.5), middle + QPointF(5, -2.5)});
    }
};

} // namespace

ComboField::ComboField(QWidget* parent)
    : QWidget(parent)
    , m_label(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_box(new Box(this))
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
