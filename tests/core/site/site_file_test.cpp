#include "core/site/site_file.h"

#include "tests/core/site/small_site.h"
#include "tests/support/testing.h"

#include <QJsonArray>
#include <QJsonDocument>

namespace coldarc::site {
namespace {

using namespace Qt::StringLiterals;

/// What the reader says of the small site after `key` of its `list`'s first part was set to `value`.
QString complaintAfter(const QString& list, const QString& key, const QJsonValue& value)
{
    QJsonObject object = toJson(test::smallSite());
    QJsonArray array = object.value(list).toArray();
    QJsonObject part = array.first().toObject();
    part.insert(key, value);
    array.replace(0, part);
    object.insert(list, array);
    const auto read = siteFromJson(object);
    return read ? QString() : read.error().detail;
}

TEST(SiteFileTest, ReadsWhatItWrites)
{
    const QByteArray bytes = QJsonDocument(toJson(test::smallSite())).toJson();

    EXPECT_EQ(siteFromJson(QJsonDocument::fromJson(bytes).object()), test::smallSite());
}

TEST(SiteFileTest, ReadsADocumentWrittenByHand)
{
    const QByteArray bytes = R"({
        "kind": "site", "site_id": "s", "name": "Mill Lane",
        "profile": {"may_prove_absence": "engineer"},
        "screens": [{"screen_id": "sc", "name": "One", "weekly_h": 90, "show_starts": ["1970-01-02T00:00:00.000Z"]}],
        "projectors": [{"projector_id": "pr", "model_id": "m", "screen_id": "sc"}],
        "lamphouses": [{"lamphouse_id": "lh", "projector_id": "pr", "label": "lamp", "fitted_lamp_id": "l"}],
        "points": [{"point_id": "pt", "panel": "B", "circuit": "14", "name": "panel B, 14", "lockable": true,
                    "feeds": [{"lamphouse_id": "lh", "role_id": "main"}]}]})";

    const auto read = siteFromJson(QJsonDocument::fromJson(bytes).object());

    ASSERT_TRUE(read) << read.error().detail.toStdString();
    EXPECT_EQ(read->site.profile.mayProveAbsence, AbsenceProver::Engineer);
    EXPECT_EQ(read->screens[0].weeklyHours, 90.0);
    EXPECT_EQ(read->screens[0].showStarts, std::vector<WallTime>{WallTime(std::chrono::hours(24))});
    EXPECT_EQ(read->lamphouses[0].fitted, LampId(u"l"_s));
    EXPECT_TRUE(read->points[0].isLockable);
    EXPECT_EQ(read->points[0].feeds[0], (Feed{LamphouseId(u"lh"_s), catalogue::RoleId(u"main"_s)}));
}

TEST(SiteFileTest, NamesThePlaceOfWhatIsWrong)
{
    EXPECT_EQ(complaintAfter(u"points"_s, u"lockable"_s, u"yes"_s),
              u"points[0].lockable: must be true or false"_s);
    EXPECT_EQ(complaintAfter(u"screens"_s, u"weekly_h"_s, 169),
              u"screens[0].weekly_h: must be a number from 0 to 168"_s);
    EXPECT_EQ(complaintAfter(u"screens"_s, u"show_starts"_s, QJsonArray{u"tonight"_s}),
              u"screens[0].show_starts: not a moment: tonight"_s);
    EXPECT_EQ(complaintAfter(u"projectors"_s, u"colour"_s, u"grey"_s),
              u"projectors[0].colour: unknown key"_s);
    EXPECT_EQ(complaintAfter(u"lamphouses"_s, u"fitted_lamp_id"_s, u""_s),
              u"lamphouses[0].fitted_lamp_id: must be a text that is not empty"_s);
    EXPECT_EQ(complaintAfter(u"points"_s, u"feeds"_s, QJsonArray{QJsonObject{{u"lamphouse_id"_s, u"lh"_s}}}),
              u"points[0].feeds[0].role_id: is missing"_s);
}

TEST(SiteFileTest, ListsEverythingThatIsMissing)
{
    const auto read = siteFromJson({});

    ASSERT_FALSE(read);
    EXPECT_EQ(read.error().kind, Error::Kind::Malformed);
    for (const QString& key : {u"kind"_s, u"site_id"_s, u"name"_s, u"profile"_s, u"screens"_s,
                               u"projectors"_s, u"lamphouses"_s, u"points"_s})
        EXPECT_TRUE(read.error().detail.split(u'\n').contains(key + u": is missing"_s)) << key.toStdString();
}

TEST(SiteFileTest, RefusesARuleAboutProversThatItDoesNotKnow)
{
    QJsonObject object = toJson(test::smallSite());
    object.insert(u"profile"_s, QJsonObject{{u"may_prove_absence"_s, u"anybody"_s}});

    EXPECT_FALSE(siteFromJson(object));
}

TEST(AbsenceProverTest, HasAWordThatLeadsBackToIt)
{
    for (const auto prover : {AbsenceProver::Engineer, AbsenceProver::Qualified, AbsenceProver::Electrician})
        EXPECT_EQ(proverFromWord(wordOf(prover)), prover);
    EXPECT_EQ(wordOf(AbsenceProver::Qualified), u"qualified"_s);
    EXPECT_EQ(proverFromWord(u"anybody"_s), std::nullopt);
}

} // namespace
} // namespace coldarc::site
