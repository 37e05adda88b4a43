#include "tests/architecture/include_graph.h"

#include "tests/support/testing.h"

#include <algorithm>

namespace coldarc::test {
namespace {

using namespace Qt::StringLiterals;

const Rooms kSmallHouse = roomsFromText(u"core/base:\n"
                                        "core/store:core/base\n"
                                        "core/site:core/base,core/store\n"
                                        "core/label:core/base\n"
                                        "ui/parts:core/base\n"
                                        "ui/label:ui/parts,core/label\n"
                                        "ui/site:ui/parts,ui/label,core/site\n"_s);

QStringList complaintsAbout(const QString& path, const QString& text)
{
    return includeComplaints({path, text}, kSmallHouse);
}

/// Exactly one complaint, and these words in it.
void expectOne(const QStringList& complaints, const QString& words)
{
    ASSERT_EQ(complaints.size(), 1) << complaints.join(u'\n').toStdString();
    EXPECT_TRUE(complaints.first().contains(words)) << complaints.first().toStdString();
}

TEST(IncludeGraphTest, HoldsInTheWholeTree)
{
    const Rooms rooms = readRooms();
    ASSERT_TRUE(rooms.contains(u"core/base"_s));
    const auto files = sourceTree(QStringLiteral(COLDARC_SOURCE_DIR));
    ASSERT_TRUE(std::ranges::any_of(files, [](const auto& f) { return f.path == u"core/base/clock.h"_s; }));

    QStringList complaints = tableComplaints(rooms);
    for (const SourceFile& file : files)
        complaints += includeComplaints(file, rooms);

    EXPECT_TRUE(complaints.isEmpty()) << complaints.join(u'\n').toStdString();
}

TEST(IncludeGraphTest, LetsACoreRoomUseItselfAndItsRow)
{
    EXPECT_TRUE(complaintsAbout(u"core/site/site.cpp"_s, u"#include \"core/site/site.h\"\n\n"
                                                         "#include \"core/base/result.h\"\n"
                                                         "#include \"core/store/database.h\"\n"
                                                         "#include <QString>\n"_s)
                    .isEmpty());
}

TEST(IncludeGraphTest, RefusesACoreRoomWhatItsRowLeavesOut)
{
    expectOne(complaintsAbout(u"core/site/site.cpp"_s, u"#include \"core/site/site.h\"\n"
                                                       "#include \"core/label/marking.h\"\n"_s),
              u"core/site/site.cpp:2 includes core/label/marking.h, but core/site may not use core/label"_s);
}

TEST(IncludeGraphTest, RefusesACoreRoomWhatOnlyItsNeighboursUse)
{
    const Rooms rooms = roomsFromText(u"core/base:\ncore/store:core/base\ncore/lamps:core/store\n"_s);

    expectOne(includeComplaints({u"core/lamps/lamp.h"_s, u"#include \"core/base/ids.h\"\n"_s}, rooms),
              u"core/lamps may not use core/base"_s);
}

TEST(IncludeGraphTest, RefusesCoreAFace)
{
    expectOne(complaintsAbout(u"core/site/site.h"_s, u"#include \"ui/parts/quantity.h\"\n"_s),
              u"core/site may not use ui/parts"_s);
}

TEST(IncludeGraphTest, LetsAFaceUseWhatItsCoreRoomUses)
{
    EXPECT_TRUE(complaintsAbout(u"ui/label/label_panel.h"_s, u"#include \"core/base/ids.h\"\n"_s).isEmpty());
    EXPECT_TRUE(
        complaintsAbout(u"ui/site/site_page.h"_s, u"#include \"core/label/marking.h\"\n"_s).isEmpty());
}

TEST(IncludeGraphTest, RefusesAFaceTheStore)
{
    expectOne(complaintsAbout(u"ui/site/site_page.cpp"_s, u"#include \"core/store/database.h\"\n"_s),
              u"ui/site may not use core/store; let the core room's own store"_s);
}

TEST(IncludeGraphTest, LetsTheBackupPageUseTheStore)
{
    const Rooms rooms = roomsFromText(u"core/store:\nui/shell:\n"_s);

    EXPECT_TRUE(
        includeComplaints({u"ui/shell/backup_page.cpp"_s, u"#include \"core/store/backup.h\"\n"_s}, rooms)
            .isEmpty());
    EXPECT_FALSE(
        includeComplaints({u"ui/shell/main_window.cpp"_s, u"#include \"core/store/backup.h\"\n"_s}, rooms)
            .isEmpty());
}

TEST(IncludeGraphTest, RefusesAFaceAnotherFaceThatItsRowLeavesOut)
{
    expectOne(complaintsAbout(u"ui/label/label_panel.cpp"_s, u"#include \"ui/site/site_page.h\"\n"_s),
              u"ui/label may not use ui/site"_s);
}

TEST(IncludeGraphTest, LetsTheAppUseEveryRoomButNoTests)
{
    EXPECT_TRUE(complaintsAbout(u"app/main.cpp"_s, u"#include \"app/workbench.h\"\n"
                                                   "#include \"core/store/database.h\"\n"
                                                   "#include \"ui/site/site_page.h\"\n"_s)
                    .isEmpty());
    expectOne(complaintsAbout(u"app/main.cpp"_s, u"#include \"tests/support/fake_clock.h\"\n"_s),
              u"nothing outside tests/ may use tests"_s);
}

TEST(IncludeGraphTest, RefusesRoomsTheApp)
{
    expectOne(complaintsAbout(u"ui/site/site_page.cpp"_s, u"#include \"app/workbench.h\"\n"_s),
              u"app knows every room and is known by none"_s);
}

TEST(IncludeGraphTest, RefusesWaysRoundTheTable)
{
    expectOne(complaintsAbout(u"core/site/site.cpp"_s, u"#include \"../label/marking.h\"\n"_s),
              u"from the top"_s);
    expectOne(complaintsAbout(u"core/site/site.cpp"_s, u"#include <core/label/marking.h>\n"_s),
              u"core/label"_s);
    expectOne(complaintsAbout(u"core/site/site.cpp"_s, u"  #  include \"core/label/marking.h\"\n"_s),
              u"core/label"_s);
}

TEST(IncludeGraphTest, RefusesAFolderWithoutARow)
{
    expectOne(complaintsAbout(u"core/weather/rain.h"_s, u"#pragma once\n"_s),
              u"core/weather, which is no room"_s);
    expectOne(complaintsAbout(u"app/main.cpp"_s, u"#include \"core/weather/rain.h\"\n"_s),
              u"core/weather is no room"_s);
}

TEST(IncludeGraphTest, LeavesCommentsAndTestsAlone)
{
    EXPECT_TRUE(complaintsAbout(u"core/site/site.cpp"_s, u"// #include \"core/label/marking.h\"\n"
                                                         "/*\n#include \"core/label/marking.h\"\n*/\n"_s)
                    .isEmpty());
    EXPECT_TRUE(complaintsAbout(u"tests/core/site/site_test.cpp"_s, u"#include \"core/label/marking.h\"\n"_s)
                    .isEmpty());
}

TEST(IncludeGraphTest, RefusesRowsThatTurnTheHouseUpsideDown)
{
    expectOne(tableComplaints(roomsFromText(u"core/site:core/base,ui/parts\n"_s)), u"core has no face"_s);
    expectOne(tableComplaints(roomsFromText(u"ui/site:core/store\n"_s)), u"ui/site uses core/store"_s);
    EXPECT_TRUE(tableComplaints(kSmallHouse).isEmpty());
}

} // namespace
} // namespace coldarc::test
