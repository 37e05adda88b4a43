#pragma once

#include "ui/parts/command_finder.h"
#include "ui/people/lock_overlay.h"
#include "ui/shell/shell_presenter.h"

#include <QHash>
#include <QWidget>

#include <functional>

class QSettings;
class QShortcut;
class QStackedWidget;

namespace coldarc::ui {

class Strip;
class TextLabel;
class Theme;

/// The window: a thin bar, what the frame has to say, the pages on a pile. Over everything the lock, and the
/// command finder. It remembers its size and the theme.
///
/// Keys: Ctrl+1 to Ctrl+9 go to a place, Ctrl+K finds a command, Ctrl+L locks the key, Ctrl+T changes the
/// theme. While the lock lies over the window none of a page's own keys is taken.
class MainWindow final : public QWidget {
    Q_OBJECT

public:
    /// Borrows all of these, which must outlive the window.
    MainWindow(ShellPresenter& shell, SessionKeeper& keeper, Theme& theme, const Clock& clock,
               QSettings& settings, QWidget* parent = nullptr);
    ~MainWindow() override;

    /// The parent of pages: one made with it is not dressed a second time when it is handed over.
    [[nodiscard]] QWidget* pile() const;
    /// The pages before work; owned by the window from here on.
    void setStartPage(QWidget* page);
    void setSignInPage(QWidget* page);
    /// A page of a place that the presenter knows; owned by the window from here on.
    void addPage(const QString& place, QWidget* page);
    /// Puts another page over that of a place, the bench of a visit; nullptr takes it away again. The page
    /// belongs to the window, which destroys it once another one, or none, takes its place.
    void setOverPage(const QString& place, QWidget* page);
    [[nodiscard]] QWidget* overPage(const QString& place) const { return m_over.value(place); }

    /// What can be done on the page in sight, for the command finder.
    void setCommandsOf(const QString& place, std::function<QList<FinderCommand>()> commands);

Q_SIGNALS:
    void placeChosen(const QString& id);
    /// The window is about to go: the last moment to keep something.
    void closing();
    void signInWanted();

protected:
    bool focusNextPrevChild(bool next) override;
    bool eventFilter(QObject* watched, QEvent* event) override;
    void closeEvent(QCloseEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

private:
    void setView(const ShellView& view);
    void showPage(const ShellView& view);
    void focusPage(QWidget* kept);
    void showLock();
    void gatherCommands();
    void changeTheme();
    void restore();
    void bindPlaces();

    ShellPresenter& m_shell;
    SessionKeeper& m_keeper;
    Theme& m_theme;
    QSettings& m_settings;
    LockPresenter m_lock;
    QWidget* m_whole;
    TopBar* m_bar;
    TextLabel* m_banner;
    QWidget* m_bannerBox;
    Strip* m_strip;
    QStackedWidget* m_pages;
    QWidget* m_shown = nullptr; ///< the page in sight
    QWidget* m_start = nullptr;
    QWidget* m_signIn = nullptr;
    QHash<QString, QWidget*> m_byPlace;
    QHash<QString, QWidget*> m_over;
    QHash<QString, std::function<QList<FinderCommand>()>> m_commands;
    CommandFinder* m_finder;
    LockOverlay* m_overlay;
    ShellView m_view;
};

} // namespace coldarc::ui
