#include "ui/shell/main_window.h"

#include "ui/parts/strip.h"
#include "ui/parts/tab_stops.h"
#include "ui/parts/text_label.h"
#include "ui/parts/theme.h"

#include <QApplication>
#include <QCloseEvent>
#include <QPainter>
#include <QScreen>
#include <QScrollArea>
#include <QSettings>
#include <QShortcut>
#include <QStackedWidget>
#include <QTimer>
#include <QVBoxLayout>

#include <algorithm>
#include <chrono>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace {

constexpr int kMostPlaces = 9;
constexpr int kAroundStop = 32; ///< pixels in sight above and below where the focus is, clear of what fades
constexpr QSize kFirstSize(1366, 768);
constexpr QSize kFrame(16, 48); // title bar and edges, not known before the window is up; from memory

/// Words over the whole width, with a heavy edge, that stay until what they say is no longer so.
class BannerBox final : public QWidget {
public:
    using QWidget::QWidget;

protected:
    void paintEvent(QPaintEvent* /*event*/) override
    {
        QPainter painter(this);
        const Tokens& t = tokensOf(*this);
        painter.fillRect(rect(), t.panel);
        painter.fillRect(QRect(0, 0, 4, height()), t.text);
        painter.fillRect(QRect(0, height() - 1, width(), 1), t.line);
    }
};

QString themeWord(ThemeKind kind)
{
    return kind == ThemeKind::Booth ? MainWindow::tr("Booth") : MainWindow::tr("Office");
}

} // namespace

MainWindow::MainWindow(ShellPresenter& shell, SessionKeeper& keeper, Theme& theme, const Clock& clock,
                       QSettings& settings, QWidget* parent)
    : QWidget(parent)
    , m_shell(shell)
    , m_keeper(keeper)
    , m_theme(theme)
    , m_settings(settings)
    , m_lock(keeper)
    , m_whole(new QWidget(this))
    , m_bar(new TopBar(m_whole))
    , m_banner(new TextLabel(TextRole::Strong, Ink::Text, m_whole))
    , m_bannerBox(new BannerBox(m_whole))
    , m_strip(new Strip(m_whole))
    , m_pages(new QStackedWidget(m_whole))
    , m_finder(new CommandFinder(m_whole))
    , m_overlay(new LockOverlay(clock, this))
{
    setWindowTitle(tr("Coldarc"));
    m_banner->setObjectName(u"banner"_s);
    auto* bannerRow = new QVBoxLayout(m_bannerBox);
    bannerRow->setContentsMargins(22, 10, 22, 10);
    bannerRow->addWidget(m_banner);
    m_bannerBox->hide();
    auto* column = new QVBoxLayout(m_whole);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(m_bar);
    column->addWidget(m_bannerBox);
    column->addWidget(m_strip);
    column->addWidget(m_pages, 1);
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(0, 0, 0, 0);
    all->addWidget(m_whole);

    connect(&shell, &ShellPresenter::viewChanged, this, &MainWindow::setView);
    connect(m_bar, &TopBar::placeChosen, this, &MainWindow::placeChosen);
    connect(m_bar, &TopBar::themeRequested, this, &MainWindow::changeTheme);
    connect(m_bar, &TopBar::whoRequested, &keeper, &SessionKeeper::lock);
    connect(m_bar, &TopBar::finderRequested, m_finder, &CommandFinder::open);
    connect(m_strip, &Strip::dismissed, this, [this, &shell] {
        shell.dismiss();
        if (m_shown) // or Enter would press what stands beside the strip: a place of the bar
            focusPage(m_shown->focusWidget());
    });
    connect(m_finder, &CommandFinder::opening, this, &MainWindow::gatherCommands);
    connect(&m_lock, &LockPresenter::viewChanged, this, [this] { showLock(); });
    connect(m_overlay, &LockOverlay::pinGiven, &m_lock, &LockPresenter::tryPin);
    connect(m_overlay, &LockOverlay::signInRequested, this, &MainWindow::signInWanted);
    connect(&theme, &Theme::themeChanged, this, [this](ThemeKind kind) {
        m_settings.setValue(u"window/theme"_s, kind == ThemeKind::Booth ? u"booth"_s : u"office"_s);
        m_shell.setThemeWord(themeWord(kind));
    });
    auto* timer = new QTimer(this);
    connect(timer, &QTimer::timeout, &keeper, &SessionKeeper::look);
    timer->start(1s);
    bindPlaces();
    restore();
    setView(shell.view());
}

MainWindow::~MainWindow() = default;

void MainWindow::restore()
{
    m_theme.apply(m_settings.value(u"window/theme"_s).toString() == u"office"_s ? ThemeKind::Office
                                                                                : ThemeKind::Booth);
    m_shell.setThemeWord(themeWord(m_theme.kind()));
    if (!restoreGeometry(m_settings.value(u"window/geometry"_s).toByteArray()))
        resize(kFirstSize.boundedTo(screen()->availableGeometry().size() - kFrame));
}

void MainWindow::bindPlaces()
{
    for (int number = 1; number <= kMostPlaces; ++number) {
        auto* shortcut = new QShortcut(QKeySequence(u"Ctrl+%1"_s.arg(number)), m_whole);
        shortcut->setAutoRepeat(false);
        connect(shortcut, &QShortcut::activated, this, [this, number] {
            const QString keys = u"Ctrl+%1"_s.arg(number);
            for (const PlaceView& place : std::as_const(m_view.bar.places)) {
                // Its own word: going there replaces the view.
                if (const QString id = place.id; place.shortcut == keys)
                    return Q_EMIT placeChosen(id);
            }
        });
    }
    auto* lock = new QShortcut(QKeySequence(u"Ctrl+L"_s), m_whole);
    connect(lock, &QShortcut::activated, &m_keeper, &SessionKeeper::lock);
    auto* theme = new QShortcut(QKeySequence(u"Ctrl+T"_s), m_whole);
    connect(theme, &QShortcut::activated, this, &MainWindow::changeTheme);
}

void MainWindow::changeTheme()
{
    m_theme.apply(m_theme.kind() == ThemeKind::Booth ? ThemeKind::Office : ThemeKind::Booth);
}

void MainWindow::setStartPage(QWidget* page)
{
    m_start = page;
    m_pages->addWidget(page);
    showPage(m_view);
}

void MainWindow::setSignInPage(QWidget* page)
{
    m_signIn = page;
    m_pages->addWidget(page);
    showPage(m_view);
}

void MainWindow::addPage(const QString& place, QWidget* page)
{
    m_byPlace.insert(place, page);
    m_pages->addWidget(page);
    showPage(m_view);
}

void MainWindow::setOverPage(const QString& place, QWidget* page)
{
    QWidget* before = m_over.take(place);
    if (page) {
        m_over.insert(place, page);
        m_pages->addWidget(page);
    }
    showPage(m_view);
    if (before) {
        m_pages->removeWidget(before);
        before->hide();
        before->deleteLater();
    }
}

void MainWindow::setCommandsOf(const QString& place, std::function<QList<FinderCommand>()> commands)
{
    m_commands.insert(place, std::move(commands));
}

QWidget* MainWindow::pile() const
{
    return m_pages;
}

void MainWindow::setView(const ShellView& view)
{
    m_view = view;
    // Laid out once at the end, not once for each widget that comes or goes.
    m_whole->layout()->setEnabled(false);
    m_bar->setView(view.bar);
    m_banner->setText(view.banner);
    m_bannerBox->setVisible(!view.banner.isEmpty());
    m_strip->setView(view.strip);
    showPage(view);
    m_whole->layout()->setEnabled(true);
    showLock();
}

void MainWindow::showLock()
{
    LockView lock = m_lock.view();
    lock.isUp = lock.isUp && m_view.isCovered;
    // Beneath the lock nothing is pressed, not even by a key that a page has bound for itself: Qt keeps those
    // of a page that is hidden, but not of one that is only disabled.
    const bool isOpened = m_overlay->isVisibleTo(this) && !lock.isUp;
    m_overlay->setView(lock);
    m_whole->setVisible(!lock.isUp);
    if (isOpened && m_shown)
        focusPage(m_shown->focusWidget());
}

void MainWindow::showPage(const ShellView& view)
{
    QWidget* page = nullptr;
    switch (view.stand) {
    case ShellView::Stand::Start:
        page = m_start;
        break;
    case ShellView::Stand::SignIn:
        page = m_signIn;
        break;
    case ShellView::Stand::AtWork:
        page = m_over.value(view.here, m_byPlace.value(view.here));
        break;
    }
    if (!page || std::exchange(m_shown, page) == page)
        return;
    QWidget* focus = page->focusWidget();
    m_pages->setCurrentWidget(page);
    focusPage(focus);
}

/// @param kept  where the focus was in the page in sight when it was left, or null.
void MainWindow::focusPage(QWidget* kept)
{
    (kept && kept->isVisibleTo(m_shown) ? kept : m_shown)->setFocus(Qt::OtherFocusReason);
}

bool MainWindow::focusNextPrevChild(bool next)
{
    const QList<QWidget*> stops = tabStops(*m_whole);
    QWidget* here = QApplication::focusWidget();
    if (stops.isEmpty() || (here && !here->isVisible())) // it has just gone: whatever was made after it
        return QWidget::focusNextPrevChild(next);
    const qsizetype step = next ? 1 : -1;
    qsizetype to = stops.indexOf(here) + step;
    if (here && !stops.contains(here)) { // the page itself: its own stops come next
        const qsizetype own = stops.indexOf(tabStops(*here).value(0));
        to = next ? std::max(own, qsizetype{0}) : own - 1;
    }
    const qsizetype count = stops.size();
    QWidget* stop = stops[(to + count) % count];
    stop->setFocus(next ? Qt::TabFocusReason : Qt::BacktabFocusReason);
    // A scroll area follows the focus by itself only where it was inside before.
    for (QWidget* around = stop->parentWidget(); around != nullptr; around = around->parentWidget()) {
        if (auto* scroll = qobject_cast<QScrollArea*>(around))
            scroll->ensureWidgetVisible(stop, 0, kAroundStop);
    }
    return true;
}

void MainWindow::gatherCommands()
{
    QList<FinderCommand> commands;
    if (m_view.stand == ShellView::Stand::AtWork && m_commands.contains(m_view.here))
        commands += m_commands.value(m_view.here)();
    for (const PlaceView& place : std::as_const(m_view.bar.places)) {
        commands.append({tr("Go to %1").arg(place.title), place.shortcut,
                         [this, id = place.id] { Q_EMIT placeChosen(id); }});
    }
    commands.append({tr("Change the theme"), u"Ctrl+T"_s, [this] { changeTheme(); }});
    if (m_view.stand == ShellView::Stand::AtWork) {
        commands.append({tr("Lock the key"), u"Ctrl+L"_s, [this] { m_keeper.lock(); }});
        commands.append({tr("Sign out"), QString(), [this] { Q_EMIT signInWanted(); }});
    }
    m_finder->setCommands(commands);
}

bool MainWindow::eventFilter(QObject* watched, QEvent* event)
{
    // Installed on the application by the program's root: any press in any window of ours is one.
    // A key that is somebody's shortcut shows only as the question whether it is one.
    if (event->type() == QEvent::KeyPress || event->type() == QEvent::ShortcutOverride ||
        event->type() == QEvent::MouseButtonPress)
        m_keeper.press();
    return QWidget::eventFilter(watched, event);
}

void MainWindow::closeEvent(QCloseEvent* event)
{
    m_settings.setValue(u"window/geometry"_s, saveGeometry());
    Q_EMIT closing();
    QWidget::closeEvent(event);
}

void MainWindow::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.fillRect(rect(), tokensOf(*this).ground);
}

} // namespace coldarc::ui
