#include "app/usage.h"
#include "tests/support/testing.h"

#include <QDir>
#include <QProcess>
#include <QTemporaryDir>

namespace coldarc::app {
namespace {

using namespace Qt::StringLiterals;

/// The program itself, in a home of its own.
class ProgramTest : public ::testing::Test {
protected:
    struct Answer {
        int status = -1;
        QByteArray out;
        QByteArray err;
    };
    [[nodiscard]] Answer run(const QStringList& arguments) const
    {
        QProcess program;
        QProcessEnvironment with = QProcessEnvironment::systemEnvironment();
        with.insert(u"HOME"_s, home.path());
        with.insert(u"XDG_DATA_HOME"_s, home.path());
        with.insert(u"XDG_CONFIG_HOME"_s, home.path());
        with.insert(u"QT_QPA_PLATFORM"_s, u"offscreen"_s);
        program.setProcessEnvironment(with);
        program.start(QStringLiteral(COLDARC_PROGRAM), arguments);
        EXPECT_TRUE(program.waitForFinished(60'000));
        return {program.exitCode(), program.readAllStandardOutput(), program.readAllStandardError()};
    }
    QTemporaryDir home;
};

TEST_F(ProgramTest, AFileThatIsOnlyNamedOpensNoOtherWorkspace)
{
    const Answer answer = run({u"night.coldarc"_s});

    EXPECT_EQ(answer.status, 1);
    EXPECT_TRUE(answer.err.contains("night.coldarc")) << answer.err.toStdString();
    EXPECT_TRUE(answer.err.contains("--workspace FILE")) << answer.err.toStdString();
    EXPECT_TRUE(QDir(home.path()).entryList(QDir::AllEntries | QDir::NoDotAndDotDot).isEmpty())
        << "and none was made";
}

TEST_F(ProgramTest, EachCommandSaysHowItIsCalled)
{
    const QByteArray all = run({u"--help"_s}).out;
    for (const auto& [name, usage] :
         {std::pair{u"label"_s, kLabelUsage}, std::pair{u"verify"_s, kVerifyUsage},
          std::pair{u"report"_s, kReportUsage}}) {
        const Answer asked = run({name, u"--help"_s});
        EXPECT_EQ(asked.status, 0) << usage;
        EXPECT_EQ(asked.out, QByteArray(usage) + '\n');
        const Answer wrong = run({name});
        EXPECT_EQ(wrong.status, 2) << usage;
        EXPECT_TRUE(wrong.err.contains(usage)) << wrong.err.toStdString();
        EXPECT_TRUE(all.contains(usage)) << all.toStdString();
    }
}

} // namespace
} // namespace coldarc::app
