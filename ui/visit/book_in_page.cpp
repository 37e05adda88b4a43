#include "ui/visit/book_in_page.h"

#include "ui/label/picture_panel.h"
#include "ui/parts/field.h"
#include "ui/parts/page_keys.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/retire.h"
#include "ui/parts/show_text.h"
#include "ui/parts/side_page.h"
#include "ui/parts/tab_stops.h"
#include "ui/parts/text_label.h"
#include "ui/visit/bench_captures.h"
#include "ui/visit/date_line.h"

#include <QApplication>
#include <QClipboard>
#include <QCompleter>
#include <QDragEnterEvent>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QMimeData>
#include <QMouseEvent>
#include <QPainter>
#include <QPointer>
#include <QScrollArea>
#include <QScrollBar>
#include <QVBoxLayout>

#include <algorithm>
#include <functional>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kLampKeys = 3; // from F6 on

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

/// Lets nothing into a box but what is keyed: no paste, no drop, no menu, no second mouse button. What was
/// meant to be pasted is handed on: it may be a picture.
class KeyedOnly final : public QObject {
public:
    KeyedOnly(QLineEdit* box, std::function<void()> pasted)
        : QObject(box)
        , m_pasted(std::move(pasted))
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
            if (!static_cast<QKeyEvent*>(event)->matches(QKeySequence::Paste))
                return false;
            m_pasted();
            return true;
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

private:
    std::function<void()> m_pasted;
};

} // namespace

BookInPage::BookInPage(const Clock& clock, QWidget* parent)
    : QWidget(parent)
    , m_place(new SectionLabel(QString(), this))
    , m_title(new TextLabel(TextRole::Title, Ink::Text, this))
    , m_matched(new TextLabel(TextRole::Heading, Ink::Quiet, this))
    , m_columnGrid(new QGridLayout)
    , m_pictureButton(
          new PlainButton(tr("Picture of the label"), Reach::Glove, PlainButton::Weight::Quiet, this))
    , m_atHandSays(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_atHandLayout(new QHBoxLayout)
    , m_scanSays(new TextLabel(TextRole::Strong, Ink::Text, this))
    , m_checkScanner(new PlainButton(tr("Check the scanner"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_withoutPicture(
          new PlainButton(tr("Go on without the picture"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_pictureBox(new QWidget(this))
    , m_picture(new PicturePanel(m_pictureBox))
    , m_keepPicture(new PlainButton(QString(), Reach::Hand, PlainButton::Weight::Quiet, m_pictureBox))
    , m_doubts(new TextLabel(TextRole::Body, Ink::Text, this))
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
    setFocusPolicy(Qt::ClickFocus); // Tab halts at its parts
    m_waits->setObjectName(u"waits"_s);
    m_matched->setObjectName(u"matched"_s);
    m_keyIn->setObjectName(u"keyIn"_s);
    m_pass->setObjectName(u"pass"_s);
    m_passButton->setObjectName(u"passSerial"_s);
    m_scanSays->setObjectName(u"scanSays"_s);
    m_checkScanner->setObjectName(u"checkScanner"_s);
    m_withoutPicture->setObjectName(u"withoutPicture"_s);
    m_doubts->setObjectName(u"doubts"_s);
    m_pictureButton->setObjectName(u"labelPicture"_s);
    m_pictureButton->setKeyCap(u"F4"_s);
    m_pictureBox->setObjectName(u"pictureBox"_s);
    m_keepPicture->setObjectName(u"keepPicture"_s);
    setAcceptDrops(true);
    m_doubts->setLeading(3);
    m_waits->setLeading(3);
    m_how->setLeading(3);
    m_columnGrid->setHorizontalSpacing(32);
    m_columnGrid->setVerticalSpacing(10);

    auto* keyColumn = new QVBoxLayout(m_keyBox);
    keyColumn->setContentsMargins(0, 0, 0, 0);
    keyColumn->addWidget(new SectionLabel(tr("Key into the projector's controller"), m_keyBox));
    keyColumn->addWidget(m_keyIn);

    auto* pictureColumn = new QVBoxLayout(m_pictureBox);
    pictureColumn->setContentsMargins(0, 0, 0, 0);
    pictureColumn->addWidget(m_picture);
    pictureColumn->addWidget(m_keepPicture, 0, Qt::AlignLeft);
    m_atHandLayout->setSpacing(12);
    auto* ways = new QHBoxLayout;
    ways->setSpacing(16);
    ways->addStretch(1);
    ways->addWidget(m_atHandSays);
    ways->addLayout(m_atHandLayout);

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
    inside->addLayout(ways);
    inside->addWidget(m_scanSays);
    inside->addWidget(m_checkScanner, 0, Qt::AlignLeft);
    inside->addWidget(m_pictureBox);
    inside->addWidget(m_waits);
    inside->addWidget(m_withoutPicture, 0, Qt::AlignLeft);
    inside->addWidget(m_doubts);
    inside->addWidget(m_wrongType);
    inside->addWidget(m_keyBox);
    inside->addLayout(below);
    inside->addStretch(1);
    m_scroll = bareScroll(body, this);
    m_scroll->setObjectName(u"bookInScroll"_s);

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
    column->addWidget(m_scroll, 1);
    column->addLayout(buttons);

    connect(m_rest, &CapturePanel::answersChanged, this, &BookInPage::restChanged);
    connect(m_pass, &CapturePanel::answersChanged, this, &BookInPage::passChanged);
    connect(m_passButton, &QAbstractButton::clicked, this, &BookInPage::passRequested);
    connect(m_pictureButton, &QAbstractButton::clicked, this,
            [this] { showPicture(m_pictureBox->isHidden()); });
    connect(m_picture, &PicturePanel::pictureGiven, this, &BookInPage::pictureGiven);
    connect(m_picture, &PicturePanel::codePicked, this, &BookInPage::codePicked);
    connect(m_keepPicture, &QAbstractButton::clicked, this, &BookInPage::keepPictureRequested);
    connect(m_withoutPicture, &QAbstractButton::clicked, this, &BookInPage::withoutPictureRequested);
    connect(m_checkScanner, &QAbstractButton::clicked, this, &BookInPage::scannerCheckRequested);
    connect(m_action, &ActionButton::done, this, [this] {
        const qsizetype before = m_view.rest.size();
        const QPointer<QWidget> holder = QApplication::focusWidget();
        Q_EMIT doneRequested();
        if (m_waits->isVisible() && m_view.rest.size() == before) // a picture may have pushed it out of sight
            bringIntoView(m_waits);
        goToWhatWaits(holder);
    });
    connect(back, &QAbstractButton::clicked, this, &BookInPage::leaveRequested);
    onEnter(*this, [this] { press(); });
    onEscape(*this, [this] { Q_EMIT leaveRequested(); });
    onKey(*this, Qt::Key_F4, *m_pictureButton);
    for (int index = 0; index < kLampKeys; ++index) {
        onKey(*this, static_cast<Qt::Key>(Qt::Key_F6 + index), [this, index] {
            if (index < m_atHand.size() && m_atHand.at(index)->isVisible())
                m_atHand.at(index)->click();
        });
    }
    m_pictureBox->hide();
    m_keepPicture->hide();
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
    made.head = new QWidget(this);
    made.title = new SectionLabel(QString(), made.head);
    made.how = new TextLabel(TextRole::Caption, Ink::Quiet, made.head);
    auto* head = new QHBoxLayout(made.head);
    head->setContentsMargins(0, 0, 0, 0);
    head->addWidget(made.title);
    head->addWidget(made.how, 1);
    made.codes = new PlainButton(QString(), Reach::Glove, PlainButton::Weight::Quiet, this);
    made.pictureOff =
        new PlainButton(tr("Take the picture off"), Reach::Hand, PlainButton::Weight::Quiet, this);
    made.type = new Field(Field::Kind::Text, this);
    made.typeWords = new TextLabel(TextRole::Small, Ink::Quiet, this);
    made.serial = new Field(Field::Kind::Text, this);
    made.serialWords = new TextLabel(TextRole::Small, Ink::Quiet, this);
    const auto pasted = [this] {
        if (const QMimeData* brought = QGuiApplication::clipboard()->mimeData())
            takeOver(*brought);
    };
    new KeyedOnly(made.type->box(), pasted);
    new KeyedOnly(made.serial->box(), pasted);
    made.typeCell = cell(made.type, made.typeWords);
    made.serialCell = cell(made.serial, made.serialWords);
    const auto column = static_cast<int>(m_columns.size());
    m_columnGrid->addWidget(made.head, 0, column);
    m_columnGrid->addWidget(made.typeCell, 1, column);
    m_columnGrid->addWidget(made.serialCell, 2, column);
    m_columnGrid->addWidget(made.codes, 3, column);
    m_columnGrid->addWidget(made.pictureOff, 4, column);
    m_columnGrid->setColumnStretch(column, 1);
    return made;
}

void BookInPage::showColumns()
{
    while (m_columns.size() > m_view.columns.size()) {
        const Column last = m_columns.takeLast();
        for (QWidget* part : {last.head, static_cast<QWidget*>(last.codes),
                              static_cast<QWidget*>(last.pictureOff), last.typeCell, last.serialCell})
            retire(part);
        m_columnGrid->setColumnStretch(static_cast<int>(m_columns.size()), 0);
    }
    while (m_columns.size() < m_view.columns.size()) {
        const qsizetype index = m_columns.size();
        m_columns.append(makeColumn());
        connect(m_columns.last().type, &Field::valueChanged, this,
                [this, index](const QString& text) { Q_EMIT typeTyped(m_columns.value(index).id, text); });
        connect(m_columns.last().serial, &Field::valueChanged, this,
                [this, index](const QString& text) { Q_EMIT serialTyped(m_columns.value(index).id, text); });
        connect(m_columns.last().codes, &QAbstractButton::clicked, this,
                [this, index] { Q_EMIT codesWanted(m_columns.value(index).id); });
        connect(m_columns.last().pictureOff, &QAbstractButton::clicked, this,
                [this, index] { Q_EMIT pictureOffRequested(m_columns.value(index).id); });
    }
    for (qsizetype i = 0; i < m_columns.size(); ++i) {
        Column& column = m_columns[i];
        const BookInColumn& view = m_view.columns.at(i);
        column.id = view.id;
        column.type->setObjectName(view.id + u"-type"_s);
        column.serial->setObjectName(view.id + u"-serial"_s);
        column.title->setText(view.title);
        column.how->setText(view.how);
        column.codes->setObjectName(view.id + u"-codes"_s);
        column.codes->setText(view.codesText);
        column.codes->setAccessibleName(tr("%1: %2").arg(view.title, column.codes->text()));
        column.codes->setVisible(view.canTakeCodes);
        column.pictureOff->setObjectName(view.id + u"-picture-off"_s);
        column.pictureOff->setAccessibleName(tr("%1: take the picture off").arg(view.title));
        column.pictureOff->setVisible(view.hasPicture);
        if (!view.canTakeCodes) // where the others have their button
            m_columnGrid->addWidget(m_pictureButton, 3, static_cast<int>(i));
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
                [this, i = m_acts.size()] { Q_EMIT personActRequested(m_view.acts.value(i).id); });
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

void BookInPage::showAtHand()
{
    while (m_atHand.size() > m_view.atHand.size())
        retire(m_atHand.takeLast());
    while (m_atHand.size() < m_view.atHand.size()) {
        const qsizetype index = m_atHand.size();
        auto* button = new PlainButton(QString(), Reach::Hand, PlainButton::Weight::Quiet, this);
        button->setObjectName(u"at-hand-%1"_s.arg(index));
        connect(button, &QAbstractButton::clicked, this, [this, index] {
            Q_EMIT lampChosen(m_view.atHand.value(index).id);
            goToOpenBox();
        });
        m_atHandLayout->addWidget(button);
        m_atHand.append(button);
    }
    for (qsizetype i = 0; i < m_atHand.size(); ++i) {
        const PersonAct& lamp = m_view.atHand.at(i);
        const bool isChosen = lamp.stand == PersonAct::Stand::Given;
        m_atHand.at(i)->setText(lamp.text);
        m_atHand.at(i)->setSub(isChosen ? tr("%1, chosen").arg(lamp.sub) : lamp.sub);
        m_atHand.at(i)->setAccessibleName(tr("The entry is %1, %2").arg(lamp.text, lamp.sub));
        m_atHand.at(i)->setKeyCap(lamp.key);
    }
    showText(m_atHandSays, m_view.atHandSays);
}

void BookInPage::setPicture(const PictureView& view)
{
    m_picture->setView(view);
    m_isPictureThere = !view.picture.isNull();
    showKeeping();
}

void BookInPage::showKeeping()
{
    m_keepPicture->setText(tr("Keep it as a picture of: %1").arg(m_view.picturesOf));
    m_keepPicture->setVisible(m_isPictureThere && !m_view.picturesOf.isEmpty());
}

/// Once everything has its place.
void BookInPage::bringIntoView(QWidget* part)
{
    QMetaObject::invokeMethod(
        this,
        [this, part] {
            m_scroll->widget()->layout()->activate();
            m_scroll->ensureWidgetVisible(part);
        },
        Qt::QueuedConnection);
}

void BookInPage::showPicture(bool isShown)
{
    if (isShown == m_pictureBox->isVisibleTo(this))
        return;
    m_pictureBox->setVisible(isShown);
    m_pictureButton->setText(isShown ? tr("Put the picture away") : tr("Picture of the label"));
    if (!isShown) {
        Q_EMIT pictureClosed();
        return goToOpenBox(); // or the focus falls to whatever comes next, which is the way back
    }
    m_picture->setFocus(Qt::OtherFocusReason);
    bringIntoView(m_pictureBox);
}

void BookInPage::takeOver(const QMimeData& brought)
{
    if (!m_view.takesPictures || !PicturePanel::mayHold(brought))
        return;
    showPicture(true);
    m_picture->take(brought);
}

void BookInPage::dragEnterEvent(QDragEnterEvent* event)
{
    if (m_view.takesPictures && PicturePanel::mayHold(*event->mimeData()))
        event->acceptProposedAction();
}

void BookInPage::dropEvent(QDropEvent* event)
{
    takeOver(*event->mimeData());
    event->acceptProposedAction();
}

void BookInPage::setView(const BookInView& view)
{
    const bool asksMore =
        view.rest.size() > m_view.rest.size() && m_view.action.stepKey == view.action.stepKey;
    const bool isRead = view.scanSays != m_view.scanSays && !view.scanSays.isEmpty();
    m_view = view;
    m_place->setText(view.place);
    m_title->setText(view.title);
    showText(m_matched, view.matched);
    showColumns();
    showAtHand();
    showText(m_scanSays, view.scanSays);
    m_checkScanner->setVisible(view.doubtsScanner);
    showText(m_doubts, view.doubts.join(u'\n'));
    m_pictureButton->setVisible(view.takesPictures);
    showKeeping();
    showText(m_waits, view.waits.join(u'\n'));
    m_withoutPicture->setVisible(view.offersWithoutPicture);
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
    if (isRead && isVisible() && m_pictureBox->isHidden())
        goToOpenBox();
    if (asksMore)
        bringIntoView(m_rest);
}

QList<QLineEdit*> BookInPage::boxes() const
{
    QList<QLineEdit*> all;
    for (qsizetype i = 0; i < m_columns.size(); ++i) {
        if (m_view.columns.at(i).isNeeded)
            all << m_columns.at(i).type->box() << m_columns.at(i).serial->box();
    }
    all += m_rest->findChildren<QLineEdit*>();
    return all;
}

void BookInPage::begin()
{
    showPicture(false);
    m_scroll->verticalScrollBar()->setValue(0);
    const auto isOpen = [](const QLineEdit* box) { return box->text().isEmpty(); };
    QLineEdit* differs = differing();
    if (const QList<QLineEdit*> all = boxes(); std::ranges::any_of(all, isOpen))
        goToOpenBox();
    else if (differs != nullptr)
        goTo(*differs);
    else if (!all.isEmpty())
        goTo(*all.first());
}

QLineEdit* BookInPage::differing() const
{
    for (qsizetype i = 0; i < m_columns.size(); ++i) {
        const BookInColumn& column = m_view.columns.at(i);
        if (column.type.mark == BookInColumn::Mark::Differs)
            return m_columns.at(i).type->box();
        if (column.serial.mark == BookInColumn::Mark::Differs)
            return m_columns.at(i).serial->box();
    }
    return nullptr;
}

void BookInPage::goTo(QLineEdit& box)
{
    box.setFocus(Qt::OtherFocusReason);
    box.selectAll();
    bringIntoView(box.parentWidget());
}

/// First to what differs, to be read again; from there, pressed once more, to the reason that lets it pass.
void BookInPage::goToWhatWaits(const QWidget* holder)
{
    QLineEdit* differs = differing();
    if (differs == nullptr || m_view.waits.isEmpty())
        return;
    const QList<QWidget*> asked = tabStops(*m_pass);
    if (differs != holder || m_view.pass.isEmpty() || asked.isEmpty())
        return goTo(*differs);
    asked.first()->setFocus(Qt::TabFocusReason);
    bringIntoView(m_passButton);
    bringIntoView(m_pass);
}

void BookInPage::goToOpenBox()
{
    for (QLineEdit* box : boxes()) {
        if (!box->text().isEmpty())
            continue;
        box->setFocus(Qt::OtherFocusReason);
        return bringIntoView(box->parentWidget()); // a picture may have pushed it out of sight
    }
    setFocus(Qt::OtherFocusReason);
}

void BookInPage::press()
{
    QWidget* holder = QApplication::focusWidget();
    if (auto* button = qobject_cast<QAbstractButton*>(holder); button && !m_rest->isAncestorOf(button))
        return button->click();
    if (m_rest->chooseWalkedTo())
        return;
    if (qobject_cast<QLineEdit*>(holder)) {
        for (QLineEdit* box : boxes()) {
            if (box->text().isEmpty() && box != holder)
                return box->setFocus(Qt::OtherFocusReason);
        }
        for (const CaptureAnswer& answer : m_rest->answers()) {
            if (answer.value.isEmpty()) {
                m_rest->showOpen();
                return setFocus(Qt::OtherFocusReason); // the number keys answer from here
            }
        }
    }
    m_action->click();
}

void BookInPage::keyPressEvent(QKeyEvent* event)
{
    if (!event->isAutoRepeat() && m_rest->chooseByNumber(event->key() - Qt::Key_0))
        return;
    const bool isEnter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (isEnter && !event->isAutoRepeat())
        return press(); // right behind a character it comes as a key and not as a shortcut, see ScannerFilter
    const QMimeData* const pasted = QGuiApplication::clipboard()->mimeData();
    if (event->matches(QKeySequence::Paste) && pasted)
        return takeOver(*pasted);
    QWidget::keyPressEvent(event);
}

void BookInPage::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.fillRect(rect(), tokensOf(*this).ground);
}

} // namespace coldarc::ui
