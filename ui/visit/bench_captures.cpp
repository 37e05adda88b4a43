#include "ui/visit/bench_captures.h"

#include "ui/parts/field.h"
#include "ui/parts/retire.h"

#include <QLineEdit>
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

} // namespace

/// One kind of capture: the widget, and how its answer is read.
class CapturePanel::Editor {
public:
    virtual ~Editor() = default;
    virtual void show(const CaptureView& view) = 0;
    [[nodiscard]] virtual QStringList value() const = 0;
    [[nodiscard]] virtual QWidget* widget() const = 0;
    [[nodiscard]] virtual bool chooseByNumber(int /*number*/) { return false; }
    [[nodiscard]] virtual bool isTyped() const { return false; }
};

class CapturePanel::ChoiceEditor final : public Editor {
public:
    explicit ChoiceEditor(CapturePanel* panel)
        : m_row(new ChoiceRow(panel))
    {
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
    [[nodiscard]] bool chooseByNumber(int number) override
    {
        return m_row->chosen().isEmpty() && m_row->chooseByNumber(number);
    }

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

class CapturePanel::FieldEditor final : public Editor {
public:
    FieldEditor(CapturePanel* panel, Field::Kind kind)
        : m_field(new Field(kind, panel))
    {
        m_field->setMaximumWidth(440);
        QObject::connect(m_field, &Field::valueChanged, panel,
                         [panel] { Q_EMIT panel->answersChanged(panel->answers()); });
    }
    void show(const CaptureView& view) override
    {
        m_field->setView({view.label, view.value.value(0), view.unit, view.hint, view.error});
    }
    [[nodiscard]] QStringList value() const override
    {
        return m_field->value().isEmpty() ? QStringList() : QStringList{m_field->value()};
    }
    [[nodiscard]] QWidget* widget() const override { return m_field; }
    [[nodiscard]] bool isTyped() const override { return true; }

private:
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
    setVisible(!captures.isEmpty());
}

void CapturePanel::rebuild(const QList<CaptureView>& captures)
{
    for (const auto& editor : m_editors)
        retire(editor->widget());
    m_editors.clear();
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

bool CapturePanel::chooseByNumber(int number)
{
    return std::any_of(m_editors.begin(), m_editors.end(),
                       [&](const std::unique_ptr<Editor>& editor) { return editor->chooseByNumber(number); });
}

} // namespace coldarc::ui
