#include "ui/parts/combo_field.h"

#include "ui/parts/reach.h"
#include "ui/parts/text_label.h"

#include <QComboBox>
#include <QKeyEvent>
#include <QPainter>
#include <QSignalBlocker>
#include <QVBoxLayout>

#include <functional>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

/// A combo box with a sign of our own at its right end, in the theme's ink.
class ComboField::Box final : public QComboBox {
public:
    using QComboBox::QComboBox;

    void setOnTyped(std::function<void(const QString&)> typed) { m_onTyped = std::move(typed); }
    void forgetTyped() { m_typed.clear(); }

protected:
    void keyPressEvent(QKeyEvent* event) override
    {
        const bool isWritten = !event->text().trimmed().isEmpty() && event->text().at(0).isPrint() &&
                               (event->modifiers() & ~(Qt::ShiftModifier | Qt::KeypadModifier)) == 0;
        if (m_onTyped && isWritten)
            m_typed += event->text();
        else if (m_onTyped && event->key() == Qt::Key_Backspace)
            m_typed.chop(1);
        else
            return QComboBox::keyPressEvent(event);
        m_onTyped(m_typed);
    }
    void focusInEvent(QFocusEvent* event) override
    {
        if (event->reason() != Qt::ActiveWindowFocusReason && event->reason() != Qt::PopupFocusReason)
            m_typed.clear(); // whoever comes back types it anew
        QComboBox::focusInEvent(event);
    }
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

private:
    std::function<void(const QString&)> m_onTyped; ///< none: a key jumps to what begins with it
    QString m_typed;
};

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
    connect(m_box, &QComboBox::activated, this, [this] {
        m_box->forgetTyped();
        m_unknown.clear();
        showError();
        Q_EMIT choiceChanged(chosen());
    });
}

QComboBox* ComboField::box() const
{
    return m_box;
}

void ComboField::takeWholeTextsOnly()
{
    m_box->setOnTyped([this](const QString& typed) { chooseTyped(typed); });
}

void ComboField::chooseTyped(const QString& typed)
{
    const QString before = chosen();
    const int index = m_box->findText(typed, Qt::MatchFixedString);
    m_unknown = index < 0 ? typed : QString();
    m_box->setCurrentIndex(index);
    showError();
    if (chosen() != before)
        Q_EMIT choiceChanged(chosen());
}

void ComboField::showError()
{
    const QString error =
        m_unknown.isEmpty() ? m_view.error : tr("%1 is none of these: nothing is chosen.").arg(m_unknown);
    m_box->setPlaceholderText(m_unknown); // shown while nothing is chosen
    m_box->setAccessibleDescription(error);
    m_error->setText(error);
    m_error->setVisible(!error.isEmpty());
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
    if (isNew || !chosen().isEmpty())
        m_unknown.clear();
    m_label->setText(view.label);
    m_label->setVisible(!view.label.isEmpty());
    m_box->setAccessibleName(view.label);
    showError();
}

QString ComboField::chosen() const
{
    return m_box->currentData().toString();
}

} // namespace coldarc::ui
