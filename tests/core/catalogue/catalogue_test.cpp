#include "core/catalogue/catalogue.h"

#include "core/base/json.h"
#include "tests/support/shipped_folder.h"

#include <QDir>
#include <QJsonArray>
#include <QJsonDocument>
#include <QSet>

#include <algorithm>

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;

namespace coldarc::catalogue {
namespace {

/// The shipped catalogue, copied into a folder where one file can be spoiled.
class CatalogueTest : public test::ShippedFolderTest {
protected:
    CatalogueTest()
        : ShippedFolderTest("resources/catalogue")
    {
    }
    [[nodiscard]] CatalogueLoading load() const { return loadCatalogue(folder.path()); }
};

TEST_F(CatalogueTest, LoadsWhatIsShippedWithoutAWord)
{
    const auto loading = load();

    EXPECT_TRUE(loading.complaints.isEmpty());
    EXPECT_TRUE(loading.notices.isEmpty());
    EXPECT_EQ(loading.catalogue.lampTypes().size(), 6);
    EXPECT_EQ(loading.catalogue.models().size(), 3);
    EXPECT_EQ(loading.catalogue.gear().size(), 5);
}

TEST_F(CatalogueTest, ShippedLampCodesHaveNineCharacters)
{
    const auto loading = load();

    for (const LampType& type : loading.catalogue.lampTypes())
        EXPECT_EQ(type.code.size(), 9) << type.code.toStdString();
}

TEST_F(CatalogueTest, EveryShippedFileSaysThatItIsInvented)
{
    for (const QString& name : QDir(folder.path()).entryList({u"*.json"_s}, QDir::Files)) {
        const QString note = parseObject(bytesOf(name))->value(u"note"_s).toString();
        EXPECT_TRUE(note.contains(u"nvented"_s)) << name.toStdString();
    }
}

TEST_F(CatalogueTest, ShippedModelsReallyDiffer)
{
    const auto loading = load();
    const ProjectorModel& teal = *loading.catalogue.model(ModelId(u"larkmoor-teal"_s));
    const ProjectorModel& pair = *loading.catalogue.model(ModelId(u"quillhaven-pair"_s));
    const ProjectorModel& nook = *loading.catalogue.model(ModelId(u"sedgebrook-nook"_s));

    ASSERT_TRUE(teal.adaptor);
    EXPECT_EQ(teal.adaptor->end, LampEnd::Cathode);
    EXPECT_TRUE(teal.needsAdaptor(LampTypeId(u"hollin-30s"_s)));
    EXPECT_FALSE(teal.needsAdaptor(LampTypeId(u"hollin-30b"_s)));
    EXPECT_EQ(teal.isolation.size(), 2);
    EXPECT_EQ(pair.lamphouses.size(), 2);
    EXPECT_EQ(pair.isolation.first().lamphouses, pair.lamphouses);
    EXPECT_FALSE(nook.hasHousing);
    EXPECT_EQ(teal.coolFan, 12min);
    EXPECT_EQ(teal.coolUnforced, 45min);

    const auto differ = [&](auto of) {
        return of(teal) != of(pair) && of(pair) != of(nook) && of(teal) != of(nook);
    };
    EXPECT_TRUE(differ([](const ProjectorModel& model) { return model.coolFan; }));
    EXPECT_TRUE(differ([](const ProjectorModel& model) { return model.coolUnforced; }));
    EXPECT_TRUE(differ([](const ProjectorModel& model) { return model.bleed; }));
    EXPECT_TRUE(differ([](const ProjectorModel& model) { return model.settle; }));
    EXPECT_TRUE(differ([](const ProjectorModel& model) { return model.strikePause; }));
    EXPECT_TRUE(differ([](const ProjectorModel& model) { return model.fastenerTotal(); }));
    EXPECT_TRUE(differ([](const ProjectorModel& model) { return model.axes.first().axis; }));
}

TEST_F(CatalogueTest, RefusesAModelWhoseStepNoHandRepeats)
{
    const auto file = u"model-larkmoor-teal.json"_s;
    write(file, bytesOf(file).replace(R"("along", "step_turns": 0.5)", R"("along", "step_turns": 0.3)"));

    const auto loading = load();

    EXPECT_FALSE(loading.catalogue.model(ModelId(u"larkmoor-teal"_s)));
    ASSERT_EQ(loading.complaints.size(), 1);
    EXPECT_EQ(loading.complaints.first().place, u"axes[0].step_turns"_s);
}

TEST_F(CatalogueTest, KeepsTheExactBytesAndTheirHash)
{
    const auto loading = load();

    const Document document = loading.catalogue.document(LampTypeId(u"hollin-21"_s));

    EXPECT_EQ(document.text, bytesOf(u"lamp-hollin-21.json"_s));
    EXPECT_EQ(document.hash, sha256(document.text));
    EXPECT_FALSE(loading.catalogue.document(ModelId(u"larkmoor-teal"_s)).text.isEmpty());
    EXPECT_FALSE(loading.catalogue.gearDocument().text.isEmpty());
}

TEST_F(CatalogueTest, FindsALampTypeByItsMarkingAndByItsPackage)
{
    const auto loading = load();
    const LampType& type = *loading.catalogue.lampType(LampTypeId(u"hollin-30b"_s));

    EXPECT_EQ(loading.catalogue.lampTypeWithCode(u"HVQ30-40B"_s), &type);
    EXPECT_EQ(loading.catalogue.lampTypeWithCode(type.packageCodes.first()), &type);
    EXPECT_EQ(loading.catalogue.lampTypeWithCode(u"HVQ30-40b"_s), nullptr);
}

TEST_F(CatalogueTest, RefusesABadFileAndLoadsTheOthers)
{
    write(u"lamp-isling-16.json"_s, bytesOf(u"lamp-isling-16.json"_s).replace("mercury-xenon", "helium"));
    QFile::remove(path(u"model-sedgebrook-nook.json"_s)); // it takes that lamp

    const auto loading = load();

    EXPECT_EQ(loading.complaints, (QList<FileRemark>{{u"lamp-isling-16.json"_s, u"fill"_s,
                                                      u"must be one of xenon, mercury-xenon"_s}}));
    EXPECT_EQ(loading.catalogue.lampTypes().size(), 5);
    EXPECT_EQ(loading.catalogue.models().size(), 2);
}

TEST_F(CatalogueTest, RefusesAFileCutInHalf)
{
    const QByteArray whole = bytesOf(u"model-larkmoor-teal.json"_s);
    write(u"model-larkmoor-teal.json"_s, whole.left(whole.size() / 2));

    const auto loading = load();

    ASSERT_EQ(loading.complaints.size(), 1);
    EXPECT_EQ(loading.complaints.first().file, u"model-larkmoor-teal.json"_s);
    EXPECT_EQ(loading.catalogue.model(ModelId(u"larkmoor-teal"_s)), nullptr);
    EXPECT_EQ(loading.catalogue.models().size(), 2);
}

TEST_F(CatalogueTest, RefusesAFileOfNoKnownKind)
{
    write(u"stray.json"_s, R"({"kind": "screen"})");

    const auto loading = load();

    EXPECT_EQ(loading.complaints,
              (QList<FileRemark>{
                  {u"stray.json"_s, u"kind"_s, u"must be one of lamp-type, projector-model, gear"_s}}));
}

TEST_F(CatalogueTest, RefusesBothFilesOfOneModelId)
{
    write(u"model-copy.json"_s, bytesOf(u"model-larkmoor-teal.json"_s));

    const auto loading = load();

    const QString reason =
        u"larkmoor-teal stands in more than one file: model-copy.json, model-larkmoor-teal.json"_s;
    EXPECT_EQ(loading.complaints, (QList<FileRemark>{{u"model-copy.json"_s, u"id"_s, reason},
                                                     {u"model-larkmoor-teal.json"_s, u"id"_s, reason}}));
    EXPECT_EQ(loading.catalogue.model(ModelId(u"larkmoor-teal"_s)), nullptr);
}

TEST_F(CatalogueTest, RefusesTwoLampTypesWithACodeInCommon)
{
    QFile::remove(path(u"model-quillhaven-pair.json"_s)); // it takes both
    write(u"lamp-tarnwick-65.json"_s, bytesOf(u"lamp-tarnwick-65.json"_s).replace("TWA-K65R5", "TWA-K42R5"));

    const auto loading = load();

    ASSERT_EQ(loading.complaints.size(), 2);
    EXPECT_EQ(loading.complaints.first().place, u"code"_s);
    EXPECT_EQ(loading.catalogue.lampTypeWithCode(u"TWA-K42R5"_s), nullptr);
}

TEST_F(CatalogueTest, RefusesAModelThatNamesALampTypeNobodyLoaded)
{
    QFile::remove(path(u"lamp-hollin-30s.json"_s));

    const auto loading = load();

    EXPECT_EQ(loading.complaints, (QList<FileRemark>{{u"model-larkmoor-teal.json"_s, u"lamp_types"_s,
                                                      u"no lamp type hollin-30s was loaded"_s}}));
    EXPECT_EQ(loading.catalogue.model(ModelId(u"larkmoor-teal"_s)), nullptr);
}

TEST_F(CatalogueTest, PassesOnTheNoticeOfTheFloor)
{
    write(u"model-sedgebrook-nook.json"_s,
          bytesOf(u"model-sedgebrook-nook.json"_s).replace("\"cool_fan_s\": 600", "\"cool_fan_s\": 120"));

    const auto loading = load();

    EXPECT_TRUE(loading.complaints.isEmpty());
    EXPECT_EQ(loading.notices, (QList<FileRemark>{{u"model-sedgebrook-nook.json"_s, u"cool_fan_s"_s,
                                                   u"120 s is below the floor, 600 s are used"_s}}));
    EXPECT_EQ(loading.catalogue.model(ModelId(u"sedgebrook-nook"_s))->coolFan, 600s);
}

TEST_F(CatalogueTest, ComplainsOfAFolderWithoutGear)
{
    QFile::remove(path(u"gear.json"_s));

    const auto loading = load();

    EXPECT_EQ(loading.complaints, (QList<FileRemark>{{folder.path(), {}, u"no gear file was loaded"_s}}));
}

TEST_F(CatalogueTest, RefusesASecondGearFile)
{
    write(u"gear-too.json"_s, bytesOf(u"gear.json"_s));

    const auto loading = load();

    EXPECT_EQ(loading.complaints.size(), 2);
    EXPECT_TRUE(loading.catalogue.gear().isEmpty());
}

TEST_F(CatalogueTest, ComplainsOfAFolderThatIsNotThere)
{
    const auto loading = loadCatalogue(path(u"nowhere"_s));

    EXPECT_EQ(loading.complaints, (QList<FileRemark>{{path(u"nowhere"_s), {}, u"no such folder"_s}}));
}

TEST(GearTest, RefusesToLeaveOutOrToMakeOptionalWhatTheFloorAsks)
{
    const auto gearWith = [](const QString& left, bool required) {
        QJsonArray list;
        for (const QString& id : {u"face-shield"_s, u"safety-glasses"_s, u"gauntlets"_s, u"jacket"_s}) {
            if (id != left || !required)
                list.append(
                    QJsonObject{{u"id"_s, id}, {u"name"_s, id}, {u"required"_s, id != left || required}});
        }
        return readGear({{u"kind"_s, u"gear"_s}, {u"gear"_s, list}});
    };

    EXPECT_TRUE(gearWith(u"nothing"_s, true).value);
    for (const QString& id : {u"face-shield"_s, u"safety-glasses"_s, u"gauntlets"_s, u"jacket"_s}) {
        const QStringList expected{u"gear: %1 must be there and required"_s.arg(id)};
        EXPECT_EQ(gearWith(id, true).complaints, expected);
        EXPECT_EQ(gearWith(id, false).complaints, expected);
    }
}

TEST(GearTest, IsTheSameAfterBeingWrittenAndReadAgain)
{
    const QList<GearKind> gear = loadCatalogue(test::sourceFile("resources/catalogue")).catalogue.gear();

    EXPECT_EQ(readGear(toJson(gear)).value, gear);
}

TEST(GearTest, RefusesAnIdThatStandsTwice)
{
    QJsonObject document = toJson(loadCatalogue(test::sourceFile("resources/catalogue")).catalogue.gear());
    QJsonArray list = document.value(u"gear"_s).toArray();
    list.append(list.first());
    document.insert(u"gear"_s, list);

    EXPECT_EQ(readGear(document).complaints, QStringList{u"gear[5].id: jacket stands here twice"_s});
}

} // namespace
} // namespace coldarc::catalogue
