#include "ui/visit/book_in_page.h"

#include "ui/parts/field.h"
#include "ui/parts/page_keys.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/retire.h"
#include "ui/parts/show_text.h"
#include "ui/parts/side_page.h"
#include "ui/parts/text_label.h"
#include "ui/visit/bench_captures.h"
#include "ui/visit/date_line.h"

#include <QApplication>
#include <QCompleter>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QMouseEvent>
#include <QPainter>
#include <QScrollArea>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

void showCell(Field* field, TextLabel* words, const QString& label, const BookInColumn::Cell& cell)
{
    const bool differs = cell.mark == BookInColumn::Mark::Differs;
    FieldView view;
    view.label = label;
    view.value = cell.text;
    view.error = differs ? u"\u2260 "_s + cell.words : QString();
    field->setView(view);
    showText(words, differs ? QString() : cell.words);
}

/// Lets nothing into a box but what is keyed: no paste, no drop, no menu, no second mouse button. A scanner
/// keys its letters too.
class KeyedOnly final : public QObject {
public:
    explicit KeyedOnly(QLineEdit* box)
        : QObject(box)
    {
        box->setAcceptDrops(false);
        box->setDragEnabled(false);
        box->setContextMenuPolicy(Qt::NoContextMenu);
        box->setCompleter(nullptr);
        box->installEventFilter(this);
    }

protected:
    bool eventFilter(QObject* /*box*/, QEvent* event) override
    {
        switch (event->type()) {
        case QEvent::KeyPress:
        case QEvent::ShortcutOverride:
            return static_cast<QKeyEvent*>(event)->matches(QKeySequence::Paste);
        case QEvent::MouseButtonPress:
        case QEvent::MouseButtonRelease:
            return static_cast<QMouseEvent*>(event)->button() == Qt::MiddleButton;
        case QEvent::DragEnter:
        case QEvent::DragMove:
        case QEvent::Drop:
            return true;
        default:
            return false;
        }
    }
};

} // namespace

BookInPage::BookInPage(const Clock& clock, QWidget* parent)
    : QWidget(parent)
    , m_place(new SectionLabel(QString(), this))
    , m_title(new TextLabel(TextRole::Title, Ink::Text, this))
    , m_matched(new TextLabel(TextRole::Heading, Ink::Quiet, this))
    , m_columnGrid(new QGridLayout)
    , m_waits(new TextLabel(TextRole::Strong, Ink::Text, this))
    , m_wrongType(new SignalPanel(this))
    , m_rest(new CapturePanel(this))
    , m_pass(new CapturePanel(this))
    , m_passButton(new PlainButton(tr("Let the serial pass"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_suggested(new TextLabel(TextRole::Heading, Ink::Text, this))
    , m_how(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_line(new DateLine(this))
    , m_keyBox(new QWidget(this))
    , m_keyIn(new TextLabel(TextRole::Title, Ink::Text, m_keyBox))
    , m_actLayout(new QVBoxLayout)
    , m_action(new ActionButton(clock, this))
{
    setObjectName(u"bookInPage"_s);
    setFocusPolicy(Qt::StrongFocus);
    m_waits->setObjectName(u"waits"_s);
    m_matched->setObjectName(u"matched"_s);
    m_keyIn->setObjectName(u"keyIn"_s);
    m_pass->setObjectName(u"pass"_s);
    m_passButton->setObjectName(u"passSerial"_s);
    m_waits->setLeading(3);
    m_how->setLeading(3);
    m_columnGrid->setHorizontalSpacing(32);
    m_columnGrid->setVerticalSpacing(10);

    auto* keyColumn = new QVBoxLayout(m_keyBox);
    keyColumn->setContentsMargins(0, 0, 0, 0);
    keyColumn->addWidget(new SectionLabel(tr("Key into the projector's controller"), m_keyBox));
    keyColumn->addWidget(m_keyIn);

    auto* alert = new QVBoxLayout;
    alert->setSpacing(8);
    alert->addWidget(m_suggested);
    alert->addWidget(m_how);
    alert->addWidget(m_line);
    alert->addStretch(1);
    auto* asked = new QVBoxLayout;
    asked->setSpacing(12);
    asked->addWidget(m_rest);
    asked->addWidget(m_pass);
    asked->addWidget(m_passButton, 0, Qt::AlignLeft);
    asked->addLayout(m_actLayout);
    asked->addStretch(1);
    auto* below = new QHBoxLayout;
    below->setSpacing(48);
    below->addLayout(asked, 1);
    below->addLayout(alert, 1);

    auto* body = new QWidget;
    auto* inside = new QVBoxLayout(body);
    inside->setContentsMargins(0, 0, 8, 0);
    inside->setSpacing(14);
    inside->addLayout(m_columnGrid);
    inside->addWidget(m_waits);
    inside->addWidget(m_wrongType);
    inside->addWidget(m_keyBox);
    inside->addLayout(below);
    inside->addStretch(1);
    QScrollArea* scroll = bareScroll(body, this);
    scroll->setObjectName(u"bookInScroll"_s);

    auto* back = new PlainButton(tr("Back to the bench"), Reach::Hand, PlainButton::Weight::Quiet, this);
    back->setObjectName(u"back"_s);
    back->setKeyCap(u"Esc"_s);
    m_action->setMaximumWidth(520);
    auto* buttons = new QHBoxLayout;
    buttons->addWidget(back, 0, Qt::AlignBottom);
    buttons->addStretch(1);
    buttons->addWidget(m_action, 1000, Qt::AlignBottom);
    auto* head = new QHBoxLayout;
    head->addWidget(m_title, 1);
    head->addWidget(m_matched, 0, Qt::AlignBottom);

    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(40, 26, 40, 24);
    column->setSpacing(12);
    column->addWidget(m_place);
    column->addLayout(head);
    column->addWidget(scroll, 1);
    column->addLayout(buttons);

    connect(m_rest, &CapturePanel::answersChanged, this, &BookInPage::restChanged);
    connect(m_pass, &CapturePanel::answersChanged, this, &BookInPage::passChanged);
    connect(m_passButton, &QAbstractButton::clicked, this, &BookInPage::passRequested);
    connect(m_action, &ActionButton::done, this, &BookInPage::doneRequested);
    connect(back, &QAbstractButton::clicked, this, &BookInPage::leaveRequested);
    onEnter(*this, [this] { press(); });
    onEscape(*this, [this] { Q_EMIT leaveRequested(); });
}

BookInPage::Column BookInPage::makeColumn()
{
    const auto cell = [this](Field* field, TextLabel* words) {
        auto* widget = new QWidget(this);
        auto* layout = new QVBoxLayout(widget);
        layout->setContentsMargins(0, 0, 0, 0);
        layout->setSpacing(5);
        layout->addWidget(field);
        layout->addWidget(words);
        layout->addStretch(1);
        return widget;
    };
    Column made{};
    made.title = new SectionLabel(QString(), this);
    made.type = new Field(Field::Kind::Text, this);
    made.typeWords = new TextLabel(TextRole::Small, Ink::Quiet, this);
    made.serial = new Field(Field::Kind::Text, this);
    made.serialWords = new TextLabel(TextRole::Small, Ink::Quiet, this);
    new KeyedOnly(made.type->box());
    new KeyedOnly(made.serial->box());
    made.typeCell = cell(made.type, made.typeWords);
    made.serialCell = cell(made.serial, made.serialWords);
    const auto column = static_cast<int>(m_columns.size());
    m_columnGrid->addWidget(made.title, 0, column);
    m_columnGrid->addWidget(made.typeCell, 1, column);
    m_columnGrid->addWidget(made.serialCell, 2, column);
    m_columnGrid->setColumnStretch(column, 1);
    return made;
}

void BookInPage::showColumns()
{
    while (m_columns.size() > m_view.columns.size()) {
        const Column last = m_columns.takeLast();
        for (QWidget* part : {static_cast<QWidget*>(last.title), last.typeCell, last.serialCell})
            retire(part);
        m_columnGrid->setColumnStretch(static_cast<int>(m_columns.size()), 0);
    }
    while (m_columns.size() < m_view.columns.size()) {
        const qsizetype index = m_columns.size();
        m_columns.append(makeColumn());
        connect(m_columns.last().type, &Field::valueChanged, this,
                [this, index](const QString& text) { Q_EMIT typeTyped(m_columns.at(index).id, text); });
        connect(m_columns.last().serial, &Field::valueChanged, this,
                [this, index](const QString& text) { Q_EMIT serialTyped(m_columns.at(index).id, text); });
    }
    for (qsizetype i = 0; i < m_columns.size(); ++i) {
        Column& column = m_columns[i];
        const BookInColumn& view = m_view.columns.at(i);
        column.id = view.id;
        column.type->setObjectName(view.id + u"-type"_s);
        column.serial->setObjectName(view.id + u"-serial"_s);
        column.title->setText(view.title);
        showCell(column.type, column.typeWords, tr("Type"), view.type);
        showCell(column.serial, column.serialWords, tr("Serial"), view.serial);
        column.type->box()->setAccessibleName(tr("%1, type").arg(view.title));
        column.serial->box()->setAccessibleName(tr("%1, serial").arg(view.title));
    }
}

void BookInPage::showActs()
{
    while (m_acts.size() > m_view.acts.size())
        retire(m_acts.takeLast());
    while (m_acts.size() < m_view.acts.size()) {
        auto* button = new PlainButton(QString(), Reach::Hand, PlainButton::Weight::Quiet, this);
        connect(button, &QAbstractButton::clicked, this,
                [this, i = m_acts.size()] { Q_EMIT personActRequested(m_view.acts.at(i).id); });
        m_actLayout->addWidget(button);
        m_acts.append(button);
    }
    for (qsizetype i = 0; i < m_acts.size(); ++i) {
        const PersonAct& act = m_view.acts.at(i);
        m_acts.at(i)->setText(act.text);
        m_acts.at(i)->setSub(act.stand == PersonAct::Stand::Given ? tr("given") : act.sub);
        m_acts.at(i)->setEnabled(act.stand == PersonAct::Stand::Open);
        m_acts.at(i)->setShortcut(QKeySequence(act.key));
        m_acts.at(i)->setKeyCap(act.key);
    }
}

void BookInPage::setView(const BookInView& view)
{
    m_view = view;
    m_place->setText(view.place);
    m_title->setText(view.title);
    showText(m_matched, view.matched);
    showColumns();
    showText(m_waits, view.waits.join(u'\n'));
    std::optional<SignalView> notice = view.danger;
    if (!view.wrongType.isEmpty())
        notice = SignalView{SignalWord::Notice, view.wrongType.join(u'\n')};
    m_wrongType->setView(notice);
    m_rest->setCaptures(view.action.stepKey, view.rest);
    m_pass->setCaptures(view.action.stepKey, view.pass);
    m_passButton->setVisible(!view.pass.isEmpty());
    const ThresholdView alert = view.threshold.value_or(ThresholdView{});
    showText(m_suggested,
             alert.suggested.isEmpty() ? QString() : tr("Alert suggested at %1").arg(alert.suggested));
    showText(m_how, alert.how.join(u'\n'));
    m_line->setMarks(alert.line);
    m_line->setVisible(!alert.line.isEmpty());
    m_keyIn->setText(view.keyIn.join(u"\u2003"_s));
    m_keyBox->setVisible(!view.keyIn.isEmpty());
    showActs();
    m_action->setView(view.action);
}

QList<QLineEdit*> BookInPage::boxes() const
{
    QList<QLineEdit*> all;
    for (const Column& column : m_columns)
        all << column.type->box() << column.serial->box();
    all += m_rest->findChildren<QLineEdit*>();
    return all;
}

void BookInPage::begin()
{
    for (QLineEdit* box : boxes()) {
        if (box->text().isEmpty())
            return box->setFocus(Qt::OtherFocusReason);
    }
    setFocus(Qt::OtherFocusReason);
}

void BookInPage::press()
{
    QWidget* holder = QApplication::focusWidget();
    if (auto* button = qobject_cast<QAbstractButton*>(holder); button && !m_rest->isAncestorOf(button))
        return button->click();
    if (qobject_cast<QLineEdit*>(holder)) {
        for (QLineEdit* box : boxes()) {
            if (box->text().isEmpty() && box != holder)
                return box->setFocus(Qt::OtherFocusReason);
        }
        for (const CaptureAnswer& answer : m_rest->answers()) {
            if (answer.value.isEmpty())
                return setFocus(Qt::OtherFocusReason); // the number keys answer from here
        }
    }
    m_action->click();
}

void BookInPage::keyPressEvent(QKeyEvent* event)
{
    if (!event->isAutoRepeat() && m_rest->chooseByNumber(event->key() - Qt::Key_0))
        return;
    QWidget::keyPressEvent(event);
}

void BookInPage::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.fillRect(rect(), tokensOf(*this).ground);
}

} // namespace coldarc::ui
