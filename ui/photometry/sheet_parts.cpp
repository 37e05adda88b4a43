#include "ui/photometry/sheet_parts.h"

#include "ui/parts/combo_field.h"
#include "ui/parts/figures.h"
#include "ui/parts/mark_button.h"
#include "ui/parts/retire.h"
#include "ui/parts/show_text.h"
#include "ui/parts/theme.h"
#include "ui/photometry/screen_drawing.h"

#include <QGridLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QLocale>
#include <QPainter>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kSign = 14;
constexpr int kIndent = 26;
constexpr int kRowGap = 9;
constexpr int kUsualWidth = 400;
constexpr int kColumns = 2;

QString subOf(const VerdictLine& line)
{
    QStringList parts{line.words, line.limit, line.note};
    parts.removeAll(QString());
    return parts.join(u"\u2002·\u2002"_s);
}

} // namespace

// ---- Verdicts ---------------------------------------------------------------------------------------------

VerdictTable::VerdictTable(QWidget* parent)
    : QWidget(parent)
{
    setObjectName(u"verdicts"_s);
    QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Fixed);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

void VerdictTable::setLines(const QList<VerdictLine>& lines)
{
    if (lines == m_lines)
        return;
    m_lines = lines;
    QStringList said;
    for (const VerdictLine& line : lines)
        said.append(u"%1: %2 %3"_s.arg(line.what, line.value, subOf(line)));
    setAccessibleName(said.join(u"; "_s));
    updateGeometry();
    update();
}

int VerdictTable::rowHeight(const VerdictLine& line, int width) const
{
    const QFontMetricsF what(fontFor(TextRole::Small));
    const QFontMetricsF sub(fontFor(TextRole::Caption));
    const qreal value = figureAdvance(fontFor(TextRole::Strong), line.value);
    const auto lines = figureLines(what, line.what, width - kIndent - value - 12).size();
    const auto subs = figureLines(sub, subOf(line), width - kIndent).size();
    return static_cast<int>(std::ceil(static_cast<qreal>(lines) * what.height() +
                                      static_cast<qreal>(subs) * sub.height())) +
           kRowGap;
}

int VerdictTable::heightForWidth(int width) const
{
    int height = 0;
    for (const VerdictLine& line : m_lines)
        height += rowHeight(line, width);
    return height;
}

QSize VerdictTable::sizeHint() const
{
    return {kUsualWidth / 2, heightForWidth(width() > 100 ? width() : kUsualWidth)};
}

void VerdictTable::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const Tokens& t = tokensOf(*this);
    qreal top = 0;
    for (const VerdictLine& line : m_lines) {
        const int height = rowHeight(line, width());
        painter.setFont(fontFor(TextRole::Strong));
        const QFontMetricsF strong(painter.font());
        const qreal value = figureAdvance(strong, line.value);
        painter.setPen(t.text);
        drawFigures(painter, QPointF(width() - value, top + strong.ascent()), line.value);
        painter.setFont(fontFor(TextRole::Small));
        const QFontMetricsF small(painter.font());
        const QStringList what = figureLines(small, line.what, width() - kIndent - value - 12);
        drawFigureLines(
            painter,
            QRectF(kIndent, top, width() - kIndent, small.height() * static_cast<qreal>(what.size())),
            Qt::AlignLeft | Qt::AlignTop, what);
        drawSheetSign(painter, QRectF(2, top + (small.height() - kSign) / 2, kSign, kSign), line.sign,
                      t.text);
        painter.setFont(fontFor(TextRole::Caption));
        painter.setPen(t.quiet);
        drawFigureLines(painter,
                        QRectF(kIndent, top + small.height() * static_cast<qreal>(what.size()),
                               width() - kIndent, height),
                        Qt::AlignLeft | Qt::AlignTop,
                        figureLines(painter.font(), subOf(line), width() - kIndent));
        top += height;
    }
}

// ---- White ------------------------------------------------------------------------------------------------

XyInset::XyInset(QWidget* parent)
    : QWidget(parent)
{
    setObjectName(u"xyInset"_s);
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
}

void XyInset::setView(const XyView& view)
{
    m_view = view;
    setAccessibleName(view.words);
    setVisible(view.box.has_value());
    update();
}

void XyInset::paintEvent(QPaintEvent* /*event*/)
{
    if (!m_view.box)
        return;
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const Tokens& t = tokensOf(*this);
    painter.setFont(fontFor(TextRole::Caption));
    const QFontMetricsF metrics(painter.font());
    const QLocale locale;
    const auto text = [&](double value) { return locale.toString(value, 'f', 3); };
    const qreal gutter = figureAdvance(metrics, text(0.888)) + 8;
    const QRectF room = QRectF(rect()).adjusted(gutter, 8, -12, -metrics.height() - 8);
    // One scale for both axes: a box of equal tolerances is a square.
    const XyView::Box& shown = m_view.shown;
    const qreal scale =
        std::min(room.width() / (shown.xMost - shown.xLeast), room.height() / (shown.yMost - shown.yLeast));
    const QPointF middle((shown.xLeast + shown.xMost) / 2, (shown.yLeast + shown.yMost) / 2);
    const auto at = [&](double x, double y) {
        return QPointF(room.center().x() + (x - middle.x()) * scale,
                       room.center().y() - (y - middle.y()) * scale);
    };
    painter.setPen(QPen(t.line, 1));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(room);
    const XyView::Box& box = *m_view.box;
    painter.setPen(QPen(t.text, 1.6));
    painter.setBrush(t.panel);
    painter.drawRect(QRectF(at(box.xLeast, box.yMost), at(box.xMost, box.yLeast)));
    painter.setPen(t.quiet);
    for (const double x : {box.xLeast, box.xMost}) {
        const qreal width = figureAdvance(metrics, text(x));
        const qreal left = x == box.xLeast ? at(x, 0).x() - width + 6 : at(x, 0).x() - 6;
        drawFigures(painter, QPointF(left, room.bottom() + 4 + metrics.ascent()), text(x));
    }
    for (const double y : {box.yLeast, box.yMost}) {
        const qreal base = at(0, y).y() + metrics.ascent() / 2 - 2;
        drawFigures(painter, QPointF(0, base), text(y));
    }
    painter.setPen(t.faint);
    drawFigures(painter, QPointF(room.left() + 6, room.bottom() - 6), u"x"_s);
    drawFigures(painter, QPointF(room.left() + 6, room.top() + metrics.ascent() + 2), u"y"_s);
    for (const XyPoint& point : m_view.points) {
        painter.setPen(QPen(point.isCentre ? t.accent : t.quiet, 1.8));
        painter.setBrush(point.isCentre ? QBrush(t.accent) : QBrush(Qt::NoBrush));
        const qreal radius = point.isCentre ? 5 : 4;
        painter.drawEllipse(at(point.x, point.y), radius, radius);
    }
}

// ---- Fields -----------------------------------------------------------------------------------------------

FormGrid::FormGrid(QWidget* parent)
    : QWidget(parent)
    , m_grid(new QGridLayout(this))
{
    m_grid->setContentsMargins(0, 0, 0, 0);
    m_grid->setHorizontalSpacing(18);
    m_grid->setVerticalSpacing(10);
    for (int column = 0; column < kColumns; ++column)
        m_grid->setColumnStretch(column, 1);
}

void FormGrid::rebuild(const QList<SheetField>& fields)
{
    for (const Part& part : std::as_const(m_parts))
        retire(part.widget);
    m_parts.clear();
    m_ids.clear();
    int place = 0;
    for (const SheetField& field : fields) {
        Part part;
        if (field.options.isEmpty()) {
            part.field = new Field(Field::Kind::Text, this);
            part.widget = part.field;
            connect(part.field, &Field::valueChanged, this,
                    [this, id = field.id](const QString& text) { Q_EMIT changed(id, text); });
        } else {
            part.combo = new ComboField(this);
            part.widget = part.combo;
            connect(part.combo, &ComboField::choiceChanged, this,
                    [this, id = field.id](const QString& chosen) { Q_EMIT changed(id, chosen); });
        }
        part.widget->setObjectName(u"field-"_s + field.id);
        if (field.isWide && place % kColumns != 0)
            ++place;
        m_grid->addWidget(part.widget, place / kColumns, place % kColumns, 1, field.isWide ? kColumns : 1,
                          Qt::AlignTop);
        place += field.isWide ? kColumns : 1;
        m_parts.insert(field.id, part);
        m_ids.append(field.id);
    }
}

void FormGrid::setFields(const QList<SheetField>& fields)
{
    QStringList ids;
    for (const SheetField& field : fields)
        ids.append(field.id);
    if (ids != m_ids)
        rebuild(fields);
    for (const SheetField& field : fields) {
        const Part& part = m_parts[field.id];
        if (part.field)
            part.field->setView(field.field);
        else
            part.combo->setView(
                {field.field.label, field.options, field.field.value, field.field.error, Reach::Hand});
    }
}

void FormGrid::begin()
{
    if (!m_ids.isEmpty())
        m_parts[m_ids.first()].widget->setFocus(Qt::OtherFocusReason);
}

// ---- A choice ---------------------------------------------------------------------------------------------

ChoiceBar::ChoiceBar(int columns, QWidget* parent)
    : QWidget(parent)
    , m_columns(columns)
    , m_label(new TextLabel(TextRole::Small, Ink::Text, this))
    , m_grid(new QGridLayout)
{
    m_grid->setSpacing(8);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(5);
    column->addWidget(m_label);
    column->addLayout(m_grid);
}

void ChoiceBar::rebuild()
{
    for (MarkButton* button : std::as_const(m_buttons))
        retire(button);
    m_buttons.clear();
    for (const ChoiceOption& option : m_view.options) {
        const int place = static_cast<int>(m_buttons.size());
        auto* button = new MarkButton(MarkButton::Mark::Round, Reach::Hand, this);
        button->setObjectName(u"choice-"_s + option.id);
        button->setText(option.text);
        button->setAccessibleName(u"%1 %2"_s.arg(m_view.label, option.text));
        button->setKeyCap(QString::number(place + 1));
        button->setFocusPolicy(Qt::TabFocus);
        connect(button, &QAbstractButton::clicked, this, [this, button, id = option.id] {
            button->setChecked(m_view.chosen == id);
            Q_EMIT choiceChanged(id);
        });
        m_grid->addWidget(button, place / m_columns, place % m_columns);
        m_grid->setColumnStretch(place % m_columns, 1);
        m_buttons.append(button);
    }
}

void ChoiceBar::setView(const ChoiceView& view)
{
    if (view == m_view)
        return;
    const bool isOther = view.label != m_view.label || view.options != m_view.options;
    m_view = view;
    showText(m_label, view.label);
    if (isOther)
        rebuild();
    for (qsizetype i = 0; i < m_buttons.size(); ++i)
        m_buttons.at(i)->setChecked(view.options.at(i).id == view.chosen);
}

void ChoiceBar::begin()
{
    if (!m_buttons.isEmpty())
        m_buttons.first()->setFocus(Qt::OtherFocusReason);
}

void ChoiceBar::keyPressEvent(QKeyEvent* event)
{
    const int number = event->key() - Qt::Key_1;
    if (!event->isAutoRepeat() && number >= 0 && number < m_buttons.size())
        return m_buttons.at(number)->click();
    QWidget::keyPressEvent(event);
}

// ---- The whole --------------------------------------------------------------------------------------------

SignedWords::SignedWords(QWidget* parent)
    : QWidget(parent)
{
    setObjectName(u"whole"_s);
}

void SignedWords::setWords(SheetSign sign, const QString& words, const QString& sub)
{
    m_sign = sign;
    m_words = words;
    m_sub = sub;
    setAccessibleName(u"%1 %2"_s.arg(words, sub));
    updateGeometry();
    update();
}

QSize SignedWords::sizeHint() const
{
    const QFontMetricsF words(fontFor(TextRole::Heading));
    const QFontMetricsF sub(fontFor(TextRole::Caption));
    const qreal width = std::max(figureAdvance(words, m_words) + kIndent, figureAdvance(sub, m_sub));
    const qreal height = words.height() + (m_sub.isEmpty() ? 0 : sub.height());
    return {static_cast<int>(std::ceil(width)) + 2, static_cast<int>(std::ceil(height)) + 2};
}

void SignedWords::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const Tokens& t = tokensOf(*this);
    painter.setFont(fontFor(TextRole::Heading));
    const QFontMetricsF words(painter.font());
    const qreal left = width() - figureAdvance(words, m_words);
    painter.setPen(t.text);
    drawFigures(painter, QPointF(left, words.ascent()), m_words);
    drawSheetSign(painter, QRectF(left - kIndent, (words.height() - kSign) / 2, kSign, kSign), m_sign,
                  t.text);
    painter.setFont(fontFor(TextRole::Caption));
    const QFontMetricsF sub(painter.font());
    painter.setPen(t.quiet);
    drawFigures(painter, QPointF(width() - figureAdvance(sub, m_sub), words.height() + sub.ascent()), m_sub);
}

} // namespace coldarc::ui
