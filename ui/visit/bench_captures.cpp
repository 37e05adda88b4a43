#include "ui/visit/bench_captures.h"

#include "ui/parts/field.h"
#include "ui/parts/retire.h"
#include "ui/parts/text_label.h"

#include <QApplication>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QScrollArea>
#include <QVBoxLayout>

#include <algorithm>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

bool isSameQuestion(const CaptureView& a, const CaptureView& b)
{
    return a.id == b.id && a.kind == b.kind && a.label == b.label && a.options == b.options &&
           a.reach == b.reach;
}

QScrollArea* scrollAround(const QWidget* question)
{
    for (QWidget* around = question->parentWidget(); around != nullptr; around = around->parentWidget()) {
        if (auto* scroll = qobject_cast<QScrollArea*>(around))
            return scroll;
    }
    return nullptr;
}

void bringIntoSight(QWidget* question)
{
    if (QScrollArea* scroll = scrollAround(question))
        scroll->ensureWidgetVisible(question, 0, 16);
}

/// With all of its answers; of one that is higher than the sight, as much as that holds.
bool isInSight(const QWidget* question)
{
    const QScrollArea* scroll = scrollAround(question);
    if (scroll == nullptr)
        return true;
    const int sight = scroll->viewport()->height();
    const int top = question->mapTo(scroll->viewport(), QPoint(0, 0)).y();
    const int bottom = top + question->height();
    return question->height() <= sight ? top >= 0 && bottom <= sight : top < sight / 2 && bottom > sight / 2;
}

} // namespace

/// One kind of capture: the widget, and how its answer is read.
class CapturePanel::Editor {
public:
    virtual ~Editor() = default;
    virtual void show(const CaptureView& view) = 0;
    [[nodiscard]] virtual QStringList value() const = 0;
    [[nodiscard]] virtual QWidget* widget() const = 0;
    [[nodiscard]] virtual bool takesNumbers() const { return false; }
    [[nodiscard]] virtual bool chooseByNumber(int /*number*/) { return false; }
    [[nodiscard]] virtual bool isTyped() const { return false; }
};

class CapturePanel::ChoiceEditor final : public Editor {
public:
    explicit ChoiceEditor(CapturePanel* panel)
        : m_row(new ChoiceRow(panel))
    {
        m_row->leaveNumbersToThePage();
        QObject::connect(m_row, &ChoiceRow::choiceChanged, panel,
                         [panel] { Q_EMIT panel->answersChanged(panel->answers()); });
    }
    void show(const CaptureView& view) override
    {
        QList<ChoiceOption> options;
        for (const CaptureView::Option& option : view.options)
            options.append({option.id, option.text});
        m_row->setView({view.label, options, view.value.value(0), view.error, view.reach});
    }
    [[nodiscard]] QStringList value() const override
    {
        return m_row->chosen().isEmpty() ? QStringList() : QStringList{m_row->chosen()};
    }
    [[nodiscard]] QWidget* widget() const override { return m_row; }
    [[nodiscard]] bool takesNumbers() const override { return true; }
    [[nodiscard]] bool chooseByNumber(int number) override { return m_row->chooseByNumber(number); }

private:
    ChoiceRow* m_row;
};

class CapturePanel::TicksEditor final : public Editor {
public:
    explicit TicksEditor(CapturePanel* panel)
        : m_list(new TickList(panel))
    {
        QObject::connect(m_list, &TickList::ticksChanged, panel,
                         [panel] { Q_EMIT panel->answersChanged(panel->answers()); });
    }
    void show(const CaptureView& view) override
    {
        QList<TickItem> items;
        for (const CaptureView::Option& option : view.options)
            items.append({option.id, option.text, option.sub});
        m_list->setView({view.label, items, view.value, view.error, view.reach});
    }
    [[nodiscard]] QStringList value() const override { return m_list->ticked(); }
    [[nodiscard]] QWidget* widget() const override { return m_list; }

private:
    TickList* m_list;
};

/// The label stands beside the box, as with choices, so that a whole stop is seen at once.
class CapturePanel::FieldEditor final : public Editor {
public:
    FieldEditor(CapturePanel* panel, Field::Kind kind)
        : m_row(new QWidget(panel))
        , m_label(new TextLabel(TextRole::Small, Ink::Text, m_row))
        , m_field(new Field(kind, m_row))
    {
        m_label->setFixedWidth(kLabelWidth);
        m_label->setMinimumHeight(kHandTarget); // stands beside the box, whatever stands below that
        m_label->setAlignment(Qt::AlignLeft | Qt::AlignVCenter);
        m_field->setMaximumWidth(440);
        m_row->setFocusProxy(m_field);
        auto* row = new QHBoxLayout(m_row);
        row->setContentsMargins(0, 0, 0, 0);
        row->setSpacing(kLabelGap);
        row->addWidget(m_label, 0, Qt::AlignTop);
        row->addWidget(m_field, 1, Qt::AlignTop);
        row->addStretch(0);
        QObject::connect(m_field, &Field::valueChanged, panel,
                         [panel] { Q_EMIT panel->answersChanged(panel->answers()); });
    }
    void show(const CaptureView& view) override
    {
        m_label->setText(view.label);
        m_field->setView({QString(), view.value.value(0), view.unit, view.hint, view.error});
        m_field->box()->setAccessibleName(view.unit.isEmpty() ? view.label
                                                              : u"%1, %2"_s.arg(view.label, view.unit));
    }
    [[nodiscard]] QStringList value() const override
    {
        return m_field->value().isEmpty() ? QStringList() : QStringList{m_field->value()};
    }
    [[nodiscard]] QWidget* widget() const override { return m_row; }
    [[nodiscard]] bool isTyped() const override { return true; }

private:
    static constexpr int kLabelWidth = 160; // as a ChoiceRow's
    static constexpr int kLabelGap = 16;
    QWidget* m_row;
    TextLabel* m_label;
    Field* m_field;
};

CapturePanel::CapturePanel(QWidget* parent)
    : QWidget(parent)
    , m_layout(new QVBoxLayout(this))
{
    setObjectName(u"captures"_s);
    m_layout->setContentsMargins(0, 0, 0, 0);
    m_layout->setSpacing(12);
}

CapturePanel::~CapturePanel() = default;

std::unique_ptr<CapturePanel::Editor> CapturePanel::editorFor(const CaptureView& capture)
{
    switch (capture.kind) {
    case CaptureView::Kind::Choice:
        return std::make_unique<ChoiceEditor>(this);
    case CaptureView::Kind::Ticks:
        return std::make_unique<TicksEditor>(this);
    case CaptureView::Kind::Text:
        return std::make_unique<FieldEditor>(this, Field::Kind::Text);
    case CaptureView::Kind::Number:
        return std::make_unique<FieldEditor>(this, Field::Kind::Number);
    }
    Q_UNREACHABLE();
}

void CapturePanel::setCaptures(const QString& stepKey, const QList<CaptureView>& captures)
{
    const bool sameStep =
        stepKey == m_stepKey &&
        std::equal(captures.begin(), captures.end(), m_captures.begin(), m_captures.end(), isSameQuestion);
    m_stepKey = stepKey;
    m_captures = captures;
    if (!sameStep)
        rebuild(captures);
    for (size_t i = 0; i < m_editors.size(); ++i)
        m_editors.at(i)->show(captures.at(static_cast<qsizetype>(i)));
    for (const auto& editor : m_editors) {
        for (QWidget* part : editor->widget()->findChildren<QWidget*>())
            part->installEventFilter(this); // once, however often it is said
    }
    setVisible(!captures.isEmpty());
}

bool CapturePanel::eventFilter(QObject* part, QEvent* event)
{
    if (event->type() == QEvent::FocusIn) {
        if (const size_t here = holding(qobject_cast<QWidget*>(part)); here < m_editors.size())
            m_last = m_editors.at(here)->widget();
    }
    return QWidget::eventFilter(part, event);
}

void CapturePanel::rebuild(const QList<CaptureView>& captures)
{
    for (const auto& editor : m_editors)
        retire(editor->widget());
    m_editors.clear();
    m_last.clear();
    for (const CaptureView& capture : captures) {
        m_editors.push_back(editorFor(capture));
        QWidget* widget = m_editors.back()->widget();
        widget->setObjectName(u"capture-"_s + capture.id);
        m_layout->addWidget(widget);
    }
}

QList<CaptureAnswer> CapturePanel::answers() const
{
    QList<CaptureAnswer> all;
    for (size_t i = 0; i < m_editors.size(); ++i)
        all.append({m_captures.at(static_cast<qsizetype>(i)).id, m_editors.at(i)->value()});
    return all;
}

bool CapturePanel::focusFirst()
{
    if (m_editors.empty() || !m_editors.front()->isTyped())
        return false;
    m_editors.front()->widget()->setFocus(Qt::OtherFocusReason);
    return true;
}

size_t CapturePanel::firstOpen(size_t from) const
{
    const auto isOpen = [this](size_t i) {
        return m_editors.at(i)->value().isEmpty() && !m_captures.at(static_cast<qsizetype>(i)).isOptional;
    };
    while (from < m_editors.size() && !isOpen(from))
        ++from;
    return from;
}

size_t CapturePanel::firstMarked() const
{
    size_t marked = 0;
    while (marked < m_editors.size() && m_captures.at(static_cast<qsizetype>(marked)).error.isEmpty())
        ++marked;
    return marked;
}

/// As many as there are: it stands in none of them.
size_t CapturePanel::holding(const QWidget* widget) const
{
    const auto here = std::ranges::find_if(m_editors, [widget](const std::unique_ptr<Editor>& editor) {
        return editor->widget() == widget || editor->widget()->isAncestorOf(widget);
    });
    return static_cast<size_t>(here - m_editors.begin());
}

bool CapturePanel::moveOn()
{
    const size_t from = holding(QApplication::focusWidget());
    const size_t next = from < m_editors.size() ? firstOpen(from + 1) : from;
    if (next == m_editors.size())
        return false;
    goTo(next);
    return true;
}

void CapturePanel::goTo(size_t question)
{
    const Editor& editor = *m_editors.at(question);
    QWidget* target = editor.isTyped() ? editor.widget() : this;
    target->setFocus(Qt::OtherFocusReason);
    bringIntoSight(editor.widget());
}

void CapturePanel::goToMarked()
{
    if (const size_t marked = firstMarked(); marked < m_editors.size())
        goTo(marked);
}

bool CapturePanel::focusOpenBox()
{
    const size_t open = firstOpen(0);
    if (open == m_editors.size() || !m_editors.at(open)->isTyped())
        return false;
    m_editors.at(open)->widget()->setFocus(Qt::OtherFocusReason);
    bringIntoSight(m_editors.at(open)->widget());
    return true;
}

void CapturePanel::showOpen()
{
    if (const size_t open = firstOpen(0); open < m_editors.size())
        bringIntoSight(m_editors.at(open)->widget());
}

bool CapturePanel::comeBack()
{
    if (focusOpenBox())
        return true;
    size_t meant = firstOpen(0);
    if (meant == m_editors.size())
        meant = firstMarked();
    if (meant == m_editors.size())
        meant = holding(m_last);
    if (meant == m_editors.size())
        return false;
    const Editor& editor = *m_editors.at(meant);
    const auto isAnswered = [](const std::unique_ptr<Editor>& one) { return !one->value().isEmpty(); };
    if (std::ranges::any_of(m_editors, isAnswered))
        bringIntoSight(editor.widget());
    if (editor.isTyped())
        editor.widget()->setFocus(Qt::OtherFocusReason);
    return editor.isTyped();
}

bool CapturePanel::chooseWalkedTo()
{
    auto* answer = qobject_cast<QAbstractButton*>(QApplication::focusWidget());
    const size_t here = holding(answer);
    if (here == m_editors.size() || !m_editors.at(here)->takesNumbers() || answer->isChecked())
        return false;
    answer->click();
    return true;
}

bool CapturePanel::chooseByNumber(int number)
{
    size_t meant = holding(QApplication::focusWidget());
    if (meant == m_editors.size() || !m_editors.at(meant)->takesNumbers()) {
        const auto isAsked = [](const std::unique_ptr<Editor>& editor) {
            return editor->takesNumbers() && editor->value().isEmpty();
        };
        meant = static_cast<size_t>(std::ranges::find_if(m_editors, isAsked) - m_editors.begin());
    }
    if (number < 1 || number > 9 || meant == m_editors.size())
        return false;
    if (!isInSight(m_editors.at(meant)->widget())) {
        bringIntoSight(m_editors.at(meant)->widget()); // the next press is by somebody who sees it
        return false;
    }
    const bool isChosen = m_editors.at(meant)->chooseByNumber(number);
    if (isChosen)
        showOpen();
    return isChosen;
}

} // namespace coldarc::ui
