#include "ui/parts/command_finder.h"

#include "ui/parts/figures.h"
#include "ui/parts/reach.h"
#include "ui/parts/theme.h"

#include <QAbstractListModel>
#include <QApplication>
#include <QEvent>
#include <QKeyEvent>
#include <QLineEdit>
#include <QListView>
#include <QPainter>
#include <QShortcut>
#include <QStyledItemDelegate>

#include <algorithm>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kCardWidth = 560;
constexpr int kPadding = 12;
constexpr int kShortcutRole = Qt::UserRole;

class Delegate final : public QStyledItemDelegate {
public:
    using QStyledItemDelegate::QStyledItemDelegate;

    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const override
    {
        return {0, kHandTarget}; // as wide as the list
    }

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override
    {
        const Tokens& t = tokensOf(*option.widget);
        if (option.state.testFlag(QStyle::State_Selected)) {
            painter->fillRect(option.rect, t.line);
            painter->fillRect(QRect(option.rect.topLeft(), QSize(3, option.rect.height())), t.text);
        }
        const QRectF room = QRectF(option.rect).adjusted(16, 0, -16, 0);
        painter->setFont(fontFor(TextRole::Small));
        painter->setPen(t.text);
        const QFontMetricsF metrics(painter->font());
        const QString shortcut = index.data(kShortcutRole).toString();
        const qreal taken = figureAdvance(metrics, shortcut) + 16;
        drawFigureLines(*painter, room, Qt::AlignLeft | Qt::AlignVCenter,
                        {figureElided(metrics, index.data().toString(), room.width() - taken)});
        painter->setPen(t.quiet);
        drawFigureLines(*painter, room, Qt::AlignRight | Qt::AlignVCenter, {shortcut});
    }
};

// Every word typed must stand somewhere in the title.
bool matches(const QString& title, const QStringList& words)
{
    return std::all_of(words.begin(), words.end(),
                       [&](const QString& word) { return title.contains(word, Qt::CaseInsensitive); });
}

} // namespace

class CommandFinder::Model final : public QAbstractListModel {
public:
    using QAbstractListModel::QAbstractListModel;

    void show(QList<FinderCommand> all)
    {
        m_all = std::move(all);
        filter({});
    }

    void filter(const QStringList& words)
    {
        beginResetModel();
        m_shown.clear();
        std::copy_if(m_all.begin(), m_all.end(), std::back_inserter(m_shown),
                     [&](const FinderCommand& command) { return matches(command.title, words); });
        endResetModel();
    }

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override
    {
        return parent.isValid() ? 0 : static_cast<int>(m_shown.size());
    }

    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override
    {
        if (!checkIndex(index, CheckIndexOption::IndexIsValid))
            return {};
        const FinderCommand& command = m_shown.at(index.row());
        if (role == Qt::DisplayRole)
            return command.title;
        if (role == kShortcutRole)
            return command.shortcut;
        if (role == Qt::AccessibleTextRole)
            return command.shortcut.isEmpty() ? command.title
                                              : u"%1, %2"_s.arg(command.title, command.shortcut);
        return {};
    }

    [[nodiscard]] std::function<void()> deedOf(const QModelIndex& index) const
    {
        return index.isValid() ? m_shown.at(index.row()).run : std::function<void()>();
    }

private:
    QList<FinderCommand> m_all;
    QList<FinderCommand> m_shown;
};

CommandFinder::CommandFinder(QWidget* over)
    : QWidget(over)
    , m_over(over)
    , m_box(new QLineEdit(this))
    , m_list(new QListView(this))
    , m_model(new Model(this))
{
    setObjectName(u"commandFinder"_s);
    m_box->setObjectName(u"finderBox"_s);
    m_box->setAccessibleName(tr("Find a command"));
    m_box->setPlaceholderText(tr("What do you want to do?"));
    m_list->setObjectName(u"finderList"_s);
    m_list->setAccessibleName(tr("Commands found"));
    m_list->setModel(m_model);
    m_list->setItemDelegate(new Delegate(m_list));
    m_list->setUniformItemSizes(true);
    m_list->setFocusPolicy(Qt::NoFocus);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->setFrameShape(QFrame::NoFrame);
    m_list->setStyleSheet(u"QListView { border: none; background: transparent; }"_s);
    hide();

    m_over->installEventFilter(this);
    m_box->installEventFilter(this);
    auto* key = new QShortcut(QKeySequence(Qt::CTRL | Qt::Key_K), m_over);
    key->setAutoRepeat(false);
    connect(key, &QShortcut::activated, this, &CommandFinder::open);
    connect(m_box, &QLineEdit::textChanged, this, &CommandFinder::filter);
    connect(m_list, &QListView::clicked, this, &CommandFinder::runCurrent);
}

void CommandFinder::setCommands(QList<FinderCommand> commands)
{
    m_model->show(std::move(commands));
    filter(m_box->text());
}

void CommandFinder::open()
{
    Q_EMIT opening();
    m_before = QApplication::focusWidget();
    m_box->clear();
    filter(QString());
    place();
    show();
    raise();
    m_box->setFocus(Qt::ShortcutFocusReason);
}

void CommandFinder::leave()
{
    hide();
    if (m_before)
        m_before->setFocus(Qt::OtherFocusReason);
    m_before = nullptr;
}

void CommandFinder::runCurrent()
{
    const std::function<void()> deed = m_model->deedOf(m_list->currentIndex());
    if (!deed)
        return;
    leave();
    deed();
}

void CommandFinder::moveBy(int rows)
{
    const int last = m_model->rowCount() - 1;
    if (last >= 0)
        m_list->setCurrentIndex(m_model->index(std::clamp(m_list->currentIndex().row() + rows, 0, last)));
}

void CommandFinder::filter(const QString& words)
{
    m_model->filter(words.split(u' ', Qt::SkipEmptyParts));
    m_list->setCurrentIndex(m_model->index(0));
    place();
    update();
}

QRect CommandFinder::card() const
{
    const int wide = std::min(kCardWidth, width() - 32);
    const int rows = std::clamp(m_model->rowCount(), 1, 10);
    const int high = std::min(height() - 64, kHandTarget * (rows + 1) + 3 * kPadding);
    return {(width() - wide) / 2, std::min(96, (height() - high) / 2), wide, high};
}

void CommandFinder::place()
{
    setGeometry(m_over->rect());
    const QRect inside = card().adjusted(kPadding, kPadding, -kPadding, -kPadding);
    m_box->setGeometry(QRect(inside.topLeft(), QSize(inside.width(), kHandTarget)));
    m_list->setGeometry(inside.adjusted(0, kHandTarget + kPadding, 0, 0));
}

bool CommandFinder::eventFilter(QObject* watched, QEvent* event)
{
    if (watched == m_over) {
        if (event->type() == QEvent::Resize && isVisible())
            place();
        return false;
    }
    if (event->type() == QEvent::ShortcutOverride) {
        event->accept(); // no key of the page below does anything while this is open
        return true;
    }
    if (event->type() != QEvent::KeyPress)
        return false;
    auto* key = static_cast<QKeyEvent*>(event);
    switch (key->key()) {
    case Qt::Key_Escape:
        leave();
        return true;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (!key->isAutoRepeat())
            runCurrent();
        return true;
    case Qt::Key_Down:
        moveBy(1);
        return true;
    case Qt::Key_Up:
        moveBy(-1);
        return true;
    case Qt::Key_Tab:
    case Qt::Key_Backtab:
    case Qt::Key_PageDown:
    case Qt::Key_PageUp:
        return true;
    default:
        return false;
    }
}

void CommandFinder::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const Tokens& t = tokensOf(*this);
    QColor veil = t.ground;
    veil.setAlpha(190);
    painter.fillRect(rect(), veil);
    painter.setPen(QPen(t.edge, 1));
    painter.setBrush(t.panel);
    painter.drawRoundedRect(card(), 10, 10);
    if (m_model->rowCount() > 0)
        return;
    painter.setFont(fontFor(TextRole::Small));
    painter.setPen(t.quiet);
    painter.drawText(QRectF(m_list->geometry()).adjusted(16, 0, -16, 0), Qt::AlignLeft | Qt::AlignVCenter,
                     tr("Nothing here is called so."));
}

void CommandFinder::mousePressEvent(QMouseEvent* event)
{
    if (!card().contains(event->position().toPoint()))
        leave();
}

} // namespace coldarc::ui
