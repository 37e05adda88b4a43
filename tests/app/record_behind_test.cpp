#include "app/record_behind.h"

#include "core/store/workspace_file.h"
#include "tests/app/many_records.h"
#include "tests/support/testing.h"

#include <QCoreApplication>
#include <QDir>
#include <QFile>
#include <QTemporaryDir>

#include <optional>

namespace coldarc::app {
namespace {

using namespace Qt::StringLiterals;

TEST(RecordBehindTest, AWorkspaceThatDoesNotOpenIsAnErrorOfTheTurnAndOfNoFile)
{
    const QTemporaryDir folder;
    const QString file = folder.filePath(u"work.coldarc"_s);
    const test::ManyRecords made;
    const SystemClock clock;
    store::OpenAnswer opened = store::openWorkspace(file, {u"workspace-1"_s, made.now().wall});
    ASSERT_TRUE(opened.database);
    ASSERT_TRUE(QFile::rename(file, folder.filePath(u"gone"_s)));
    ASSERT_TRUE(QDir(folder.path()).mkdir(u"work.coldarc"_s));

    RecordBehind behind(*opened.database, clock);
    std::optional<Result<std::vector<record::TakenRecord>>> answer;
    behind.take({u"1.zip"_s, u"2.zip"_s}, made.engineer(), [&](const auto& taken) { answer = taken; });
    while (!answer)
        QCoreApplication::processEvents();
    EXPECT_FALSE(*answer);
}

} // namespace
} // namespace coldarc::app
