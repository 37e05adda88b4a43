#include "ui/photometry/sheet_page.h"

#include "ui/parts/combo_field.h"
#include "ui/parts/page_keys.h"
#include "ui/parts/paste_panel.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/show_text.h"
#include "ui/parts/side_page.h"
#include "ui/photometry/screen_drawing.h"
#include "ui/photometry/sheet_parts.h"

#include <QApplication>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPainter>
#include <QPlainTextEdit>
#include <QScrollArea>
#include <QScrollBar>
#include <QVBoxLayout>

#include <algorithm>
#include <array>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kMostTyped = 24; // characters
constexpr int kUnitWidth = 236;

QVBoxLayout* columnOf(QWidget* widget, int spacing)
{
    auto* column = new QVBoxLayout(widget);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(spacing);
    return column;
}

FieldView boxView(const QString& label, const QString& value, const QString& unit)
{
    FieldView view;
    view.label = label;
    view.value = value;
    view.unit = unit;
    return view;
}

} // namespace

SheetPage::SheetPage(const Clock& clock, QWidget* parent)
    : QWidget(parent)
    , m_place(new SectionLabel(QString(), this))
    , m_title(namedLabel(TextRole::Title, Ink::Text, u"title"_s, this))
    , m_time(namedLabel(TextRole::Body, Ink::Quiet, u"time"_s, this))
    , m_whole(new SignedWords(this))
    , m_conditions(namedLabel(TextRole::Small, Ink::Quiet, u"conditions"_s, this))
    , m_screen(new ScreenDrawing(this))
    , m_elsewhere(namedLabel(TextRole::Small, Ink::Quiet, u"elsewhere"_s, this))
    , m_point(namedLabel(TextRole::Heading, Ink::Text, u"point"_s, this))
    , m_luminance(new Field(Field::Kind::Number, this))
    , m_x(new Field(Field::Kind::Number, this))
    , m_y(new Field(Field::Kind::Number, this))
    , m_unit(new ChoiceBar(2, this))
    , m_fault(namedLabel(TextRole::Strong, Ink::Text, u"fault"_s, this))
    , m_question(new ChoiceBar(3, this))
    , m_takeBack(addButton(u"takeBack"_s, tr("Take back"), u"F8"_s, &SheetPage::takeBackRequested))
    , m_owe(addButton(u"owe"_s, tr("Leave to a later visit"), u"F5"_s, &SheetPage::oweRequested))
    , m_wrong(addButton(u"somethingWrong"_s, tr("Something went wrong"), u"F9"_s,
                        &SheetPage::somethingWrongRequested))
    , m_back(addButton(u"back"_s, tr("Back to the bench"), u"Esc"_s, &SheetPage::leaveRequested))
    , m_action(new ActionButton(clock, this))
    , m_panels(new ChoiceBar(2, this))
    , m_set(new ComboField(this))
    , m_source(namedLabel(TextRole::Caption, Ink::Quiet, u"setSource"_s, this))
    , m_verdicts(new VerdictTable(this))
    , m_notes(namedLabel(TextRole::Small, Ink::Text, u"notes"_s, this))
    , m_evenness(namedLabel(TextRole::Caption, Ink::Quiet, u"evenness"_s, this))
    , m_xyWords(namedLabel(TextRole::Small, Ink::Quiet, u"xyWords"_s, this))
    , m_xy(new XyInset(this))
    , m_ownLimits(new FormGrid(this))
    , m_form(new FormGrid(this))
    , m_expected(namedLabel(TextRole::Small, Ink::Text, u"expected"_s, this))
    , m_paste(new PastePanel(this))
    , m_mapping(new FormGrid(this))
    , m_preview(namedLabel(TextRole::Caption, Ink::Quiet, u"preview"_s, this))
    , m_tableQuestion(new ChoiceBar(1, this))
    , m_file(new PlainButton(tr("Open a file"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_take(new PlainButton(QString(), Reach::Hand, PlainButton::Weight::Strong, this))
    , m_comparison(namedLabel(TextRole::Body, Ink::Text, u"comparison"_s, this))
    , m_changes(namedLabel(TextRole::Body, Ink::Text, u"changes"_s, this))
    , m_left(makeLeft())
    , m_right(makeRight())
{
    setObjectName(u"sheetPage"_s);
    setFocusPolicy(Qt::ClickFocus); // Tab halts at its parts
    auto* columns = new QHBoxLayout(this);
    columns->setContentsMargins(0, 0, 0, 0);
    columns->setSpacing(0);
    columns->addWidget(m_left, 1);
    columns->addWidget(m_right);

    for (Field* field : {m_luminance, m_x, m_y}) {
        field->box()->setMaxLength(kMostTyped);
        field->box()->installEventFilter(this);
        connect(field, &Field::valueChanged, this, &SheetPage::tellTyped);
    }
    connect(m_screen, &ScreenDrawing::pointChosen, this, &SheetPage::pointChosen);
    connect(m_screen, &ScreenDrawing::moved, this, &SheetPage::moved);
    connect(m_screen, &ScreenDrawing::typed, this, [this](const QString& text) {
        m_luminance->box()->setText(text);
        m_luminance->box()->setFocus(Qt::OtherFocusReason);
        m_luminance->box()->end(false);
        tellTyped();
    });
    connect(m_unit, &ChoiceBar::choiceChanged, this, &SheetPage::unitChosen);
    connect(m_question, &ChoiceBar::choiceChanged, this, &SheetPage::answered);
    connect(m_panels, &ChoiceBar::choiceChanged, this,
            [this](const QString& id) { Q_EMIT panelChosen(static_cast<SheetPanel>(id.toInt())); });
    connect(m_set, &ComboField::choiceChanged, this, &SheetPage::setChosen);
    connect(m_ownLimits, &FormGrid::changed, this, &SheetPage::ownLimitTyped);
    connect(m_form, &FormGrid::changed, this, &SheetPage::conditionTyped);
    connect(m_mapping, &FormGrid::changed, this, &SheetPage::tableMapped);
    connect(m_paste, &PastePanel::pasted, this, &SheetPage::tableGiven);
    connect(m_file, &QAbstractButton::clicked, this, &SheetPage::askForFile);
    connect(m_take, &QAbstractButton::clicked, this, &SheetPage::tableTaken);
    connect(m_tableQuestion, &ChoiceBar::choiceChanged, this, &SheetPage::tableAnswered);
    connect(m_action, &ActionButton::done, this, &SheetPage::doneRequested);
    bindKeys();
}

PlainButton* SheetPage::addButton(const QString& name, const QString& text, const QString& key,
                                  void (SheetPage::*signal)())
{
    auto* button = new PlainButton(text, Reach::Hand, PlainButton::Weight::Quiet, this);
    button->setObjectName(name);
    button->setKeyCap(key);
    button->setFocusPolicy(Qt::TabFocus);
    connect(button, &QAbstractButton::clicked, this, signal);
    return button;
}

QWidget* SheetPage::makeLeft()
{
    auto* left = new QWidget(this);
    m_unit->setObjectName(u"unit"_s);
    m_question->setObjectName(u"question"_s);
    m_luminance->setObjectName(u"luminance"_s);
    m_x->setObjectName(u"x"_s);
    m_y->setObjectName(u"y"_s);
    m_action->setObjectName(u"action"_s);
    m_action->setFocusPolicy(Qt::TabFocus);
    m_point->setMinimumWidth(132);
    m_unit->setMinimumWidth(kUnitWidth);
    auto* head = new QHBoxLayout;
    head->addWidget(m_title, 1);
    head->addWidget(m_whole, 0, Qt::AlignTop);
    auto* sub = new QHBoxLayout;
    sub->setSpacing(18);
    sub->addWidget(m_time);
    sub->addWidget(m_conditions, 1);

    auto* entry = new QHBoxLayout;
    entry->setSpacing(14);
    entry->addWidget(m_point, 0, Qt::AlignVCenter);
    entry->addWidget(m_luminance, 5, Qt::AlignTop);
    entry->addWidget(m_x, 3, Qt::AlignTop);
    entry->addWidget(m_y, 3, Qt::AlignTop);
    entry->addWidget(m_unit, 0, Qt::AlignTop);
    auto* quiet = new QHBoxLayout;
    quiet->setSpacing(12);
    for (PlainButton* button : {m_takeBack, m_owe, m_wrong})
        quiet->addWidget(button);
    quiet->addStretch(1);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(12);
    buttons->addWidget(m_back, 0, Qt::AlignBottom);
    buttons->addStretch(1);
    buttons->addWidget(m_action, 1000, Qt::AlignBottom);
    m_action->setMaximumWidth(460);

    auto* column = new QVBoxLayout(left);
    column->setContentsMargins(32, 22, 28, 22);
    column->setSpacing(8);
    column->addWidget(m_place);
    column->addLayout(head);
    column->addLayout(sub);
    column->addWidget(m_screen, 1);
    column->addWidget(m_elsewhere);
    column->addLayout(entry);
    column->addWidget(m_fault);
    column->addWidget(m_question);
    column->addLayout(quiet);
    column->addLayout(buttons);
    return left;
}

QWidget* SheetPage::makeRight()
{
    auto* right = new QWidget(this);
    m_panels->setObjectName(u"panels"_s);
    m_panels->setView({QString(),
                       {{u"0"_s, tr("Verdicts (F2)")},
                        {u"1"_s, tr("Conditions (F3)")},
                        {u"2"_s, tr("Meter's file (F4)")},
                        {u"3"_s, tr("Before, after (F6)")}},
                       u"0"_s,
                       QString(),
                       Reach::Hand});
    auto* inside = new QWidget;
    auto* parts = new QVBoxLayout(inside);
    parts->setContentsMargins(0, 0, 10, 0);
    m_parts = {makeVerdicts(), makeConditions(), makeMeterFile(), makeBeforeAfter()};
    for (QWidget* part : m_parts)
        parts->addWidget(part);
    parts->addStretch(1);
    m_partScroll = bareScroll(inside, right);
    m_partScroll->setObjectName(u"partScroll"_s);
    auto* column = new QVBoxLayout(right);
    column->setContentsMargins(24, 22, 14, 22);
    column->setSpacing(14);
    column->addWidget(m_panels);
    column->addWidget(m_partScroll, 1);
    return right;
}

QWidget* SheetPage::makeVerdicts()
{
    auto* part = new QWidget(this);
    m_set->setObjectName(u"set"_s);
    m_ownLimits->setObjectName(u"ownLimits"_s);
    auto* column = columnOf(part, 10);
    column->addWidget(m_set);
    column->addWidget(m_source);
    column->addWidget(m_verdicts);
    column->addWidget(m_notes);
    column->addWidget(m_ownLimits);
    column->addWidget(new SectionLabel(tr("White of the centre"), part));
    column->addWidget(m_xyWords);
    column->addWidget(m_xy);
    column->addWidget(new SectionLabel(tr("How even it is"), part));
    column->addWidget(m_evenness);
    m_evenness->setLeading(4);
    m_notes->setLeading(3);
    return part;
}

QWidget* SheetPage::makeConditions()
{
    auto* part = new QWidget(this);
    m_form->setObjectName(u"form"_s);
    auto* column = columnOf(part, 14);
    column->addWidget(m_form);
    column->addWidget(m_expected);
    return part;
}

QWidget* SheetPage::makeMeterFile()
{
    auto* part = new QWidget(this);
    m_file->setObjectName(u"openFile"_s);
    m_take->setObjectName(u"takeTable"_s);
    m_mapping->setObjectName(u"mapping"_s);
    m_tableQuestion->setObjectName(u"tableQuestion"_s);
    m_preview->setLeading(3);
    auto* column = columnOf(part, 12);
    column->addWidget(m_file, 0, Qt::AlignLeft);
    column->addWidget(m_paste);
    column->addWidget(m_preview);
    column->addWidget(m_mapping);
    column->addWidget(m_tableQuestion);
    column->addWidget(m_take);
    return part;
}

QWidget* SheetPage::makeBeforeAfter()
{
    auto* part = new QWidget(this);
    m_changes->setLeading(5);
    auto* column = columnOf(part, 12);
    column->addWidget(m_comparison);
    column->addWidget(m_changes);
    return part;
}

void SheetPage::bindKeys()
{
    onEnter(*this, [this] { press(); });
    onEscape(*this, [this] { Q_EMIT leaveRequested(); });
    onKey(*this, Qt::Key_PageDown, [this] { m_action->click(); });
    onKey(*this, Qt::Key_F2, [this] { Q_EMIT panelChosen(SheetPanel::Verdicts); });
    onKey(*this, Qt::Key_F3, [this] { Q_EMIT panelChosen(SheetPanel::Conditions); });
    onKey(*this, Qt::Key_F4, [this] { Q_EMIT panelChosen(SheetPanel::MeterFile); });
    onKey(*this, Qt::Key_F6, [this] { Q_EMIT panelChosen(SheetPanel::BeforeAfter); });
    onKey(*this, Qt::Key_F7, [this] {
        const auto other =
            std::find_if(m_view.unit.options.begin(), m_view.unit.options.end(),
                         [&](const ChoiceOption& option) { return option.id != m_view.unit.chosen; });
        if (other != m_view.unit.options.end())
            Q_EMIT unitChosen(other->id);
    });
    onKey(*this, Qt::Key_F5, *m_owe);
    onKey(*this, Qt::Key_F8, *m_takeBack);
    onKey(*this, Qt::Key_F9, *m_wrong);
}

void SheetPage::press()
{
    QWidget* holder = QApplication::focusWidget();
    if (auto* button = qobject_cast<QAbstractButton*>(holder); button && isAncestorOf(button))
        return button->click();
    if (holder && m_right->isAncestorOf(holder)) {
        focusNextChild(); // from field to field
        return;
    }
    if (m_view.isFilled)
        return m_action->click();
    const bool hasLight = !m_luminance->value().trimmed().isEmpty();
    if (holder == m_luminance->box() && m_view.wantsColour && hasLight)
        return m_x->box()->setFocus(Qt::OtherFocusReason);
    if (holder == m_x->box() && !m_x->value().trimmed().isEmpty())
        return m_y->box()->setFocus(Qt::OtherFocusReason);
    Q_EMIT entered();
}

void SheetPage::tellTyped()
{
    Q_EMIT typed(m_luminance->value(), m_x->value(), m_y->value());
}

void SheetPage::askForFile()
{
    const QString path = QFileDialog::getOpenFileName(this, tr("The meter's table"), QString(),
                                                      tr("Tables (*.csv *.txt *.tsv);;Any file (*)"));
    if (!path.isEmpty())
        Q_EMIT fileGiven(path);
}

void SheetPage::begin()
{
    m_luminance->box()->setFocus(Qt::OtherFocusReason);
    m_luminance->box()->selectAll();
}

void SheetPage::setView(const SheetView& view)
{
    const bool isNextPoint = view.turn != m_view.turn;
    const bool isAsked = view.question.has_value() && view.question != m_view.question;
    const bool isOtherPart = view.panel != m_view.panel;
    m_view = view;
    m_place->setText(view.place);
    m_title->setText(view.title);
    m_time->setText(view.time);
    m_whole->setWords(view.wholeSign, view.whole, view.claim);
    m_conditions->setText(view.conditions);
    m_screen->setView(view);
    showText(m_elsewhere, view.elsewhere);
    m_point->setText(view.pointName);
    const auto unit = std::find_if(view.unit.options.begin(), view.unit.options.end(),
                                   [&](const ChoiceOption& option) { return option.id == view.unit.chosen; });
    const QString unitName = unit == view.unit.options.end() ? QString() : unit->text;
    m_luminance->setView(boxView(tr("Luminance"), view.luminance, unitName));
    m_x->setView(boxView(u"x"_s, view.x, QString()));
    m_y->setView(boxView(u"y"_s, view.y, QString()));
    m_unit->setView(view.unit);
    showText(m_fault, view.fault.isEmpty() ? view.said : view.fault);
    m_question->setVisible(view.question.has_value());
    const SheetQuestion question = view.question.value_or(SheetQuestion());
    m_question->setView({question.text, question.answers, QString(), QString(), Reach::Hand});
    m_takeBack->setVisible(view.canTakeBack);
    m_owe->setVisible(view.canOwe);
    m_action->setView(view.action);
    showPanel();
    if (isAsked)
        m_question->begin();
    else if (isNextPoint)
        begin();
    else if (isOtherPart)
        goToPart();
}

/// Into the part that came up; from the verdicts, and where nothing can be typed, back to the reading in
/// hand.
void SheetPage::goToPart()
{
    m_partScroll->verticalScrollBar()->setValue(0);
    if (m_view.panel == SheetPanel::Conditions)
        return m_form->begin();
    if (m_view.panel == SheetPanel::MeterFile)
        return m_file->setFocus(Qt::OtherFocusReason);
    begin();
}

void SheetPage::showPanel()
{
    const auto chosen = static_cast<qsizetype>(m_view.panel);
    m_panels->setView({QString(),
                       {{u"0"_s, tr("Verdicts (F2)")},
                        {u"1"_s, tr("Conditions (F3)")},
                        {u"2"_s, tr("Meter's file (F4)")},
                        {u"3"_s, tr("Before, after (F6)")}},
                       QString::number(chosen),
                       QString(),
                       Reach::Hand});
    for (qsizetype part = 0; part < m_parts.size(); ++part)
        m_parts.at(part)->setVisible(part == chosen);
    m_set->setView(m_view.set);
    showText(m_source, m_view.setSource);
    m_verdicts->setLines(m_view.verdicts);
    showText(m_notes, m_view.notes.join(u'\n'));
    showText(m_evenness, m_view.evenness.isEmpty()
                             ? tr("With the centre and other points read it is told here.")
                             : m_view.evenness.join(u'\n'));
    m_xyWords->setText(m_view.xy.words);
    m_xy->setView(m_view.xy);
    m_ownLimits->setFields(m_view.ownLimits);
    m_ownLimits->setVisible(!m_view.ownLimits.isEmpty());
    m_form->setFields(m_view.form);
    showText(m_expected, m_view.expected);
    showImport();
    m_comparison->setText(m_view.comparison);
    showText(m_changes, m_view.changes.join(u'\n'));
}

void SheetPage::showImport()
{
    const SheetImportView& table = m_view.import;
    PasteView paste;
    paste.title = tr("The meter's table");
    paste.explains = tr("Open its file, or paste the lines. Nothing is taken before you have looked at it.");
    paste.hint = tr("point; luminance; x; y");
    paste.act = tr("Look at what was pasted");
    paste.outcome = table.said;
    paste.bad = table.bad;
    paste.taken = table.boxTurn;
    m_paste->setView(paste);
    QStringList lines;
    for (qsizetype line = 0; line < table.preview.size(); ++line) {
        const QString cells = table.preview.at(line).join(u"\u2002|\u2002"_s);
        const QString place = table.places.value(line - table.headerLines);
        lines.append(line < table.headerLines ? tr("heading: %1").arg(cells)
                     : place.isEmpty()        ? cells
                                              : u"%1: %2"_s.arg(place, cells));
    }
    showText(m_preview, lines.join(u'\n'));
    m_mapping->setFields(table.mapping);
    m_mapping->setVisible(!table.mapping.isEmpty());
    const SheetQuestion question = table.question.value_or(SheetQuestion());
    m_tableQuestion->setView({question.text, question.answers, QString(), QString(), Reach::Hand});
    m_tableQuestion->setVisible(table.question.has_value());
    m_take->setText(table.act);
    m_take->setVisible(!table.act.isEmpty() && !table.question);
    m_take->updateGeometry();
}

bool SheetPage::eventFilter(QObject* watched, QEvent* event)
{
    if (event->type() == QEvent::KeyPress) {
        const int key = static_cast<QKeyEvent*>(event)->key();
        if (key == Qt::Key_Up || key == Qt::Key_Down) {
            Q_EMIT moved(static_cast<Qt::Key>(key));
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

void SheetPage::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    m_right->setFixedWidth(std::clamp(width() * 33 / 100, 400, 600));
}

void SheetPage::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    const Tokens& t = tokensOf(*this);
    painter.fillRect(rect(), t.ground);
    painter.setPen(t.line);
    painter.drawLine(m_right->x(), 0, m_right->x(), height());
}

} // namespace coldarc::ui
