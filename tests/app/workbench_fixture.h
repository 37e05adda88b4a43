#pragma once

#include "app/workbench.h"
#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"
#include "ui/parts/theme.h"

#include <QAbstractButton>
#include <QApplication>
#include <QSettings>
#include <QTemporaryDir>

#include <memory>

namespace coldarc::app {

/// Cheap to guess at: for tests only.
inline constexpr people::GuessCost kCheap{1, 8};
const QString kPin = QStringLiteral("604193");

const Library& library();
ui::Theme& theme();

/// Presses and types like somebody at the laptop, and counts both.
class Hand {
public:
    explicit Hand(test::FakeClock& clock)
        : m_clock(clock)
    {
    }
    void sitAt(QWidget& window) { m_window = &window; }

    template<class Kind = QWidget>
    [[nodiscard]] Kind* find(const QString& name) const
    {
        const auto all = m_window->findChildren<Kind*>(name);
        for (Kind* one : all) {
            if (one->isVisible())
                return one;
        }
        ADD_FAILURE() << "nothing of this name is in sight: " << name.toStdString();
        return nullptr;
    }
    void press(const QString& name);
    void press(QAbstractButton& button);
    void key(Qt::Key key, Qt::KeyboardModifiers with = Qt::NoModifier);
    void type(const QString& field, const QString& text);
    /// Where the focus is, a letter at a time.
    void write(const QString& text, QWidget* at = QApplication::focusWidget());
    void choose(const QString& combo, const QString& id);
    /// The presses that a step just shown does not take, and what they brought.
    void settle();

    int presses = 0;
    int typed = 0;

private:
    test::FakeClock& m_clock;
    QWidget* m_window = nullptr;
};

/// The workbench on a workspace of its own, worked by hand.
class WorkbenchTest : public ::testing::Test {
protected:
    void open();
    [[nodiscard]] QString file() const { return folder.filePath(QStringLiteral("work.coldarc")); }

    /// A workspace of one's own, with its first person signed in; and a visit that is open there.
    void openOwnWorkspace();
    void openOwnVisit();
    void start();
    void signIn();
    void signInBy(const QString& passphrase);
    /// The demo, with this person signed in.
    void openDemoAs(const QString& id);
    void addSite();
    void teachACode();
    void lookAtScanner();
    /// Of the visit that is open: its lamphouse, its lamp, whoever works on it.
    void lookAtHistories();
    void addLamp();
    void openVisit();
    /// The shortest visit there is: somebody is hurt, and nobody is waited for.
    template<class Tell>
    static void endAtOnce(Tell tell)
    {
        visit::Happened hurt;
        hurt.incident = visit::Incident::SomeoneHurt;
        tell(hurt);
        tell(visit::Closed{});
    }
    /// Answers whatever the bench asks by its first choice until this was done, and waits where it waits.
    bool workUntil(machine::Effect effect);
    void oneTurn();
    template<class Page>
    [[nodiscard]] Page* visible() const
    {
        const auto pages = bench->window().findChildren<Page*>();
        for (Page* page : pages) {
            if (page->isVisible())
                return page;
        }
        return nullptr;
    }
    [[nodiscard]] static LampTypeId lampType();

    /// Saves what is in sight for people to look at, where COLDARC_PICTURES names a folder; always checks
    /// that nothing is clipped.
    void look(const QString& name);
    /// Goes once round by Tab: whatever can be pressed or written in is reached, is in sight then, and shows
    /// that it is.
    void goRoundByTab(const QString& name);

    bool goesRoundByTab = false; ///< wherever it looks
    QTemporaryDir folder;
    QSettings settings{folder.filePath(QStringLiteral("settings.ini")), QSettings::IniFormat};
    test::FakeClock clock;
    test::CountingIds ids;
    QSize size{1366, 768};
    std::unique_ptr<Workbench> bench;
    Hand hand{clock};
};

} // namespace coldarc::app
