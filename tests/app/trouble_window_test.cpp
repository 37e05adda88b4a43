#include "app/trouble_window.h"

#include "app/opening_words.h"
#include "core/store/backup.h"
#include "tests/support/fake_clock.h"
#include "tests/support/testing.h"
#include "ui/parts/field.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/text_label.h"

#include <QApplication>
#include <QFile>
#include <QLineEdit>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

namespace coldarc::app {
namespace {

using namespace Qt::StringLiterals;

/// A workspace of which there is a backup, and that is damaged since.
class TroubleWindowTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        const store::NewWorkspace fresh{u"workspace-1"_s, clock.now().wall};
        {
            store::OpenAnswer made = store::openWorkspace(file, fresh);
            ASSERT_TRUE(made.database);
            ASSERT_TRUE(store::backUp(*made.database, backup));
        }
        QFile damaged(file);
        ASSERT_TRUE(damaged.open(QIODevice::ReadWrite));
        ASSERT_TRUE(damaged.seek(4096 * 3));
        damaged.write(QByteArray(4096 * 4, '\x7f'));
        damaged.close();
        outcome = store::openWorkspace(file, fresh).outcome;
    }
    [[nodiscard]] std::unique_ptr<TroubleWindow> window() const
    {
        auto window = std::make_unique<TroubleWindow>(
            openingTrouble(outcome), file,
            mayRestore(outcome) ? TroubleWindow::MayRestore::Yes : TroubleWindow::MayRestore::No, clock);
        window->show();
        return window;
    }
    static void press(TroubleWindow& window, const QString& name)
    {
        auto* button = window.findChild<ui::PlainButton*>(name);
        ASSERT_TRUE(button && button->isVisible()) << name.toStdString();
        QTest::mouseClick(button, Qt::LeftButton);
    }
    static void name(TroubleWindow& window, const QString& backup)
    {
        QLineEdit* box = window.findChild<ui::Field*>(u"source"_s)->box();
        box->clear();
        QTest::keyClicks(box, backup);
    }

    test::FakeClock clock;
    QTemporaryDir folder;
    QString file = folder.filePath(u"work.coldarc"_s);
    QString backup = folder.filePath(u"work.backup"_s);
    store::Opening outcome = store::Opening::Opened;
};

TEST_F(TroubleWindowTest, ADamagedWorkspaceIsReplacedByItsBackupAfterItWasLookedAt)
{
    ASSERT_EQ(outcome, store::Opening::Damaged);
    const auto window = this->window();
    QSignalSpy asked(window.get(), &TroubleWindow::restoreRequested);
    name(*window, backup);
    press(*window, u"restore"_s);
    EXPECT_TRUE(window->findChild<ui::TextLabel*>(u"question"_s)->text().contains(backup));
    QApplication::processEvents();
    for (const auto* label : window->findChildren<ui::TextLabel*>())
        EXPECT_TRUE(!label->isVisible() || label->fits()) << label->text().toStdString();
    EXPECT_EQ(asked.size(), 0);
    press(*window, u"yes"_s);

    ASSERT_EQ(asked.size(), 1);
    ASSERT_TRUE(store::restore(asked.first().first().toString(), file));
    EXPECT_EQ(store::openWorkspace(file, {u"another"_s, clock.now().wall}).outcome, store::Opening::Opened);
}

TEST_F(TroubleWindowTest, SaysWhatIsNoBackupAndAsksNothing)
{
    const auto window = this->window();
    QSignalSpy asked(window.get(), &TroubleWindow::restoreRequested);
    name(*window, folder.filePath(u"nothing.backup"_s));
    press(*window, u"restore"_s);

    EXPECT_TRUE(
        window->findChild<ui::TextLabel*>(u"restoreOutcome"_s)->text().startsWith(u"There is no file "_s));
    EXPECT_FALSE(window->findChild<ui::PlainButton*>(u"yes"_s)->isVisible());
    EXPECT_EQ(asked.size(), 0);
}

TEST_F(TroubleWindowTest, OffersNoBackupInThePlaceOfAFileThatIsNotDamaged)
{
    outcome = store::Opening::Held;
    EXPECT_FALSE(window()->findChild<ui::PlainButton*>(u"restore"_s));
    outcome = store::Opening::Foreign;
    EXPECT_FALSE(window()->findChild<ui::PlainButton*>(u"restore"_s));
}

} // namespace
} // namespace coldarc::app
