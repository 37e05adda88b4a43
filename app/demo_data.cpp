#include "app/demo_data.h"

#include "core/base/json.h"
#include "core/catalogue/words.h"
#include "core/site/site_file.h"

#include <QDir>
#include <QFile>
#include <QTime>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::app {
namespace {

using TwistKind = DemoTwist::Kind;

constexpr catalogue::Words<TwistKind, 8> kTwists{{{TwistKind::Note, u"note"},
                                                  {TwistKind::SerialMisread, u"serial-misread"},
                                                  {TwistKind::ReadingWithdrawn, u"reading-withdrawn"},
                                                  {TwistKind::NoLight, u"no-light"},
                                                  {TwistKind::Owed, u"owed"},
                                                  {TwistKind::MakeSafe, u"make-safe"},
                                                  {TwistKind::Leave, u"leave"},
                                                  {TwistKind::Addendum, u"addendum"}}};

/// Days and months that a demo can reasonably reach. No source.
constexpr int kMostDays = 4000;
constexpr int kMostMonths = 240;

/// One file of the folder, read once with all its complaints.
class File {
public:
    File(const QString& folder, const QString& name, const QString& kind, QStringList& complaints)
        : m_complaints(complaints)
    {
        QFile file(QDir(folder).filePath(name));
        if (!file.open(QIODevice::ReadOnly)) {
            m_error = Error{Error::Kind::NotFound, file.fileName()};
            return;
        }
        const auto object = parseObject(file.readAll());
        if (!object) {
            m_error = Error{Error::Kind::Malformed, name + u": "_s + object.error().detail};
            return;
        }
        m_reader.emplace(*object, name, complaints);
        if (m_reader->text(u"kind"_s) != kind)
            m_reader->complain(u"kind"_s, u"must be "_s + kind);
        if (!m_reader->text(u"note"_s).contains(u"invented"_s, Qt::CaseInsensitive))
            m_reader->complain(u"note"_s, u"says that this is invented"_s);
    }

    [[nodiscard]] bool isThere() const { return m_reader.has_value(); }
    [[nodiscard]] JsonReader& reader() { return *m_reader; }
    [[nodiscard]] const std::optional<Error>& error() const { return m_error; }

    /// Finishes the file; an error if it or an earlier one had complaints.
    [[nodiscard]] Result<void> finish()
    {
        if (m_error)
            return tl::unexpected(*m_error);
        m_reader->finish();
        if (!m_complaints.isEmpty())
            return fail(Error::Kind::Malformed, m_complaints.join(u'\n'));
        return {};
    }

private:
    QStringList& m_complaints;
    std::optional<JsonReader> m_reader;
    std::optional<Error> m_error;
};

template<class Read>
void forEach(const QList<JsonReader::Child>& children, QStringList& complaints, Read read)
{
    for (const JsonReader::Child& child : children) {
        JsonReader reader(child.object, child.place, complaints);
        read(reader);
        reader.finish();
    }
}

int days(JsonReader& reader, const QString& key)
{
    return static_cast<int>(reader.whole(key, -kMostDays, kMostDays));
}

/// The value that a word names, or `otherwise` after a complaint.
template<class Value>
Value named(JsonReader& reader, const QString& key, const std::optional<Value>& found, Value otherwise)
{
    if (!found)
        reader.complain(key, u"is no word for it"_s);
    return found.value_or(otherwise);
}

DemoPerson::Grant readGrant(JsonReader& reader)
{
    DemoPerson::Grant grant;
    grant.duty = named(reader, u"duty"_s, people::dutyFromWord(reader.text(u"duty"_s).toStdString()),
                       people::Duty::LampSwap);
    if (reader.has(u"models"_s)) {
        grant.models.emplace();
        for (const QString& model : reader.texts(u"models"_s))
            grant.models->push_back(ModelId(model));
    }
    grant.fromDays = days(reader, u"from_days"_s);
    grant.untilDays = days(reader, u"until_days"_s);
    return grant;
}

DemoPerson readPerson(JsonReader& reader, QStringList& complaints)
{
    DemoPerson one;
    one.person.id = PersonId(reader.text(u"id"_s));
    one.person.name = reader.text(u"name"_s);
    one.person.role = named(reader, u"role"_s, people::roleFromWord(reader.text(u"role"_s).toStdString()),
                            people::Role::Trainee);
    one.person.phone = reader.textOr(u"phone"_s, {});
    one.person.email = reader.textOr(u"email"_s, {});
    one.passphrase = reader.text(u"passphrase"_s);
    one.pin = reader.text(u"pin"_s);
    forEach(reader.children(u"authorisations"_s), complaints,
            [&](JsonReader& grant) { one.grants.append(readGrant(grant)); });
    return one;
}

DemoGear readGear(JsonReader& reader)
{
    const auto months = [&](const QString& key) -> std::optional<int> {
        if (!reader.has(key))
            return std::nullopt;
        return static_cast<int>(reader.whole(key, -kMostMonths, kMostMonths));
    };
    DemoGear gear;
    gear.id = GearId(reader.text(u"id"_s));
    gear.kind = reader.text(u"kind"_s);
    gear.marking = reader.text(u"marking"_s);
    gear.identifier = reader.text(u"identifier"_s);
    gear.madeMonths = months(u"made_months"_s);
    gear.expiresMonths = months(u"expires_months"_s);
    gear.wearer = PersonId(reader.textOr(u"wearer"_s, {}));
    gear.inspectedDays = days(reader, u"inspected_days"_s);
    gear.inspectedBy = PersonId(reader.text(u"inspected_by"_s));
    gear.isPassed = reader.flag(u"passed"_s);
    return gear;
}

QList<int> readMinutes(JsonReader& reader, const QString& key)
{
    QList<int> minutes;
    for (const QJsonValue& value : reader.value(key).toArray()) {
        if (!value.isDouble())
            reader.complain(key, u"is a list of minutes"_s);
        minutes.append(value.toInt());
    }
    return minutes;
}

Result<DemoSite> readSite(const QString& folder, const QString& name)
{
    QStringList complaints;
    File file(folder, name, u"demo-site"_s, complaints);
    DemoSite one;
    if (file.isThere()) {
        const auto document = site::siteFromJson(file.reader().child(u"site"_s).object);
        if (!document)
            return fail(Error::Kind::Malformed, name + u": "_s + document.error().detail);
        one.document = *document;
        forEach(file.reader().children(u"shows"_s), complaints, [&](JsonReader& shows) {
            const ScreenId screen(shows.text(u"screen"_s));
            if (!one.document.screen(screen))
                shows.complain(u"screen"_s, u"is none of this site"_s);
            one.shows.insert(screen, readMinutes(shows, u"from_now_min"_s));
        });
    }
    if (auto finished = file.finish(); !finished)
        return tl::unexpected(finished.error());
    return one;
}

Result<QList<DemoSite>> readSites(const QString& folder)
{
    QList<DemoSite> sites;
    for (const QString& name : QDir(folder).entryList({u"site-*.json"_s}, QDir::Files, QDir::Name)) {
        auto one = readSite(folder, name);
        if (!one)
            return tl::unexpected(one.error());
        sites.append(*one);
    }
    if (sites.isEmpty())
        return fail(Error::Kind::NotFound, folder + u"/site-*.json"_s);
    return sites;
}

DemoLamps::Fitted readFitted(JsonReader& reader)
{
    return {LamphouseId(reader.text(u"lamphouse"_s)), LampTypeId(reader.text(u"type"_s)),
            reader.text(u"serial"_s), reader.number(u"hours_at_end"_s, 0, 100'000)};
}

DemoLamps::Stock readStock(JsonReader& reader)
{
    DemoLamps::Stock stock;
    stock.type = LampTypeId(reader.text(u"type"_s));
    stock.serial = reader.textOr(u"serial"_s, {});
    stock.custody = named(reader, u"custody"_s, lamps::custodyFromWord(reader.text(u"custody"_s)),
                          lamps::Custody::InStock);
    stock.holder = PersonId(reader.textOr(u"holder"_s, {}));
    stock.days = days(reader, u"days"_s);
    return stock;
}

Result<DemoLamps> readLamps(const QString& folder)
{
    QStringList complaints;
    File file(folder, u"lamps.json"_s, u"demo-lamps"_s, complaints);
    DemoLamps lamps;
    if (file.isThere()) {
        JsonReader& reader = file.reader();
        lamps.historyWeeks = static_cast<int>(reader.whole(u"history_weeks"_s, 1, 200));
        lamps.weeklySpread = reader.number(u"weekly_spread"_s, 0, 1);
        const JsonReader::Child child = reader.child(u"alert"_s);
        JsonReader alert(child.object, child.place, complaints);
        lamps.lookGapWeeks = alert.number(u"look_gap_weeks"_s, 0, 52);
        lamps.leadWeeks = alert.number(u"lead_weeks"_s, 0, 52);
        lamps.leadDeviationWeeks = alert.number(u"lead_deviation_weeks"_s, 0, 52);
        lamps.level = alert.number(u"level"_s, 0.5, 0.999);
        alert.finish();
        forEach(reader.children(u"fitted"_s), complaints,
                [&](JsonReader& one) { lamps.fitted.append(readFitted(one)); });
        forEach(reader.children(u"stock"_s), complaints,
                [&](JsonReader& one) { lamps.stock.append(readStock(one)); });
    }
    if (auto finished = file.finish(); !finished)
        return tl::unexpected(finished.error());
    return lamps;
}

DemoTwist readTwist(JsonReader& reader)
{
    DemoTwist twist;
    twist.kind =
        named(reader, u"kind"_s, catalogue::valueIn(kTwists, reader.text(u"kind"_s)), TwistKind::Note);
    twist.text = reader.textOr(u"text"_s, {});
    twist.reason = reader.textOr(u"reason"_s, {});
    twist.answer = reader.textOr(u"answer"_s, {});
    twist.before = reader.textOr(u"before"_s, {});
    twist.read = reader.textOr(u"read"_s, {});
    twist.source = reader.textOr(u"source"_s, {});
    if (reader.has(u"incident"_s))
        twist.incident = named(reader, u"incident"_s, visit::incidentFromWord(reader.text(u"incident"_s)),
                               visit::Incident::NoTimeLeft);
    return twist;
}

constexpr double kMostReviewDays = 30;

DemoReview readReview(JsonReader& reader)
{
    DemoReview review;
    review.by = PersonId(reader.text(u"by"_s));
    review.days = static_cast<int>(reader.number(u"days"_s, 1, kMostReviewDays));
    review.verdict = named(reader, u"verdict"_s, record::verdictFromWord(reader.text(u"verdict"_s)),
                           record::Verdict::Accepted);
    review.text = reader.textOr(u"text"_s, {});
    review.remark = reader.textOr(u"remark"_s, {});
    return review;
}

DemoVisit readVisit(JsonReader& reader, QStringList& complaints)
{
    DemoVisit visit;
    visit.days = days(reader, u"days"_s);
    const QTime at = QTime::fromString(reader.text(u"at"_s), u"HH:mm"_s);
    if (!at.isValid())
        reader.complain(u"at"_s, u"is a time of day, hh:mm"_s);
    visit.minuteOfDay = at.msecsSinceStartOfDay() / 60'000;
    visit.site = SiteId(reader.text(u"site"_s));
    visit.reason = reader.text(u"reason"_s);
    for (const QString& person : reader.texts(u"crew"_s))
        visit.crew.append(PersonId(person));
    forEach(reader.children(u"swaps"_s), complaints, [&](JsonReader& swap) {
        visit.swaps.append(
            {LamphouseId(swap.text(u"lamphouse"_s)), LampTypeId(swap.text(u"type"_s)), swap.text(u"serial"_s),
             named(swap, u"cause"_s, lamps::causeFromWord(swap.text(u"cause"_s)), lamps::Cause::Other)});
    });
    forEach(reader.childrenOr(u"twists"_s), complaints,
            [&](JsonReader& twist) { visit.twists.append(readTwist(twist)); });
    forEach(reader.childrenOr(u"reviews"_s), complaints,
            [&](JsonReader& review) { visit.review = readReview(review); });
    return visit;
}

DemoPlan readPlan(JsonReader& reader, QStringList& complaints)
{
    DemoPlan plan;
    plan.days = days(reader, u"days"_s);
    plan.site = SiteId(reader.text(u"site"_s));
    plan.reason = reader.text(u"reason"_s);
    forEach(reader.children(u"swaps"_s), complaints, [&](JsonReader& swap) {
        plan.swaps.append({LamphouseId(swap.text(u"lamphouse"_s)), swap.textOr(u"serial"_s, {})});
    });
    return plan;
}

Result<void> readVisits(const QString& folder, DemoData& data)
{
    QStringList complaints;
    File file(folder, u"visits.json"_s, u"demo-visits"_s, complaints);
    if (file.isThere()) {
        JsonReader& reader = file.reader();
        forEach(reader.children(u"planned"_s), complaints,
                [&](JsonReader& one) { data.plans.append(readPlan(one, complaints)); });
        forEach(reader.children(u"made"_s), complaints,
                [&](JsonReader& one) { data.visits.append(readVisit(one, complaints)); });
        const JsonReader::Child child = reader.child(u"unfinished"_s);
        JsonReader unfinished(child.object, child.place, complaints);
        data.visits.append(readVisit(unfinished, complaints));
        unfinished.finish();
    }
    return file.finish();
}

Result<DemoAnswers> readAnswers(const QString& folder)
{
    QStringList complaints;
    File file(folder, u"answers.json"_s, u"demo-answers"_s, complaints);
    DemoAnswers answers;
    if (file.isThere()) {
        const JsonReader::Child texts = file.reader().child(u"answers"_s);
        JsonReader reader(texts.object, texts.place, complaints);
        for (const QString& key : texts.object.keys())
            answers.texts.insert(key, reader.texts(key));
        reader.finish();
        answers.varied = file.reader().texts(u"varied"_s);
        const JsonReader::Child causes = file.reader().child(u"causes"_s);
        JsonReader words(causes.object, causes.place, complaints);
        for (const QString& key : causes.object.keys())
            answers.causes.insert(key, words.text(key));
        words.finish();
    }
    if (auto finished = file.finish(); !finished)
        return tl::unexpected(finished.error());
    return answers;
}

Result<QList<DemoGear>> readAllGear(const QString& folder)
{
    QStringList complaints;
    File file(folder, u"gear.json"_s, u"demo-gear"_s, complaints);
    QList<DemoGear> gear;
    if (file.isThere()) {
        forEach(file.reader().children(u"gear"_s), complaints,
                [&](JsonReader& one) { gear.append(readGear(one)); });
    }
    if (auto finished = file.finish(); !finished)
        return tl::unexpected(finished.error());
    return gear;
}

/// Puts what was read in its place, or gives back the error.
template<class Value>
Result<void> into(Value& place, Result<Value> read)
{
    if (!read)
        return tl::unexpected(read.error());
    place = std::move(*read);
    return {};
}

} // namespace

site::SiteDocument DemoSite::at(WallTime moment) const
{
    constexpr std::chrono::minutes kStep(5);
    site::SiteDocument there = document;
    for (site::Screen& screen : there.screens) {
        for (const int minutes : shows.value(screen.id)) {
            const auto start = moment + std::chrono::minutes(minutes);
            screen.showStarts.push_back(start - start.time_since_epoch() % kStep);
        }
    }
    return there;
}

const DemoTwist* DemoVisit::twist(DemoTwist::Kind kind) const
{
    const auto found = std::ranges::find(twists, kind, &DemoTwist::kind);
    return found == twists.end() ? nullptr : &*found;
}

bool DemoVisit::doesSwap() const
{
    return !twist(DemoTwist::Kind::MakeSafe) && !twist(DemoTwist::Kind::Leave);
}

const DemoSite* DemoData::site(const SiteId& id) const
{
    const auto found =
        std::ranges::find_if(sites, [&](const DemoSite& one) { return one.document.site.id == id; });
    return found == sites.end() ? nullptr : &*found;
}

Result<DemoPeople> readDemoPeople(const QString& folder)
{
    QStringList complaints;
    File file(folder, u"people.json"_s, u"demo-people"_s, complaints);
    DemoPeople people;
    if (file.isThere()) {
        people.chain = file.reader().text(u"chain"_s);
        const JsonReader::Child office = file.reader().child(u"office"_s);
        JsonReader reader(office.object, office.place, complaints);
        people.office = reader.text(u"name"_s);
        people.officePassphrase = reader.text(u"passphrase"_s);
        reader.finish();
        forEach(file.reader().children(u"people"_s), complaints,
                [&](JsonReader& one) { people.people.append(readPerson(one, complaints)); });
    }
    if (auto finished = file.finish(); !finished)
        return tl::unexpected(finished.error());
    return people;
}

Result<DemoData> readDemoData(const QString& folder)
{
    DemoData data;
    for (const Result<void>& read :
         {into(data.people, readDemoPeople(folder)), into(data.gear, readAllGear(folder)),
          into(data.sites, readSites(folder)), into(data.lamps, readLamps(folder)),
          into(data.answers, readAnswers(folder)), readVisits(folder, data)}) {
        if (!read)
            return tl::unexpected(read.error());
    }
    return data;
}

} // namespace coldarc::app
