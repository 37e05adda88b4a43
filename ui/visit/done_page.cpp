#include "ui/visit/done_page.h"

#include "ui/parts/plain_button.h"
#include "ui/parts/show_text.h"
#include "ui/parts/side_page.h"
#include "ui/parts/text_label.h"
#include "ui/visit/done_list.h"

#include <QApplication>
#include <QBuffer>
#include <QClipboard>
#include <QDragEnterEvent>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QMimeData>
#include <QPainter>
#include <QPlainTextEdit>
#include <QScrollArea>
#include <QShortcut>
#include <QVBoxLayout>

#include <algorithm>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kLeastBox = 110;

void showButton(PlainButton* button, const QString& text)
{
    button->setText(text);
    button->setAccessibleName(text);
    button->setVisible(!text.isEmpty());
}

} // namespace

DonePage::DonePage(const Clock& clock, QWidget* parent)
    : QWidget(parent)
    , m_site(new SectionLabel(QString(), this))
    , m_sub(namedLabel(TextRole::Small, Ink::Quiet, u"sub"_s, this))
    , m_review(namedLabel(TextRole::Body, Ink::Text, u"review"_s, this))
    , m_list(new DoneList(this))
    , m_empty(namedLabel(TextRole::Body, Ink::Quiet, u"empty"_s, this))
    , m_chosenName(namedLabel(TextRole::Heading, Ink::Text, u"chosenName"_s, this))
    , m_noWithdraw(namedLabel(TextRole::Small, Ink::Quiet, u"noWithdraw"_s, this))
    , m_withdraw(quietButton(QString(), u"withdraw"_s, this))
    , m_waits(namedLabel(TextRole::Small, Ink::Text, u"waits"_s, this))
    , m_sign(quietButton(QString(), u"sign"_s, this))
    , m_write(quietButton(QString(), u"write"_s, this))
    , m_picture(quietButton(QString(), u"keepPicture"_s, this))
    , m_reading(new QWidget(this))
    , m_form(new QWidget(this))
    , m_formTitle(namedLabel(TextRole::Heading, Ink::Text, u"formTitle"_s, m_form))
    , m_follows(namedLabel(TextRole::Small, Ink::Text, u"follows"_s, m_form))
    , m_label(namedLabel(TextRole::Strong, Ink::Text, u"label"_s, m_form))
    , m_box(new QPlainTextEdit(m_form))
    , m_hint(namedLabel(TextRole::Caption, Ink::Quiet, u"hint"_s, m_form))
    , m_leaveForm(quietButton(tr("Leave it"), u"leaveForm"_s, m_form))
    , m_said(namedLabel(TextRole::Strong, Ink::Text, u"said"_s, this))
    , m_leave(quietButton(QString(), u"leave"_s, this))
    , m_action(new ActionButton(clock, this))
    , m_side(makeSide())
{
    setObjectName(u"donePage"_s);
    setFocusPolicy(Qt::ClickFocus); // Tab halts at its parts
    setAcceptDrops(true);
    m_action->setObjectName(u"action"_s);
    auto* title = new TextLabel(TextRole::Title, Ink::Text, this);
    title->setText(tr("What was done"));
    auto* head = new QHBoxLayout;
    head->addWidget(title, 1);
    head->addWidget(m_sub, 0, Qt::AlignBottom);
    m_sub->setOverflow(TextLabel::Overflow::Elides);
    m_sub->setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Preferred);
    auto* middle = new QHBoxLayout;
    middle->setSpacing(28);
    middle->addWidget(m_list, 1);
    middle->addWidget(m_empty, 1, Qt::AlignTop);
    middle->addWidget(m_side);
    m_leave->setKeyCap(u"Esc"_s);
    auto* copyChosen = quietButton(tr("Copy chosen"), u"copyChosen"_s, this);
    copyChosen->setKeyCap(u"Ctrl+C"_s);
    auto* copyAll = quietButton(tr("Copy all"), u"copyAll"_s, this);
    auto* print = quietButton(tr("Print"), u"print"_s, this);
    auto* record = quietButton(tr("Save record"), u"saveRecord"_s, this);
    record->setToolTip(tr("Entries, signatures and pictures in one file, which anybody can verify: "
                          "coldarc verify FILE"));
    m_action->setMaximumWidth(520);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(12);
    auto* report = quietButton(tr("Save report"), u"saveReport"_s, this);
    report->setToolTip(tr("A PDF: one page for the customer, the rest for the file, the record inside"));
    auto* readings = quietButton(tr("Save readings"), u"saveReadings"_s, this);
    readings->setToolTip(tr("Every reading of light as a table (CSV)"));
    for (QWidget* button : {m_leave, copyChosen, copyAll, print, report, record, readings})
        buttons->addWidget(button, 0, Qt::AlignBottom);
    buttons->addStretch(1);
    buttons->addWidget(m_action, 1000, Qt::AlignBottom);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(40, 26, 40, 24);
    column->setSpacing(12);
    column->addWidget(m_site);
    column->addLayout(head);
    column->addWidget(m_review);
    column->addLayout(middle, 1);
    column->addLayout(buttons);

    connect(m_list, &DoneList::entryChosen, this, &DonePage::entryChosen);
    connect(m_withdraw, &QAbstractButton::clicked, this, &DonePage::withdrawRequested);
    connect(m_sign, &QAbstractButton::clicked, this, &DonePage::signRequested);
    connect(m_write, &QAbstractButton::clicked, this, &DonePage::writeRequested);
    connect(m_picture, &QAbstractButton::clicked, this, &DonePage::pictureRequested);
    connect(m_leaveForm, &QAbstractButton::clicked, this, &DonePage::formLeft);
    connect(m_leave, &QAbstractButton::clicked, this, &DonePage::leaveRequested);
    connect(copyChosen, &QAbstractButton::clicked, this, [this] { copy(m_list->selected()); });
    connect(copyAll, &QAbstractButton::clicked, this, [this] { copy({}); });
    connect(print, &QAbstractButton::clicked, this, &DonePage::printRequested);
    connect(record, &QAbstractButton::clicked, this, &DonePage::recordRequested);
    connect(report, &QAbstractButton::clicked, this, &DonePage::reportRequested);
    connect(readings, &QAbstractButton::clicked, this, &DonePage::readingsRequested);
    connect(m_action, &ActionButton::done, this, &DonePage::press);
    connect(m_box, &QPlainTextEdit::textChanged, this, [this] { Q_EMIT draftChanged(m_box->toPlainText()); });
    m_chooser = [this] {
        return QFileDialog::getOpenFileName(this, tr("Which picture?"), {},
                                            tr("Pictures (*.png *.jpg *.jpeg)"));
    };
    bindKeys();
}

QWidget* DonePage::makeSide()
{
    auto* inside = new QWidget;
    inside->setProperty("bare", true);
    auto* column = new QVBoxLayout(inside);
    column->setContentsMargins(0, 0, 8, 0);
    column->setSpacing(12);
    column->addWidget(m_said);
    column->addWidget(makeReading());
    column->addWidget(makeForm());
    column->addStretch(1);
    QScrollArea* scroll = bareScroll(inside, this);
    scroll->setObjectName(u"doneSide"_s);
    return scroll;
}

QWidget* DonePage::makeReading()
{
    auto* column = new QVBoxLayout(m_reading);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(12);
    column->addWidget(m_chosenName);
    column->addWidget(m_noWithdraw);
    column->addWidget(m_withdraw);
    column->addSpacing(12);
    column->addWidget(m_sign);
    column->addWidget(new SectionLabel(tr("Add to the logbook"), m_reading));
    column->addWidget(m_waits);
    auto* adding = new QHBoxLayout;
    adding->setSpacing(12);
    adding->addWidget(m_write, 1);
    adding->addWidget(m_picture, 1);
    column->addLayout(adding);
    return m_reading;
}

QWidget* DonePage::makeForm()
{
    m_box->setObjectName(u"box"_s);
    m_box->setTabChangesFocus(true);
    m_box->setMinimumHeight(kLeastBox);
    m_follows->setLeading(3);
    auto* column = new QVBoxLayout(m_form);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(10);
    column->addWidget(m_formTitle);
    column->addWidget(m_follows);
    column->addWidget(m_label);
    column->addWidget(m_box);
    column->addWidget(m_hint);
    column->addWidget(m_leaveForm, 0, Qt::AlignLeft);
    return m_form;
}

void DonePage::bind(const QKeySequence& keys, const std::function<void()>& deed)
{
    auto* shortcut = new QShortcut(keys, this);
    shortcut->setAutoRepeat(false);
    shortcut->setContext(Qt::WidgetWithChildrenShortcut);
    connect(shortcut, &QShortcut::activated, this, deed);
}

void DonePage::bindKeys()
{
    for (const Qt::Key key : {Qt::Key_Return, Qt::Key_Enter}) {
        bind(QKeySequence(Qt::CTRL | key), [this] { m_action->click(); });
        bind(QKeySequence(key), [] {
            if (auto* button = qobject_cast<QAbstractButton*>(QApplication::focusWidget()))
                button->click();
        });
    }
    bind(QKeySequence(Qt::Key_Escape), [this] { leave(); });
    bind(QKeySequence::Copy, [this] { copy(m_list->selected()); });
    bind(QKeySequence::Paste, [this] { takePictureFrom(QApplication::clipboard()->mimeData()); });
}

void DonePage::setPictures(std::function<QByteArray(const QString&)> pictures)
{
    m_list->setPictures(std::move(pictures));
}

void DonePage::takeFocus()
{
    if (m_view.form && m_box->isVisibleTo(this))
        m_box->setFocus(Qt::OtherFocusReason);
    else
        m_list->setFocus(Qt::OtherFocusReason);
}

void DonePage::setView(const DoneView& view)
{
    const bool isOtherForm = m_view.form.has_value() != view.form.has_value() ||
                             (view.form && view.form->kind != m_view.form->kind);
    m_view = view;
    m_site->setText(view.site);
    showText(m_sub, view.sub);
    showText(m_review, view.review);
    m_list->setLines(view.lines, view.chosen);
    m_list->setVisible(view.empty.isEmpty());
    showText(m_empty, view.empty);
    showText(m_chosenName, view.chosenName);
    showText(m_noWithdraw, view.noWithdraw);
    showButton(m_withdraw, view.withdraw);
    showText(m_waits, view.waits);
    showButton(m_sign, view.sign);
    showButton(m_write, view.write);
    showButton(m_picture, view.picture);
    showText(m_said, view.said.join(u'\n'));
    showButton(m_leave, view.leave);
    showForm(view.form);
    if (isOtherForm && isVisible())
        takeFocus();
}

void DonePage::showForm(const std::optional<DoneForm>& form)
{
    m_form->setVisible(form.has_value());
    m_reading->setVisible(!form);
    m_action->setVisible(form.has_value());
    if (!form)
        return;
    m_formTitle->setText(form->title);
    showText(m_follows, form->follows.join(u'\n'));
    showText(m_label, form->label);
    showText(m_hint, form->hint);
    m_box->setAccessibleName(form->label);
    m_box->setVisible(!form->label.isEmpty());
    m_box->setEnabled(form->canType);
    if (m_box->toPlainText() != form->draft) {
        const QSignalBlocker quiet(m_box);
        m_box->setPlainText(form->draft);
    }
    m_action->setView(form->action);
}

void DonePage::press()
{
    if (m_view.form && !m_view.form->label.isEmpty())
        return Q_EMIT doneRequested();
    const QString path = m_chooser();
    if (!path.isEmpty())
        Q_EMIT pictureFileGiven(path);
}

void DonePage::leave()
{
    if (m_view.form)
        Q_EMIT formLeft();
    else
        Q_EMIT leaveRequested();
}

void DonePage::copy(const QList<qint64>& entries)
{
    if (m_texts)
        QApplication::clipboard()->setText(m_texts(entries));
}

void DonePage::takePictureFrom(const QMimeData* given)
{
    if (m_view.picture.isEmpty())
        return;
    if (given->hasUrls())
        return Q_EMIT pictureFileGiven(given->urls().value(0).toLocalFile());
    QByteArray bytes;
    if (given->hasImage()) {
        QBuffer buffer(&bytes);
        buffer.open(QIODevice::WriteOnly);
        qvariant_cast<QImage>(given->imageData()).save(&buffer, "PNG");
    }
    Q_EMIT pictureGiven(bytes);
}

void DonePage::dragEnterEvent(QDragEnterEvent* event)
{
    const QMimeData* given = event->mimeData();
    if (!m_view.picture.isEmpty() && (given->hasUrls() || given->hasImage()))
        event->acceptProposedAction();
}

void DonePage::dropEvent(QDropEvent* event)
{
    takePictureFrom(event->mimeData());
    event->acceptProposedAction();
}

void DonePage::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    m_side->setFixedWidth(std::clamp(width() * 31 / 100, 360, 560));
}

void DonePage::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.fillRect(rect(), tokensOf(*this).ground);
}

} // namespace coldarc::ui
