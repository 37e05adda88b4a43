#include "core/photometry/tolerance_file.h"

#include "tests/support/testing.h"

#include <QDir>
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QTemporaryDir>

#include <algorithm>

namespace coldarc::photometry {
namespace {

using namespace Qt::StringLiterals;

QJsonObject goodLimit()
{
    return {{u"quantity"_s, u"centre-luminance"_s},
            {u"least"_s, 40},
            {u"most"_s, 60},
            {u"nominal"_s, 48},
            {u"standing"_s, u"read"_s},
            {u"source"_s, u"page 3"_s}};
}

/// A set that reads without a complaint. Invented.
QJsonObject goodSet()
{
    return {{u"kind"_s, u"tolerance-set"_s},
            {u"note"_s, u"invented"_s},
            {u"id"_s, u"test-set"_s},
            {u"name"_s, u"Test"_s},
            {u"source"_s, u"Nobody's Paper 5"_s},
            {u"edition"_s, u"1999"_s},
            {u"class"_s, u"theatre"_s},
            {u"picture"_s, u"digital"_s},
            {u"convention"_s, u"two-sides"_s},
            {u"position"_s, u"main-seating"_s},
            {u"needs"_s, QJsonArray{u"right"_s, u"centre"_s}},
            {u"limits"_s, QJsonArray{goodLimit()}}};
}

QJsonObject with(QJsonObject object, const QString& key, const QJsonValue& value)
{
    if (value.isUndefined())
        object.remove(key);
    else
        object.insert(key, value);
    return object;
}

QJsonObject withLimit(const QJsonObject& limit)
{
    return with(goodSet(), u"limits"_s, QJsonArray{limit});
}

TEST(ToleranceFileTest, ReadsEverythingThatADocumentSays)
{
    const auto reading = readToleranceSet(goodSet());

    ASSERT_TRUE(reading.set) << reading.complaints.join(u'\n').toStdString();
    ToleranceSet expected;
    expected.id = ToleranceSetId(u"test-set"_s);
    expected.name = u"Test"_s;
    expected.source = u"Nobody's Paper 5"_s;
    expected.edition = u"1999"_s;
    expected.roomClass = RoomClass::Theatre;
    expected.picture = Picture::Digital;
    expected.convention = Convention::TwoSides;
    expected.position = MeterPosition::MainSeating;
    expected.needs = {Place::Centre, Place::Right};
    expected.limits = {{Quantity::CentreLuminance, 40, 60, 48, Absence::None, Standing::Read, u"page 3"_s}};
    EXPECT_EQ(*reading.set, expected);
}

struct BadSet {
    const char* name;
    QJsonObject document;
    QString complaint;

    friend void PrintTo(const BadSet& bad, std::ostream* out) { *out << bad.name; }
};

class ToleranceFileRefusalTest : public ::testing::TestWithParam<BadSet> {};

TEST_P(ToleranceFileRefusalTest, NamesThePlaceAndTheReason)
{
    const auto reading = readToleranceSet(GetParam().document);

    EXPECT_FALSE(reading.set);
    EXPECT_EQ(reading.complaints, QStringList{GetParam().complaint});
}

const QJsonValue kGone(QJsonValue::Undefined);

INSTANTIATE_TEST_SUITE_P(
    OfTheSet, ToleranceFileRefusalTest,
    ::testing::Values(
        BadSet{"OtherKind", with(goodSet(), u"kind"_s, u"gear"_s), u"kind: must be tolerance-set"_s},
        BadSet{"UnknownKey", with(goodSet(), u"unit"_s, u"fL"_s), u"unit: unknown key"_s},
        BadSet{"NoId", with(goodSet(), u"id"_s, kGone), u"id: is missing"_s},
        BadSet{"NoName", with(goodSet(), u"name"_s, u""_s), u"name: must be a text that is not empty"_s},
        BadSet{"NoSource", with(goodSet(), u"source"_s, kGone), u"source: is missing"_s},
        BadSet{"NoEdition", with(goodSet(), u"edition"_s, kGone), u"edition: is missing"_s},
        BadSet{"NoSuchClass", with(goodSet(), u"class"_s, u"cinema"_s),
               u"class: must be one of theatre, review-room, laboratory, practice"_s},
        BadSet{"NoSuchPicture", with(goodSet(), u"picture"_s, u"slides"_s),
               u"picture: slides is no word for this"_s},
        BadSet{"NoSuchPosition", with(goodSet(), u"position"_s, u"booth"_s),
               u"position: booth is no word for this"_s},
        BadSet{"CentreNotNeeded", with(goodSet(), u"needs"_s, QJsonArray{u"left"_s}),
               u"needs: must hold the centre"_s},
        BadSet{"PointOfAnotherConvention",
               with(goodSet(), u"needs"_s, QJsonArray{u"centre"_s, u"top-left"_s}),
               u"needs: top-left is no point of this convention"_s},
        BadSet{"PointTwice", with(goodSet(), u"needs"_s, QJsonArray{u"centre"_s, u"centre"_s}),
               u"needs: centre stands here twice"_s},
        BadSet{"NoLimits", with(goodSet(), u"limits"_s, QJsonArray{}), u"limits: must hold at least one"_s},
        BadSet{"QuantityTwice", with(goodSet(), u"limits"_s, QJsonArray{goodLimit(), goodLimit()}),
               u"limits[1].quantity: stands here twice"_s}),
    [](const auto& instance) { return std::string(instance.param.name); });

INSTANTIATE_TEST_SUITE_P(
    OfALimit, ToleranceFileRefusalTest,
    ::testing::Values(
        BadSet{"NoSuchStanding", withLimit(with(goodLimit(), u"standing"_s, u"sure"_s)),
               u"limits[0].standing: must be one of read, read-2, memory, derived, practice, own"_s},
        BadSet{"OwnTargetInAFile", withLimit(with(goodLimit(), u"standing"_s, u"own"_s)),
               u"limits[0].standing: own is for a target that a person sets in the program"_s},
        BadSet{"NoSource", withLimit(with(goodLimit(), u"source"_s, kGone)),
               u"limits[0].source: is missing"_s},
        BadSet{"UnknownKey", withLimit(with(goodLimit(), u"unit"_s, u"fL"_s)),
               u"limits[0].unit: unknown key"_s},
        BadSet{"UpsideDown", withLimit(with(goodLimit(), u"most"_s, 39)),
               u"limits[0].most: must not be below least"_s},
        BadSet{"NominalOutside", withLimit(with(goodLimit(), u"nominal"_s, 61)),
               u"limits[0].nominal: must lie within least and most"_s},
        BadSet{"AText", withLimit(with(goodLimit(), u"least"_s, u"40"_s)),
               u"limits[0].least: must be a number from 0 to 20000"_s},
        BadSet{"Negative", withLimit(with(goodLimit(), u"least"_s, -1)),
               u"limits[0].least: must be a number from 0 to 20000"_s},
        BadSet{"ShareInPercent",
               withLimit({{u"quantity"_s, u"side-share"_s},
                          {u"most"_s, 90},
                          {u"standing"_s, u"read"_s},
                          {u"source"_s, u"x"_s}}),
               u"limits[0].most: must be a number from 0 to 2"_s},
        BadSet{"NoFiguresAndNoReason",
               withLimit(with(with(goodLimit(), u"least"_s, kGone), u"most"_s, kGone)),
               u"limits[0].least: least, most or absence is needed"_s},
        BadSet{"FiguresAndAbsence", withLimit(with(goodLimit(), u"absence"_s, u"unset"_s)),
               u"limits[0].absence: stands beside figures"_s}),
    [](const auto& instance) { return std::string(instance.param.name); });

TEST(ToleranceFileTest, NamesEverythingThatIsWrongAtOnce)
{
    const auto reading = readToleranceSet(with(withLimit(with(goodLimit(), u"most"_s, 39)), u"id"_s, kGone));

    EXPECT_EQ(reading.complaints.size(), 2);
}

TEST(ToleranceFileTest, IsTheSameInAnEntryWithATargetOfAPersonsOwn)
{
    ToleranceSet set = *readToleranceSet(goodSet()).set;
    set.limits.push_back(
        {Quantity::CornerShare, {}, {}, {}, Absence::NotSpecified, Standing::SecondHand, u"x"_s});
    set.limits.push_back({Quantity::WhiteX, {}, {}, {}, Absence::Unset, Standing::Memory, u"x"_s});
    set.document = sha256("its file");
    set = *withOwnLimit(set, Quantity::SideShare, 0.7, 0.95);

    const auto again =
        readKeptToleranceSet(QJsonDocument::fromJson(QJsonDocument(toJson(set)).toJson()).object());
    ASSERT_TRUE(again.set) << again.complaints.join(u'\n').toStdString();
    EXPECT_EQ(*again.set, set);

    set.position.reset();
    EXPECT_EQ(readKeptToleranceSet(toJson(set)).set, set);
}

TEST(ToleranceFileTest, IsRefusedInAnEntryWithoutTheHashOfItsFile)
{
    EXPECT_EQ(
        readKeptToleranceSet(with(toJson(*readToleranceSet(goodSet()).set), u"document_sha256"_s, u"ab"_s))
            .complaints,
        QStringList{u"document_sha256: must be 64 hexadecimal digits"_s});
}

class ToleranceFolderTest : public ::testing::Test {
protected:
    void write(const QString& name, const QByteArray& bytes)
    {
        QFile file(m_folder.filePath(name));
        ASSERT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(bytes);
    }
    void write(const QString& name, const QJsonObject& document)
    {
        write(name, QJsonDocument(document).toJson());
    }
    [[nodiscard]] ToleranceSetLoading load() const { return loadToleranceSets(m_folder.path()); }

    QTemporaryDir m_folder;
};

TEST_F(ToleranceFolderTest, LoadsTheGoodFilesAndRefusesTheBadOnesWithTheirReasons)
{
    write(u"a.json"_s, goodSet());
    write(u"b.json"_s, with(goodSet(), u"edition"_s, kGone));
    write(u"c.json"_s, QByteArray("{"));
    write(u"d.txt"_s, QByteArray("not looked at"));

    const auto loading = load();

    ASSERT_EQ(loading.sets.size(), 1u);
    EXPECT_EQ(loading.sets[0].document, sha256(QJsonDocument(goodSet()).toJson()));
    ASSERT_EQ(loading.refused.size(), 2u);
    EXPECT_EQ(loading.refused[0], (RefusedFile{u"b.json"_s, {u"edition: is missing"_s}}));
    EXPECT_EQ(loading.refused[1].file, u"c.json"_s);
    EXPECT_TRUE(loading.refused[1].reasons.value(0).startsWith(u"not JSON at byte 1"_s));
}

TEST_F(ToleranceFolderTest, RefusesBothFilesOfOneName)
{
    write(u"a.json"_s, goodSet());
    write(u"b.json"_s, goodSet());
    write(u"c.json"_s, with(goodSet(), u"id"_s, u"other"_s));

    const auto loading = load();

    ASSERT_EQ(loading.sets.size(), 1u);
    EXPECT_EQ(loading.sets[0].id, ToleranceSetId(u"other"_s));
    const QStringList reasons{u"id: test-set stands in more than one file: a.json, b.json"_s};
    EXPECT_EQ(loading.refused, (std::vector<RefusedFile>{{u"a.json"_s, reasons}, {u"b.json"_s, reasons}}));
}

TEST_F(ToleranceFolderTest, RefusesAFileTooLongToBeASet)
{
    write(u"a.json"_s, QByteArray(65'537, ' '));

    EXPECT_EQ(load().refused, (std::vector<RefusedFile>{{u"a.json"_s, {u"is longer than 65536 bytes"_s}}}));
}

TEST_F(ToleranceFolderTest, SaysThatThereIsNoFolder)
{
    EXPECT_EQ(loadToleranceSets(u"/no/such"_s).refused,
              (std::vector<RefusedFile>{{u"/no/such"_s, {u"no such folder"_s}}}));
}

// ---- What the program comes with
// --------------------------------------------------------------------------------

const ToleranceSetLoading& shipped()
{
    static const auto loading = loadToleranceSets(coldarc::test::sourceFile("resources/photometry"));
    return loading;
}

const ToleranceSet* shippedSet(const QString& id)
{
    const auto found = std::ranges::find(shipped().sets, ToleranceSetId(id), &ToleranceSet::id);
    return found == shipped().sets.end() ? nullptr : &*found;
}

TEST(ShippedToleranceSetsTest, AllLoad)
{
    for (const RefusedFile& refused : shipped().refused)
        ADD_FAILURE() << refused.file.toStdString() << ": " << refused.reasons.join(u'\n').toStdString();
    EXPECT_EQ(shipped().sets.size(), 10u);
}

struct PublishedLimit {
    const char* set;
    Quantity quantity;
    std::optional<double> least;
    std::optional<double> most;
    Standing standing;

    friend void PrintTo(const PublishedLimit& limit, std::ostream* out)
    {
        *out << limit.set << " " << wordOf(limit.quantity).toStdString();
    }
};

class PublishedLimitTest : public ::testing::TestWithParam<PublishedLimit> {};

TEST_P(PublishedLimitTest, StandsInTheFileAsPublished)
{
    const ToleranceSet* set = shippedSet(QString::fromLatin1(GetParam().set));
    ASSERT_TRUE(set);
    const Limit* limit = set->limitOn(GetParam().quantity);
    ASSERT_TRUE(limit);

    EXPECT_EQ(limit->least, GetParam().least);
    EXPECT_EQ(limit->most, GetParam().most);
    EXPECT_EQ(limit->standing, GetParam().standing);
    EXPECT_FALSE(limit->source.isEmpty());
}

constexpr auto kTwice = Standing::SecondHand;
// ISO 26431-1:2008 (READ-2): 48 +- 10.2 and 48 +- 3.5, sides 75 to 90 % and 80 to 90 %, white 0.314, 0.351 +-
// 0.006 and +- 0.002; the review room's figures are also in DCI CTP 7.5.8 and Table 7.5.15 (READ).
INSTANTIATE_TEST_SUITE_P(
    Digital, PublishedLimitTest,
    ::testing::Values(
        PublishedLimit{"digital-theatre", Quantity::CentreLuminance, 37.8, 58.2, kTwice},
        PublishedLimit{"digital-theatre", Quantity::SideShare, 0.75, 0.90, kTwice},
        PublishedLimit{"digital-theatre", Quantity::WhiteX, 0.308, 0.320, kTwice},
        PublishedLimit{"digital-theatre", Quantity::WhiteY, 0.345, 0.357, kTwice},
        PublishedLimit{"digital-theatre", Quantity::DarkLuminance, {}, 0.03, Standing::Memory},
        PublishedLimit{"digital-review-room", Quantity::CentreLuminance, 44.5, 51.5, Standing::Read},
        PublishedLimit{"digital-review-room", Quantity::SideShare, 0.80, 0.90, kTwice},
        PublishedLimit{"digital-review-room", Quantity::CornerShare, 0.80, 0.90, kTwice},
        PublishedLimit{"digital-review-room", Quantity::WhiteX, 0.312, 0.316, Standing::Read},
        PublishedLimit{"digital-review-room", Quantity::WhiteY, 0.349, 0.353, Standing::Read},
        PublishedLimit{"digital-review-room", Quantity::CornerColourOffset, {}, 0.008, Standing::Derived},
        PublishedLimit{"digital-laboratory", Quantity::Nonuniformity, {}, 20, Standing::Read},
        PublishedLimit{"digital-laboratory", Quantity::LargestColourDistance, {}, 0.0171, Standing::Read}));

// ISO 2910:1990 by way of GB/T 4645-1994: 50 +- 15, 50 +- 7, sides 50 to 85 %, 10 % apart. GB/T 4645-2006: 55
// +- 15, 55 +- 7, sides 60 to 85 %, 5400 +- 400 K. SMPTE RP 51-1995: 55 +- 7. All READ-2.
INSTANTIATE_TEST_SUITE_P(
    Film, PublishedLimitTest,
    ::testing::Values(PublishedLimit{"film-1990-theatre", Quantity::CentreLuminance, 35, 65, kTwice},
                      PublishedLimit{"film-1990-theatre", Quantity::SideShare, 0.50, 0.85, kTwice},
                      PublishedLimit{"film-1990-theatre", Quantity::SideDifference, {}, 0.10, kTwice},
                      PublishedLimit{"film-1990-review-room", Quantity::CentreLuminance, 43, 57, kTwice},
                      PublishedLimit{"film-2006-theatre", Quantity::CentreLuminance, 40, 70, kTwice},
                      PublishedLimit{"film-2006-theatre", Quantity::SideShare, 0.60, 0.85, kTwice},
                      PublishedLimit{"film-2006-theatre", Quantity::ColourTemperature, 5000, 5800, kTwice},
                      PublishedLimit{"film-2006-review-room", Quantity::CentreLuminance, 48, 62, kTwice},
                      PublishedLimit{"film-55-review-room", Quantity::CentreLuminance, 48, 62, kTwice},
                      PublishedLimit{"film-55-theatre", Quantity::CentreLuminance, 41, 75,
                                     Standing::Practice}));

TEST(ShippedToleranceSetsTest, LeaveTheTheatresColourUniformityUnset)
{
    const Limit* limit = shippedSet(u"digital-theatre"_s)->limitOn(Quantity::CornerColourOffset);
    ASSERT_TRUE(limit);
    EXPECT_EQ(limit->absence, Absence::Unset);
    EXPECT_FALSE(limit->least || limit->most);
}

TEST(ShippedToleranceSetsTest, DoNotSpecifyTheTheatresCorners)
{
    EXPECT_EQ(shippedSet(u"digital-theatre"_s)->limitOn(Quantity::CornerShare)->absence,
              Absence::NotSpecified);
}

TEST(ShippedToleranceSetsTest, LeaveTheTargetFor3dToTheUserAsPractice)
{
    const ToleranceSet* set = shippedSet(u"stereo-own-target"_s);
    ASSERT_TRUE(set);
    EXPECT_EQ(set->roomClass, RoomClass::Practice);
    EXPECT_EQ(set->picture, Picture::Stereo);
    EXPECT_EQ(set->limitOn(Quantity::CentreLuminance)->absence, Absence::Unset);
}

TEST(ShippedToleranceSetsTest, KeepTheThreeConventionsApart)
{
    EXPECT_EQ(shippedSet(u"digital-theatre"_s)->convention, Convention::FiveOfWidth);
    EXPECT_EQ(shippedSet(u"film-1990-theatre"_s)->convention, Convention::TwoSides);
    EXPECT_EQ(shippedSet(u"digital-laboratory"_s)->convention, Convention::TenthGrid);
}

} // namespace
} // namespace coldarc::photometry
