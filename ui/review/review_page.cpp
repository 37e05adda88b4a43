#include "ui/review/review_page.h"

#include "ui/machine/machine_drawing.h"
#include "ui/parts/action_button.h"
#include "ui/parts/card_lines.h"
#include "ui/parts/combo_field.h"
#include "ui/parts/field.h"
#include "ui/parts/page_keys.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/row_list.h"
#include "ui/parts/show_text.h"
#include "ui/parts/side_page.h"
#include "ui/review/review_parts.h"
#include "ui/visit/done_list.h"

#include <QApplication>
#include <QComboBox>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPainter>
#include <QPlainTextEdit>
#include <QScrollArea>
#include <QScrollBar>
#include <QShortcut>
#include <QVBoxLayout>

#include <algorithm>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kMargin = 32;
constexpr int kMachineWidth = 300;
constexpr int kEntriesHeight = 460;
constexpr int kSectionGap = 14;
constexpr int kWidestAction = 340;
constexpr int kBeforeAction = 24;
constexpr int kBoxHeight = 92;

} // namespace

ReviewPage::ReviewPage(QueueModel& queue, const Clock& clock, QWidget* parent)
    : QWidget(parent)
    , m_side(new QWidget(this))
    , m_count(namedLabel(TextRole::Strong, Ink::Text, u"count"_s, m_side))
    , m_filterButton(quietButton(tr("What is looked for"), u"filter"_s, m_side))
    , m_filter(new QWidget(m_side))
    , m_text(new Field(Field::Kind::Text, m_filter))
    , m_stand(new ComboField(m_filter))
    , m_what(new ComboField(m_filter))
    , m_days(new ComboField(m_filter))
    , m_order(new ComboField(m_filter))
    , m_queue(new QueueList(queue, m_side))
    , m_noQueue(namedLabel(TextRole::Body, Ink::Quiet, u"noQueue"_s, m_side))
    , m_emptyBox(new QWidget(this))
    , m_saidAlone(namedLabel(TextRole::Strong, Ink::Text, u"saidAlone"_s, m_emptyBox))
    , m_empty(namedLabel(TextRole::Body, Ink::Quiet, u"empty"_s, m_emptyBox))
    , m_scroll(nullptr)
    , m_head(new SectionLabel(QString(), this))
    , m_title(namedLabel(TextRole::Title, Ink::Text, u"title"_s, this))
    , m_sub(namedLabel(TextRole::Small, Ink::Quiet, u"sub"_s, this))
    , m_standing(namedLabel(TextRole::Strong, Ink::Text, u"standing"_s, this))
    , m_fault(namedLabel(TextRole::Strong, Ink::Text, u"fault"_s, this))
    , m_cards(new ExceptionCards(this))
    , m_noCards(namedLabel(TextRole::Body, Ink::Quiet, u"noCards"_s, this))
    , m_after(namedLabel(TextRole::Caption, Ink::Text, u"afterClosing"_s, this))
    , m_timeLine(new TimeLineDrawing(this))
    , m_momentHead(namedLabel(TextRole::Caption, Ink::Quiet, u"momentHead"_s, this))
    , m_momentWhat(namedLabel(TextRole::Heading, Ink::Text, u"momentWhat"_s, this))
    , m_momentMore(namedLabel(TextRole::Small, Ink::Text, u"momentMore"_s, this))
    , m_place(new SectionLabel(QString(), this))
    , m_machine(new MachineDrawing(this))
    , m_signatures(new SignedLines(this))
    , m_pastBox(new QWidget(this))
    , m_past(new PastReviews(m_pastBox))
    , m_lightColumn(new QVBoxLayout)
    , m_histories(new RowList(tr("Histories"), this))
    , m_pictureBox(new QWidget(this))
    , m_pictureColumn(new QVBoxLayout)
    , m_entries(new DoneList(this))
    , m_foot(new QWidget(this))
    , m_draftBox(new QWidget(this))
    , m_drafts(new CardLines(m_draftBox))
    , m_form(new QWidget(m_foot))
    , m_formTitle(namedLabel(TextRole::Heading, Ink::Text, u"formTitle"_s, m_form))
    , m_formLabel(namedLabel(TextRole::Small, Ink::Text, u"formLabel"_s, m_form))
    , m_box(new QPlainTextEdit(m_form))
    , m_formHint(namedLabel(TextRole::Caption, Ink::Quiet, u"formHint"_s, m_form))
    , m_leaveForm(quietButton(tr("Leave it"), u"leaveForm"_s, m_form))
    , m_said(namedLabel(TextRole::Strong, Ink::Text, u"said"_s, m_foot))
    , m_no(namedLabel(TextRole::Small, Ink::Text, u"no"_s, m_foot))
    , m_statement(namedLabel(TextRole::Small, Ink::Text, u"statement"_s, m_foot))
    , m_remark(quietButton(QString(), u"remark"_s, m_foot))
    , m_report(quietButton(tr("Report"), u"saveReport"_s, m_foot))
    , m_record(quietButton(tr("Save record"), u"saveRecord"_s, m_foot))
    , m_print(quietButton(tr("Print"), u"print"_s, m_foot))
    , m_sendBack(quietButton(QString(), u"sendBack"_s, m_foot))
    , m_action(new ActionButton(clock, m_foot))
{
    setObjectName(u"reviewPage"_s);
    auto* right = new QVBoxLayout;
    right->setSpacing(0);
    auto* empty = new QVBoxLayout(m_emptyBox);
    empty->setContentsMargins(kMargin, kMargin, kMargin, kMargin);
    empty->setSpacing(kSectionGap);
    empty->addWidget(m_saidAlone);
    empty->addWidget(m_empty);
    empty->addStretch(1);
    right->addWidget(m_emptyBox);
    right->addWidget(makeVisit(), 1);
    right->addWidget(makeFoot());
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    row->addWidget(makeQueue());
    row->addLayout(right, 1);
    connect(m_cards, &ExceptionCards::entryChosen, this, &ReviewPage::entryChosen);
    connect(m_timeLine, &TimeLineDrawing::momentWanted, this, &ReviewPage::momentWanted);
    connect(m_timeLine, &TimeLineDrawing::stepWanted, this, &ReviewPage::stepWanted);
    connect(m_entries, &DoneList::entryChosen, this, &ReviewPage::entryChosen);
    connect(m_histories, &RowList::rowChosen, this,
            [this](const QString& id) { Q_EMIT historyRequested(historyLinkOf(id)); });
    connect(m_drafts, &CardLines::actRequested, this, &ReviewPage::remarkDropped);
    bindKeys();
    setView({});
    setVerdict({});
}

// ---- The queue --------------------------------------------------------------------------------------------

QWidget* ReviewPage::makeQueue()
{
    m_filterButton->setKeyCap(u"F"_s);
    m_filterButton->setCheckable(true);
    auto* column = new QVBoxLayout(m_side);
    column->setContentsMargins(12, 22, 13, 12);
    column->setSpacing(8);
    column->addWidget(new SectionLabel(tr("Signed visits"), m_side));
    column->addWidget(m_count);
    column->addWidget(m_filterButton);
    column->addWidget(makeFilter());
    column->addWidget(m_noQueue);
    column->addWidget(m_queue, 1);
    column->addStretch(0);
    auto* keys = namedLabel(TextRole::Caption, Ink::Quiet, u"keys"_s, m_side);
    keys->setText(tr("N next, B before, T time line, R remark, S send back, A accept"));
    column->addWidget(keys);
    connect(m_filterButton, &QAbstractButton::clicked, this, [this] {
        if (m_filter->isVisibleTo(m_side))
            closeFilter();
        else
            openFilter();
    });
    connect(m_queue, &QueueList::rowChosen, this, [this](int row) {
        m_wasOnTimeLine = false; // whoever moves in the queue stays in it
        Q_EMIT rowChosen(row);
    });
    return m_side;
}

QWidget* ReviewPage::makeFilter()
{
    m_filter->setObjectName(u"filterPanel"_s);
    m_text->setObjectName(u"filterText"_s);
    m_stand->setObjectName(u"filterStand"_s);
    m_what->setObjectName(u"filterWhat"_s);
    m_days->setObjectName(u"filterDays"_s);
    m_order->setObjectName(u"filterOrder"_s);
    auto* column = new QVBoxLayout(m_filter);
    column->setContentsMargins(0, 0, 0, 6);
    column->setSpacing(6);
    for (QWidget* one : std::initializer_list<QWidget*>{m_text, m_stand, m_what, m_days, m_order})
        column->addWidget(one);
    m_filter->hide();
    connect(m_text, &Field::valueChanged, this, &ReviewPage::textTyped);
    connect(m_stand, &ComboField::choiceChanged, this, &ReviewPage::standChosen);
    connect(m_what, &ComboField::choiceChanged, this, &ReviewPage::whatChosen);
    connect(m_days, &ComboField::choiceChanged, this, &ReviewPage::daysChosen);
    connect(m_order, &ComboField::choiceChanged, this, &ReviewPage::orderChosen);
    return m_filter;
}

void ReviewPage::openFilter()
{
    m_filter->show();
    m_filterButton->setChecked(true);
    m_text->box()->setFocus(Qt::ShortcutFocusReason);
    m_text->box()->selectAll();
}

void ReviewPage::closeFilter()
{
    takeFocus();
    m_filter->hide();
    m_filterButton->setChecked(false);
}

void ReviewPage::takeFocus()
{
    QWidget* place = m_filterButton;
    if (m_queue->isVisibleTo(m_side))
        place = m_queue;
    place->setFocus(Qt::OtherFocusReason);
}

/// The visit in sight goes: whoever was in it stays on the desk, and comes back to the time line of the next.
void ReviewPage::keepFocus()
{
    const QWidget* focus = QApplication::focusWidget();
    if (!m_scroll->isAncestorOf(focus) && !m_foot->isAncestorOf(focus))
        return;
    m_wasOnTimeLine = focus == m_timeLine;
    takeFocus();
}

void ReviewPage::setQueueView(const QueueView& view)
{
    m_count->setText(view.count);
    m_filterButton->setSub(view.filter);
    m_text->setView({tr("Site or engineer"), view.text, {}, {}, {}});
    m_stand->setView(view.stand);
    m_what->setView(view.what);
    m_days->setView(view.days);
    m_order->setView(view.order);
    showText(m_noQueue, view.empty);
    const bool hadFocus = m_queue->hasFocus();
    m_queue->setVisible(view.empty.isEmpty());
    if (hadFocus)
        takeFocus();
    m_queue->setCurrent(view.current);
}

// ---- The visit
// ----------------------------------------------------------------------------------------------

QWidget* ReviewPage::makeVisit()
{
    auto* content = new QWidget(this);
    auto* column = new QVBoxLayout(content);
    column->setContentsMargins(kMargin, 14, kMargin, 20);
    column->setSpacing(9);
    auto* under = new QHBoxLayout;
    under->setSpacing(24);
    under->addWidget(m_sub, 1);
    under->addWidget(m_standing, 1);
    m_standing->setAlignment(Qt::AlignRight);
    column->addWidget(m_head);
    column->addWidget(m_title);
    column->addLayout(under);
    column->addWidget(m_fault);
    column->addWidget(m_cards);
    column->addWidget(m_noCards);
    column->addWidget(makeReplay());
    m_drafts->setObjectName(u"drafts"_s);
    auto* draftColumn = new QVBoxLayout(m_draftBox);
    draftColumn->setContentsMargins(0, kSectionGap, 0, 0);
    draftColumn->addWidget(new SectionLabel(tr("Your remarks, not signed yet"), m_draftBox));
    draftColumn->addWidget(m_drafts);
    column->addWidget(m_draftBox);
    auto* pastColumn = new QVBoxLayout(m_pastBox);
    pastColumn->setContentsMargins(0, kSectionGap, 0, 0);
    pastColumn->addWidget(new SectionLabel(tr("Reviews before this one"), m_pastBox));
    pastColumn->addWidget(m_past);
    column->addWidget(m_pastBox);
    column->addSpacing(kSectionGap);
    column->addWidget(new SectionLabel(tr("Signatures"), content));
    column->addWidget(m_signatures);
    m_lightColumn->setSpacing(6);
    column->addLayout(m_lightColumn);
    auto* pictures = new QVBoxLayout(m_pictureBox);
    pictures->setContentsMargins(0, kSectionGap, 0, 0);
    pictures->addWidget(new SectionLabel(tr("Pictures that were kept"), m_pictureBox));
    pictures->addLayout(m_pictureColumn);
    column->addWidget(m_pictureBox);
    column->addSpacing(kSectionGap);
    column->addWidget(new SectionLabel(tr("What else is known"), content));
    m_histories->setObjectName(u"histories"_s);
    column->addWidget(m_histories);
    column->addSpacing(kSectionGap);
    column->addWidget(new SectionLabel(tr("Every entry"), content));
    m_entries->setFixedHeight(kEntriesHeight);
    m_entries->setSelectionMode(QAbstractItemView::SingleSelection);
    column->addWidget(m_entries);
    column->addStretch(1);
    m_scroll = bareScroll(content, this);
    m_scroll->setObjectName(u"visitScroll"_s);
    return m_scroll;
}

QWidget* ReviewPage::makeReplay()
{
    auto* whole = new QWidget(this);
    auto* left = new QVBoxLayout;
    left->setSpacing(6);
    left->addWidget(m_timeLine);
    left->addWidget(m_after);
    left->addSpacing(4);
    left->addWidget(m_momentHead);
    left->addWidget(m_momentWhat);
    left->addWidget(m_momentMore);
    left->addStretch(1);
    m_machine->setFixedWidth(kMachineWidth);
    m_place->setFixedWidth(kMachineWidth);
    auto* machine = new QVBoxLayout;
    machine->setSpacing(6);
    machine->addWidget(m_place);
    machine->addWidget(m_machine);
    machine->addStretch(1);
    auto* row = new QHBoxLayout(whole);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(24);
    row->addLayout(left, 1);
    row->addLayout(machine);
    return whole;
}

QWidget* ReviewPage::makeFoot()
{
    m_remark->setKeyCap(u"R"_s);
    m_sendBack->setKeyCap(u"S"_s);
    m_action->setMaximumWidth(kWidestAction);
    auto* column = new QVBoxLayout(m_foot);
    column->setContentsMargins(kMargin, 10, kMargin, 18);
    column->setSpacing(8);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(12);
    column->addWidget(m_said);
    column->addWidget(makeForm());
    column->addWidget(m_no);
    column->addWidget(m_statement);
    column->addLayout(buttons);
    buttons->addWidget(m_remark, 0, Qt::AlignBottom);
    m_report->setToolTip(tr("A PDF: one page for the customer, the rest for the file, the record inside"));
    m_record->setToolTip(tr("Entries, signatures and pictures in one file, which anybody can verify: "
                            "coldarc verify FILE"));
    buttons->addWidget(m_report, 0, Qt::AlignBottom);
    buttons->addWidget(m_record, 0, Qt::AlignBottom);
    buttons->addWidget(m_print, 0, Qt::AlignBottom);
    buttons->addStretch(1);
    buttons->addWidget(m_sendBack, 0, Qt::AlignBottom);
    buttons->addSpacing(kBeforeAction);
    buttons->addWidget(m_action, 1000, Qt::AlignBottom);
    connect(m_remark, &QAbstractButton::clicked, this, &ReviewPage::remarkRequested);
    connect(m_sendBack, &QAbstractButton::clicked, this, &ReviewPage::sendBackRequested);
    connect(m_action, &ActionButton::done, this, &ReviewPage::doneRequested);
    connect(m_report, &QAbstractButton::clicked, this, &ReviewPage::reportRequested);
    connect(m_record, &QAbstractButton::clicked, this, &ReviewPage::recordRequested);
    connect(m_print, &QAbstractButton::clicked, this, &ReviewPage::printRequested);
    return m_foot;
}

QWidget* ReviewPage::makeForm()
{
    m_form->setObjectName(u"verdictForm"_s);
    m_box->setObjectName(u"box"_s);
    m_box->setTabChangesFocus(true);
    m_box->setFixedHeight(kBoxHeight);
    auto* under = new QHBoxLayout;
    under->addWidget(m_formHint, 1);
    under->addWidget(m_leaveForm);
    auto* column = new QVBoxLayout(m_form);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(6);
    column->addWidget(m_formTitle);
    column->addWidget(m_formLabel);
    column->addWidget(m_box);
    column->addLayout(under);
    connect(m_box, &QPlainTextEdit::textChanged, this, [this] { Q_EMIT draftChanged(m_box->toPlainText()); });
    connect(m_leaveForm, &QAbstractButton::clicked, this, &ReviewPage::formLeft);
    return m_form;
}

void ReviewPage::setVerdict(const VerdictView& view)
{
    m_draftBox->setVisible(!view.remarks.isEmpty());
    m_drafts->setLines(view.remarks);
    m_lastSaid = view.said;
    showSaid();
    showText(m_no, view.no.join(u'\n'));
    showText(m_statement, view.statement);
    const auto showButton = [](PlainButton* button, const QString& text, bool isShown) {
        button->setText(text);
        button->setAccessibleName(text);
        button->setVisible(isShown && !text.isEmpty());
    };
    showButton(m_remark, view.remark, !view.form);
    showButton(m_sendBack, view.sendBack, !view.form);
    m_action->setView(view.action);
    m_action->setKeyCap(view.form ? u"Ctrl+Enter"_s : u"A"_s);
    showForm(view.form);
}

/// In the foot of the visit in sight, or where there is none in its place.
void ReviewPage::showSaid()
{
    const bool isVisitShown = m_view.empty.isEmpty();
    showText(m_said, isVisitShown ? m_lastSaid : QString());
    showText(m_saidAlone, isVisitShown ? QString() : m_lastSaid);
}

void ReviewPage::showForm(const std::optional<VerdictForm>& form)
{
    const auto kind = form ? std::optional(form->kind) : std::nullopt;
    const bool isOther = std::exchange(m_formKind, kind) != kind;
    const bool wasInForm = m_form->isAncestorOf(QApplication::focusWidget());
    if (form && isOther && !wasInForm)
        m_before = QApplication::focusWidget();
    m_form->setVisible(form.has_value());
    if (form) {
        m_formTitle->setText(form->title);
        m_formLabel->setText(form->label);
        m_formHint->setText(form->hint);
        m_box->setAccessibleName(form->label);
        if (m_box->toPlainText() != form->draft) {
            const QSignalBlocker quiet(m_box);
            m_box->setPlainText(form->draft);
            m_box->moveCursor(QTextCursor::End);
        }
    }
    if (isOther && isVisible()) {
        if (form)
            m_box->setFocus(Qt::OtherFocusReason);
        else if (wasInForm && m_before && m_before->isVisible()) // who is elsewhere meanwhile stays there
            m_before->setFocus(Qt::OtherFocusReason);
        else if (wasInForm)
            takeFocus();
    }
}

void ReviewPage::setPicture(const QString& hash, const QImage& picture, const QString& trouble)
{
    for (PictureTile* tile : std::as_const(m_pictures))
        tile->setPicture(hash, picture, trouble);
    m_entries->setPicture(hash, picture);
}

void ReviewPage::setView(const ReviewView& view)
{
    const bool isOther = view.head != m_view.head || view.title != m_view.title;
    m_view = view;
    if (!view.empty.isEmpty())
        keepFocus();
    showSaid();
    showText(m_empty, view.empty);
    m_emptyBox->setVisible(!view.empty.isEmpty());
    m_scroll->setVisible(view.empty.isEmpty());
    m_foot->setVisible(view.empty.isEmpty());
    if (!view.empty.isEmpty())
        return;
    m_head->setText(view.head);
    m_title->setText(view.title);
    m_sub->setText(view.sub);
    showText(m_standing, view.stand);
    showText(m_fault, view.fault);
    m_cards->setCards(view.cards);
    showText(m_noCards, view.noCards);
    m_timeLine->setView(view.timeLine);
    showText(m_after, view.timeLine.after.join(u'\n'));
    m_signatures->setLines(view.signatures);
    m_past->setReviews(view.past);
    m_pastBox->setVisible(!view.past.isEmpty());
    m_histories->setRows(view.histories, QString());
    showLights(view.lights);
    showPictures(view.pictures);
    m_entries->setLines(view.lines, view.lines.isEmpty() ? -1 : 0);
    if (isOther)
        m_scroll->verticalScrollBar()->setValue(0);
    if (std::exchange(m_wasOnTimeLine, false) && m_queue->hasFocus())
        m_timeLine->setFocus(Qt::OtherFocusReason);
}

void ReviewPage::setMoment(const MomentView& view)
{
    m_timeLine->setMoment(view.at,
                          view.entry < 0 ? QString() : tr("%1, entry %2").arg(view.time).arg(view.entry));
    m_momentHead->setText(view.head);
    m_momentWhat->setText(view.what);
    showText(m_momentMore, view.more.join(u'\n'));
    m_place->setText(view.place);
    m_machine->setView(view.machine);
    m_entries->setLines(m_view.lines, view.entry);
}

void ReviewPage::showLights(const QList<ReviewLight>& lights)
{
    while (m_lights.size() < lights.size()) {
        m_lights.append(new LightBlock(m_scroll->widget()));
        m_lightColumn->addWidget(m_lights.last());
    }
    for (qsizetype index = 0; index < m_lights.size(); ++index) {
        m_lights[index]->setVisible(index < lights.size());
        if (index < lights.size())
            m_lights[index]->setView(lights[index]);
    }
}

void ReviewPage::showPictures(const QList<ReviewPicture>& pictures)
{
    m_pictureBox->setVisible(!pictures.isEmpty());
    while (m_pictures.size() < pictures.size()) {
        m_pictures.append(new PictureTile(m_pictureBox));
        m_pictureColumn->addWidget(m_pictures.last());
    }
    for (qsizetype index = 0; index < m_pictures.size(); ++index) {
        m_pictures[index]->setVisible(index < pictures.size());
        if (index < pictures.size())
            m_pictures[index]->setView(pictures[index]);
    }
}

// ---- Keys and the frame -----------------------------------------------------------------------------------

void ReviewPage::bindKeys()
{
    onKeyOutsideTheFilter(Qt::Key_N, [this] { Q_EMIT nextRequested(); });
    onKeyOutsideTheFilter(Qt::Key_B, [this] { Q_EMIT previousRequested(); });
    onKeyOutsideTheFilter(Qt::Key_F, [this] { openFilter(); });
    onKeyOutsideTheFilter(Qt::Key_T, [this] {
        m_scroll->ensureWidgetVisible(m_timeLine);
        m_timeLine->setFocus(Qt::ShortcutFocusReason);
    });
    onKeyOutsideTheFilter(Qt::Key_R, [this] {
        if (m_remark->isVisible())
            m_remark->click();
        else
            goToForm();
    });
    onKeyOutsideTheFilter(Qt::Key_S, [this] {
        if (m_sendBack->isVisible())
            m_sendBack->click();
        else
            goToForm();
    });
    onKeyOutsideTheFilter(Qt::Key_A, [this] {
        if (!m_formKind)
            m_action->click();
        else
            goToForm();
    });
    for (const Qt::Key key : {Qt::Key_Return, Qt::Key_Enter}) {
        auto* shortcut = new QShortcut(QKeySequence(Qt::CTRL | key), this);
        shortcut->setAutoRepeat(false);
        shortcut->setContext(Qt::WidgetWithChildrenShortcut);
        connect(shortcut, &QShortcut::activated, this, [this] {
            if (!isInFilter())
                m_action->click();
        });
    }
    onEscape(*this, [this] { leave(); });
}

/// A list of choices takes letters too, and tells nobody that it does.
bool ReviewPage::isInFilter() const
{
    return m_filter->isAncestorOf(QApplication::focusWidget());
}

void ReviewPage::onKeyOutsideTheFilter(Qt::Key key, const std::function<void()>& deed)
{
    onKey(*this, key, [this, deed] {
        if (!isInFilter())
            deed();
    });
}

/// What was begun is ended there.
void ReviewPage::goToForm()
{
    if (m_formKind)
        m_box->setFocus(Qt::ShortcutFocusReason);
}

void ReviewPage::leave()
{
    if (m_formKind)
        Q_EMIT formLeft();
    else
        closeFilter();
}

void ReviewPage::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    m_side->setFixedWidth(std::clamp(width() * 24 / 100, 300, 400));
}

void ReviewPage::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    const Tokens& t = tokensOf(*this);
    painter.fillRect(rect(), t.ground);
    painter.setPen(t.line);
    painter.drawLine(m_side->geometry().right() + 1, 0, m_side->geometry().right() + 1, height());
}

} // namespace coldarc::ui
