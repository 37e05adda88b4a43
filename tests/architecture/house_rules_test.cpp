#include "tests/architecture/house_rules.h"

#include "tests/architecture/include_graph.h"
#include "tests/support/testing.h"

#include <algorithm>

namespace coldarc::test {
namespace {

using namespace Qt::StringLiterals;

/// A text planted in a file that does not exist, and whether the rule must see it.
struct Planted {
    const char* rule;
    const char* path;
    const char* text;
    qsizetype line; ///< where the rule must complain; 0 where it must be silent

    friend void PrintTo(const Planted& p, std::ostream* out)
    {
        *out << p.rule << " in " << p.path << ": " << p.text;
    }
};

const HouseRule& ruleNamed(const QString& name)
{
    const auto& rules = houseRules();
    const auto found = std::ranges::find(rules, name, &HouseRule::name);
    Q_ASSERT_X(found != rules.end(), "ruleNamed", "a planted violation names a rule that there is not");
    return *found;
}

QString textOf(const std::vector<SourceFile>& files, const QString& path)
{
    const auto found = std::ranges::find(files, path, &SourceFile::path);
    return found == files.end() ? QString() : found->text;
}

QSet<QString> roomsOfTheTable()
{
    const QStringList rooms = readRooms().keys();
    return QSet<QString>(rooms.begin(), rooms.end());
}

constexpr qsizetype kSilent = 0;

const Planted kPlanted[] = {
    {"SqlTypes", "core/lamps/lamp_store.cpp", "#include <QString>\n#include <QSqlQuery>\n", 2},
    {"SqlTypes", "ui/lamps/lamps_page.h", "class QSqlDatabase;\n", 1},
    {"SqlTypes", "core/store/database.cpp", "#include <QSqlQuery>\n", kSilent},
    {"SqlTypes", "core/lamps/lamp.h", "/// Kept without QSqlQuery.\n", kSilent},

    {"SqlText", "core/lamps/lamp.cpp", "run(u\"SELECT lamp_id FROM lamp\"_s);\n", 1},
    {"SqlText", "core/lamps/lamp.cpp", "run(u\"INSERT INTO lamp(lamp_id)\"_s);\n", 1},
    {"SqlText", "core/lamps/lamp.cpp", "run(uR\"(\n   UPDATE lamp SET x = 1)\"_s);\n", 2},
    {"SqlText", "app/main.cpp", "run(u\"DELETE FROM lamp\"_s);\n", 1},
    {"SqlText", "core/lamps/lamp_store.cpp", "run(u\"SELECT lamp_id FROM lamp\"_s);\n", kSilent},
    {"SqlText", "ui/lamps/lamp_store.cpp", "run(u\"SELECT lamp_id FROM lamp\"_s);\n", 1},
    {"SqlText", "core/store/journal.cpp", "run(u\"SELECT seq FROM entry\"_s);\n", kSilent},
    {"SqlText", "ui/lamps/lamps_page.cpp", "tr(\"Select a lamp from the list\");\n", kSilent},

    {"PrefixedQtHeader", "core/base/hash.h", "#include <QtCore/QString>\n", 1},
    {"PrefixedQtHeader", "tests/ui/parts/x_test.cpp", "#include <QtWidgets/QLabel>\n", 1},
    {"PrefixedQtHeader", "ui/parts/ring.h", "#include <QWidget>\n", kSilent},

    {"OwnClock", "core/machine/demands.cpp", "const auto now = std::chrono::system_clock::now();\n", 1},
    {"OwnClock", "core/machine/demands.cpp", "const auto now = steady_clock::now();\n", 1},
    {"OwnClock", "ui/visit/bench_page.cpp", "auto t = QDateTime::currentDateTimeUtc();\n", 1},
    {"OwnClock", "ui/visit/bench_page.cpp", "auto t = QDate::currentDate();\n", 1},
    {"OwnClock", "core/visit/decide.cpp", "qint64 t = QDateTime::currentMSecsSinceEpoch();\n", 1},
    {"OwnClock", "tests/core/visit/decide_test.cpp", "auto t = QDateTime::currentDateTime();\n", 1},
    {"OwnClock", "core/base/clock.cpp", "std::chrono::system_clock::now();\n", kSilent},
    {"OwnClock", "tests/bench/store_bench.cpp", "std::chrono::steady_clock::now();\n", kSilent},
    {"OwnClock", "core/visit/decide.cpp", "decide(state, command, clock.now());\n", kSilent},

    {"ClockSetting", "tests/support/fake_clock.h", "::setenv(\"TZ\", \"UTC\", 1);\n", 1},
    {"ClockSetting", "app/main.cpp", "// then settimeofday\n", 1},
    {"ClockSetting", "tests/run", "set -e\ndate -s 2026-01-01\n", 2},
    {"ClockSetting", "app/main.cpp", "clock_settime(CLOCK_REALTIME, &value);\n", 1},
    {"ClockSetting", "tests/long/run", "date --utc +%FT%TZ\n", kSilent},

    {"Sleeping", "core/store/database.cpp", "QThread::msleep(5);\n", 1},
    {"Sleeping", "ui/visit/bench_page.cpp", "std::this_thread::sleep_for(1s);\n", 1},
    {"Sleeping", "tests/ui/visit/bench_test.cpp", "QTest::qWait(50);\n", 1},
    {"Sleeping", "app/main.cpp", "usleep(10);\n", 1},
    {"Sleeping", "app/main.cpp", "::sleep(10);\n", 1},
    {"Sleeping", "tests/core/machine/waits_test.cpp", "clock.sleep(5min);\n", kSilent},
    {"Sleeping", "tests/long/kill_long.cpp", "std::this_thread::sleep_for(1s);\n", kSilent},

    {"Objects", "core/visit/bench.h", "class Bench : public QObject {\n    Q_OBJECT\n", 2},
    {"Objects", "ui/visit/bench_page.h", "    Q_OBJECT\n", kSilent},
    {"Objects", "app/workbench.h", "    Q_OBJECT\n", kSilent},

    {"BorrowedSignal", "ui/visit/bench_card.cpp", "Q_EMIT actRequested(m_card.acts.at(i).id);\n", 1},
    {"BorrowedSignal", "ui/visit/bench_card.cpp", "Q_EMIT actRequested(m_acts[i].id, text);\n", 1},
    {"BorrowedSignal", "ui/visit/bench_card.cpp", "Q_EMIT actRequested(m_card.acts.value(i).id);\n", kSilent},

    {"TextForPeople", "core/visit/refusal.cpp", "return tr(\"Wait\");\n", 1},
    {"TextForPeople", "core/visit/refusal.cpp", "return QObject::tr(\"Wait\");\n", 1},
    {"TextForPeople", "core/base/result.h", "int distr(int);\n", kSilent},
    {"TextForPeople", "ui/visit/bench_presenter.cpp", "return tr(\"Wait\");\n", kSilent},

    {"Singletons", "core/visit/decide.cpp", "Log::instance().say();\n", 1},
    {"Singletons", "ui/parts/theme.cpp", "qApp->setFont(font);\n", 1},
    {"Singletons", "app/main.cpp", "QCoreApplication::instance();\n", kSilent},

    {"UnfinishedWork", "core/visit/decide.cpp", "// TODO think\n", 1},
    {"UnfinishedWork", "README.md", "Fine.\n\nFIXME\n", 3},
    {"UnfinishedWork", "core/visit/decide.cpp", "// a todo list is a list\n", kSilent},

    {"LiteralsInHeaders", "core/base/hash.h", "using namespace Qt::StringLiterals;\n", 1},
    {"LiteralsInHeaders", "core/base/hash.h", "inline void f()\n{\n    using namespace Qt::StringLiterals;\n",
     kSilent},
    {"LiteralsInHeaders", "core/base/hash.cpp", "using namespace Qt::StringLiterals;\n", kSilent},

    {"BareGoogleTest", "tests/core/base/hash_test.cpp", "#include <gtest/gtest.h>\n", 1},
    {"BareGoogleTest", "tests/support/testing.h", "#include <gtest/gtest.h>\n", kSilent},

    {"TestNames", "tests/core/base/hash_test.cpp", "TEST(HashTest, Refuses_ShortText)\n", 1},
    {"TestNames", "tests/core/base/hash_test.cpp", "TEST_F(Hash_Test, RefusesShortText)\n", 1},
    {"TestNames", "tests/core/base/hash_test.cpp", "TEST_P(HashTest, RefusesShortText)\n", kSilent},
};

class PlantedTest : public ::testing::TestWithParam<Planted> {};

TEST_P(PlantedTest, IsSeenWhereItIsAViolationAndOnlyThere)
{
    const Planted& planted = GetParam();
    const QString path = QString::fromLatin1(planted.path);

    const QStringList complaints =
        complaintsOf(ruleNamed(QString::fromLatin1(planted.rule)), {path, QString::fromLatin1(planted.text)});

    if (planted.line == kSilent) {
        EXPECT_TRUE(complaints.isEmpty()) << complaints.join(u'\n').toStdString();
        return;
    }
    ASSERT_EQ(complaints.size(), 1);
    EXPECT_TRUE(complaints.first().startsWith(u"%1:%2 has "_s.arg(path).arg(planted.line)))
        << complaints.first().toStdString();
}

INSTANTIATE_TEST_SUITE_P(HouseRules, PlantedTest, ::testing::ValuesIn(kPlanted));

TEST(HouseRulesTest, HoldInTheWholeTree)
{
    const auto files = sourceTree(QStringLiteral(COLDARC_SOURCE_DIR));
    ASSERT_GT(files.size(), 10u);

    QStringList complaints = topLevelComplaints(topLevelOf(QStringLiteral(COLDARC_SOURCE_DIR)));
    QSet<QString> paths;
    for (const SourceFile& file : files) {
        paths.insert(file.path);
        for (const HouseRule& rule : houseRules())
            complaints += complaintsOf(rule, file);
    }
    complaints += twinComplaints(paths);
    complaints += guideComplaints(textOf(files, u"DEVELOPERS.md"_s), paths, roomsOfTheTable());

    EXPECT_TRUE(complaints.isEmpty()) << complaints.join(u'\n').toStdString();
}

TEST(HouseRulesTest, AreEachTriedWithAViolationAndWithSomethingHarmless)
{
    for (const HouseRule& rule : houseRules()) {
        const auto isTried = [&](bool silent) {
            return std::ranges::any_of(kPlanted, [&](const Planted& p) {
                return QString::fromLatin1(p.rule) == rule.name && (p.line == kSilent) == silent;
            });
        };
        EXPECT_TRUE(isTried(false)) << "plant a violation of " << rule.name.toStdString();
        EXPECT_TRUE(isTried(true)) << "plant something that " << rule.name.toStdString() << " must let pass";
    }
}

TEST(HouseRulesTest, SayWhatTheCureIs)
{
    const QStringList complaints =
        complaintsOf(ruleNamed(u"Singletons"_s), {u"core/x/x.cpp"_s, u"\n  Log::instance();\n"_s});

    EXPECT_EQ(complaints, QStringList{u"core/x/x.cpp:2 has \"instance()\" (Singletons); "
                                      "hand it over as an argument, from app"_s});
}

TEST(HouseRulesTest, KeepTheTopOfTheTreeBare)
{
    EXPECT_TRUE(topLevelComplaints({u".ci"_s, u"CMakeLists.txt"_s, u"app"_s, u"sample-data"_s}).isEmpty());
    ASSERT_EQ(topLevelComplaints({u"docs"_s, u"core"_s}).size(), 1);
    EXPECT_TRUE(
        topLevelComplaints({u"docs"_s}).first().startsWith(u"docs:1 stands at the top of the tree"_s));
}

TEST(HouseRulesTest, AskForTheHeaderThatACoreTestIsNamedAfter)
{
    const QString test = u"tests/core/base/hash_test.cpp"_s;

    EXPECT_TRUE(twinComplaints({test, u"core/base/hash.h"_s}).isEmpty());
    ASSERT_EQ(twinComplaints({test, u"core/store/hash.h"_s}).size(), 1);
    EXPECT_TRUE(twinComplaints({test}).first().contains(u"has no twin core/base/hash.h"_s));
    EXPECT_TRUE(twinComplaints({u"tests/stories/swap_test.cpp"_s}).isEmpty());
    EXPECT_TRUE(twinComplaints({u"tests/core/machine/enumeration_test.cpp"_s}).isEmpty());
}

TEST(HouseRulesTest, KeepTheGuideTrue)
{
    const QSet<QString> paths = {u"core/base/hash.h"_s, u"core/base/hash.cpp"_s};
    const QSet<QString> rooms = {u"core/base"_s, u"ui/parts"_s};
    const QString truth =
        u"| `core/base` | ids |\nRead `core/base/hash.h`, `ui/parts` and `core/<room>/x.h`.\n"_s;

    EXPECT_TRUE(guideComplaints(truth, paths, rooms).isEmpty());
    EXPECT_EQ(guideComplaints(truth + u"Then `core/base/lost.h`.\n"_s, paths, rooms),
              QStringList{u"DEVELOPERS.md:1 names core/base/lost.h, which is not there; name what is"_s});
    EXPECT_TRUE(
        guideComplaints(truth + u"### Not built yet\n\n`app/x.cpp`\n\n## Rules\n"_s, paths, rooms).isEmpty());
    ASSERT_EQ(guideComplaints(truth, paths, rooms + QSet<QString>{u"core/store"_s}).size(), 1);
    EXPECT_TRUE(guideComplaints(truth, paths, rooms + QSet<QString>{u"core/store"_s})
                    .first()
                    .contains(u"no line for core/store"_s));
}

TEST(SourceTextTest, BlanksCommentsAndLeavesLinesWhereTheyWere)
{
    EXPECT_EQ(codeOf(u"a // b\nc /* d\n e */ f"_s, Strings::Kept), u"a     \nc     \n      f"_s);
}

TEST(SourceTextTest, IsNotFooledByQuotesAndDigitSeparators)
{
    EXPECT_EQ(codeOf(u"x(\"// no\"); y"_s, Strings::Kept), u"x(\"// no\"); y"_s);
    EXPECT_EQ(codeOf(u"x(\"a\\\"b\"); // c"_s, Strings::Blanked), u"x(\"    \");     "_s);
    EXPECT_EQ(codeOf(u"1'000 + '\"' + 2'000 // c"_s, Strings::Kept), u"1'000 + '\"' + 2'000     "_s);
    EXPECT_EQ(codeOf(u"c == u'\"' // c"_s, Strings::Kept), u"c == u'\"'     "_s);
    EXPECT_EQ(codeOf(u"uR\"(a \" b)\" // c"_s, Strings::Blanked), u"uR\"(     )\"     "_s);
}

} // namespace
} // namespace coldarc::test
