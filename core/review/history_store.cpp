#include "core/review/history_store.h"

#include "core/label/normalise.h"
#include "core/people/jws.h"
#include "core/people/office_store.h"
#include "core/people/people_store.h"
#include "core/site/site_store.h"
#include "core/store/journal.h"
#include "core/visit/evolve.h"
#include "core/visit/owed_store.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

#include <algorithm>
#include <iterator>
#include <tuple>

using namespace Qt::StringLiterals;

namespace coldarc::review {
namespace {

using store::Row;

constexpr int kMostWords = 4; // more than that nobody types; the text of a statement holds this many

template<class Tag>
QVariant orNull(const Id<Tag>& id)
{
    return id.isEmpty() ? store::sqlNull() : QVariant(id.text());
}

std::optional<double> numberIn(const QJsonObject& object, const QString& key)
{
    return object.contains(key) ? std::optional(object.value(key).toDouble()) : std::nullopt;
}

void putNumber(QJsonObject& object, const QString& key, const std::optional<double>& number)
{
    if (number)
        object.insert(key, *number);
}

QStringList textsIn(const QJsonObject& object, const QString& key)
{
    QStringList texts;
    for (const QJsonValue& one : object.value(key).toArray())
        texts.append(one.toString());
    return texts;
}

QJsonObject toJson(const Exception& one)
{
    QJsonObject object{{u"kind"_s, wordOf(one.kind)},    {u"entry"_s, one.entry},
                       {u"other"_s, one.other},          {u"swap"_s, one.swap.text()},
                       {u"person"_s, one.person.text()}, {u"words"_s, QJsonArray::fromStringList(one.words)}};
    putNumber(object, u"figure"_s, one.figure);
    putNumber(object, u"against"_s, one.against);
    return object;
}

std::optional<Exception> exceptionFrom(const QJsonObject& object)
{
    const auto kind = kindFromWord(object.value(u"kind"_s).toString());
    if (!kind)
        return std::nullopt;
    return Exception{*kind,
                     object.value(u"entry"_s).toInteger(),
                     object.value(u"other"_s).toInteger(),
                     SwapId(object.value(u"swap"_s).toString()),
                     PersonId(object.value(u"person"_s).toString()),
                     textsIn(object, u"words"_s),
                     numberIn(object, u"figure"_s),
                     numberIn(object, u"against"_s)};
}

QString detailOf(const HistoryLine& line)
{
    QJsonObject object;
    if (!line.other.isEmpty())
        object.insert(u"other"_s, line.other.text());
    if (!line.words.isEmpty())
        object.insert(u"words"_s, QJsonArray::fromStringList(line.words));
    putNumber(object, u"figure"_s, line.figure);
    putNumber(object, u"against"_s, line.against);
    if (line.unusual)
        object.insert(u"unusual"_s, toJson(*line.unusual));
    return QString::fromUtf8(QJsonDocument(object).toJson(QJsonDocument::Compact));
}

Result<HistoryLine> lineFrom(const Row& row)
{
    const auto kind = historyKindFromWord(row.text(u"kind"));
    const QJsonObject detail = QJsonDocument::fromJson(row.text(u"detail").toUtf8()).object();
    if (!kind)
        return fail(Error::Kind::Malformed, u"history_line.kind: "_s + row.text(u"kind"));
    HistoryLine line{*kind, wallOf(row.whole(u"at_ms")), VisitId(row.text(u"visit_id")),
                     row.whole(u"entry_seq")};
    line.lamp = LampId(row.text(u"lamp_id"));
    line.lamphouse = LamphouseId(row.text(u"lamphouse_id"));
    line.person = PersonId(row.text(u"person_id"));
    line.other = PersonId(detail.value(u"other"_s).toString());
    line.figure = numberIn(detail, u"figure"_s);
    line.against = numberIn(detail, u"against"_s);
    line.words = textsIn(detail, u"words"_s);
    if (detail.contains(u"unusual"_s))
        line.unusual = exceptionFrom(detail.value(u"unusual"_s).toObject());
    return line;
}

Result<Subject> subjectFrom(const Row& row)
{
    const auto about = aboutFromWord(row.text(u"about"));
    if (!about)
        return fail(Error::Kind::Malformed, u"history_subject.about"_s);
    return Subject{*about,
                   row.text(u"subject_id"),
                   row.text(u"name"),
                   row.text(u"more"),
                   row.text(u"type_id"),
                   wallOf(row.whole(u"seen_at_ms"))};
}

/// By which two lamps of two workspaces are one; empty: no serial or no type is known.
QString twinKey(const QString& type, const QString& serial)
{
    const QString key = label::normalise(serial);
    return type.isEmpty() || key.isEmpty() ? QString() : type + u'\n' + key;
}

/// What offices say, or said while they were believed, of the keys of somebody.
Result<people::Trust> saidOfKeys(const people::OfficeStore& offices, const PersonId& person,
                                 const std::vector<people::EnrolledKey>& own)
{
    const auto known = offices.offices();
    const auto certificates = offices.certificatesOf(person);
    if (!known || !certificates)
        return tl::unexpected(known ? certificates.error() : known.error());
    std::vector<people::PublicKey> all;
    for (const people::Office& office : *known)
        all.push_back(office.key);
    people::Trust heard(all);
    std::set<people::PublicKey> keys;
    for (const people::EnrolledKey& one : own)
        keys.insert(one.publicKey);
    for (const people::Certificate& one : *certificates) {
        heard.add(one);
        if (const auto said = people::saidBy(one))
            keys.insert(said->enrolment.key);
    }
    for (const people::PublicKey& key : keys) {
        const auto retirements = offices.retirementsOf(key);
        if (!retirements)
            return tl::unexpected(retirements.error());
        for (const people::SignedRetirement& one : *retirements)
            heard.add(one);
    }
    return heard;
}

QString searchedOf(const Subject& subject)
{
    QStringList parts{subject.name.toLower(), subject.more.toLower()};
    if (subject.about == About::Lamp)
        parts << label::normalise(subject.name).toLower() << label::normalise(subject.more).toLower();
    return parts.join(u' ');
}

Subject subjectOf(const lamps::LampInCustody& one)
{
    return {About::Lamp, one.lamp.id.text(), one.lamp.serial, one.lamp.type.text(), one.lamp.type.text()};
}

Subject subjectOf(const people::Person& person)
{
    const auto role = people::wordOf(person.role);
    return {About::Person, person.id.text(), person.name,
            QString::fromLatin1(role.data(), static_cast<qsizetype>(role.size()))};
}

bool holdsAll(const Subject& subject, const QStringList& words)
{
    const QString text = searchedOf(subject);
    return std::ranges::all_of(words, [&](const QString& word) { return text.contains(word); });
}

/// As they are compared: small letters, and no more than a statement has room for.
QStringList wordsIn(About about, const QString& text)
{
    QStringList words;
    for (const QString& word : text.toLower().split(u' ', Qt::SkipEmptyParts)) {
        const QString key = about == About::Lamp ? label::normalise(word).toLower() : QString();
        words.append(key.isEmpty() ? word : key);
    }
    return words.mid(0, kMostWords);
}

/// Which lines are of a subject, by the word of what it is.
QString linesOfSubject(About about)
{
    static constexpr std::array kColumns{"lamp_id IN (SELECT value FROM json_each(:ids))",
                                         "lamphouse_id = :ids", "person_id = :ids"};
    return QLatin1StringView(kColumns.at(static_cast<std::size_t>(about)));
}

const QString kLine = u"SELECT visit_id, entry_seq, at_ms, kind, lamp_id, lamphouse_id, person_id, detail "
                      "FROM history_line WHERE "_s;
const QString kNewest = u" ORDER BY at_ms DESC, entry_seq DESC, visit_id, position DESC"_s;
const QString kSubject = u"SELECT about, subject_id, name, more, type_id, seen_at_ms FROM history_subject "_s;

} // namespace

const Subject* HistoryPage::find(About about, const QString& id) const
{
    const auto found = named.constFind({about, id});
    return found == named.constEnd() ? nullptr : &*found;
}

// ---- Out of the logbooks ----------------------------------------------------------------------------------

Result<HistoryReach> HistoryStore::reach() const
{
    const auto counted = m_database->run(
        u"SELECT count(*) - coalesce(sum(is_unread), 0) AS due, coalesce(sum(is_unread), 0) AS unread "
        "FROM history_due"_s);
    if (!counted)
        return tl::unexpected(counted.error());
    return HistoryReach{counted->rows.front().whole(u"due"), counted->rows.front().whole(u"unread")};
}

Result<HistoryReach> HistoryStore::catchUp(int most)
{
    const auto due = m_database->run(u"SELECT visit_id FROM history_due WHERE is_unread = 0 LIMIT :most"_s,
                                     {{u":most"_s, most}});
    if (!due)
        return tl::unexpected(due.error());
    for (const Row& row : due->rows) {
        const VisitId visit(row.text(u"visit_id"));
        if (auto made = m_database->transaction([&] { return make(visit); }); !made)
            return tl::unexpected(made.error());
    }
    return reach();
}

Result<void> HistoryStore::make(const VisitId& visit)
{
    const auto stored = store::Journal(*m_database).entries(visit);
    if (!stored && isOfTheDisk(stored.error()))
        return tl::unexpected(stored.error());
    const auto entries = stored ? visit::entriesFrom(*stored, &store::Entry::bytes)
                                : Result<QList<visit::Entry>>(tl::unexpected(stored.error()));
    const bool isRead = entries.has_value();
    const VisitHistory history = isRead ? historyOf(visit::fold(*entries), *entries) : VisitHistory();
    if (auto written = put(visit, history); !written)
        return written;
    const QString sql = isRead ? u"DELETE FROM history_due WHERE visit_id = :visit"_s
                               : u"UPDATE history_due SET is_unread = 1 WHERE visit_id = :visit"_s;
    const auto settled = m_database->run(sql, {{u":visit"_s, visit.text()}});
    return settled ? Result<void>() : tl::unexpected(settled.error());
}

Result<void> HistoryStore::put(const VisitId& visit, const VisitHistory& history)
{
    const auto cleared =
        m_database->run(u"DELETE FROM history_line WHERE visit_id = :visit"_s, {{u":visit"_s, visit.text()}});
    if (!cleared)
        return tl::unexpected(cleared.error());
    qint64 position = 0;
    for (const HistoryLine& line : history.lines) {
        const auto added = m_database->run(
            u"INSERT INTO history_line (visit_id, position, entry_seq, at_ms, kind, lamp_id, lamphouse_id, "
            "person_id, detail) VALUES (:visit, :position, :entry, :at, :kind, :lamp, :lamphouse, :person, "
            ":detail)"_s,
            {{u":visit"_s, visit.text()},
             {u":position"_s, position++},
             {u":entry"_s, std::max(line.entry, qint64{0})},
             {u":at"_s, msOf(line.at)},
             {u":kind"_s, wordOf(line.kind)},
             {u":lamp"_s, orNull(line.lamp)},
             {u":lamphouse"_s, orNull(line.lamphouse)},
             {u":person"_s, orNull(line.person)},
             {u":detail"_s, detailOf(line)}});
        if (!added)
            return tl::unexpected(added.error());
    }
    for (const Subject& subject : history.subjects) {
        if (auto written = put(subject); !written)
            return written;
    }
    return {};
}

Result<void> HistoryStore::put(const Subject& subject)
{
    const auto written = m_database->run(
        u"INSERT INTO history_subject (about, subject_id, name, more, type_id, twin_key, searched, "
        "seen_at_ms) VALUES (:about, :id, :name, :more, :type, :twin, :searched, :seen) "
        "ON CONFLICT (about, subject_id) DO UPDATE SET name = excluded.name, more = excluded.more, "
        "type_id = excluded.type_id, twin_key = excluded.twin_key, searched = excluded.searched, "
        "seen_at_ms = excluded.seen_at_ms WHERE excluded.seen_at_ms >= history_subject.seen_at_ms"_s,
        {{u":about"_s, wordOf(subject.about)},
         {u":id"_s, subject.id},
         {u":name"_s, subject.name},
         {u":more"_s, subject.more},
         {u":type"_s, subject.type},
         {u":twin"_s, subject.about == About::Lamp ? twinKey(subject.type, subject.name) : QString(u""_s)},
         {u":searched"_s, searchedOf(subject)},
         {u":seen"_s, msOf(subject.seenAt)}});
    return written ? Result<void>() : tl::unexpected(written.error());
}

// ---- Looking for one --------------------------------------------------------------------------------------

Result<std::vector<Subject>> HistoryStore::find(About about, const QString& text, int most) const
{
    const QStringList words = wordsIn(about, text);
    const QString order = about == About::Lamp ? u"seen_at_ms DESC, subject_id"_s
                                               : u"name COLLATE NOCASE, more COLLATE NOCASE, subject_id"_s;
    store::Bindings bindings{{u":about"_s, wordOf(about)}, {u":most"_s, most}};
    for (int index = 0; index < kMostWords; ++index)
        bindings.append({u":word%1"_s.arg(index), words.value(index, u""_s)});
    const auto found = m_database->run(
        kSubject +
            u"WHERE about = :about AND instr(searched, :word0) > 0 AND instr(searched, :word1) > 0 "
            "AND instr(searched, :word2) > 0 AND instr(searched, :word3) > 0 ORDER BY "_s +
            order + u" LIMIT :most"_s,
        bindings);
    if (!found)
        return tl::unexpected(found.error());
    auto subjects = own(about, words, most);
    if (!subjects)
        return subjects;
    for (const Row& row : found->rows) {
        auto subject = subjectFrom(row);
        if (!subject)
            return tl::unexpected(subject.error());
        const auto twin = std::ranges::find_if(*subjects, [&](const Subject& one) {
            const QString key = twinKey(one.type, one.name);
            return one.id == subject->id ||
                   (about == About::Lamp && !key.isEmpty() && key == twinKey(subject->type, subject->name));
        });
        if (twin == subjects->end()) {
            subjects->push_back(*subject);
        } else {
            twin->seenAt = std::max(twin->seenAt, subject->seenAt);
            twin->more = about == About::Lamp ? subject->more : twin->more;
        }
    }
    std::ranges::stable_sort(*subjects, [about](const Subject& one, const Subject& other) {
        if (about == About::Lamp && one.seenAt != other.seenAt)
            return one.seenAt > other.seenAt;
        return std::tuple(one.name.toLower(), one.more.toLower(), one.id) <
               std::tuple(other.name.toLower(), other.more.toLower(), other.id);
    });
    if (subjects->size() > static_cast<std::size_t>(most))
        subjects->resize(static_cast<std::size_t>(most));
    return subjects;
}

/// What the workspace knows before any visit told of it.
Result<std::vector<Subject>> HistoryStore::own(About about, const QStringList& words, int most) const
{
    std::vector<Subject> subjects;
    if (about == About::Lamp) {
        for (const QString& word : words.isEmpty() ? QStringList{u""_s} : words) {
            const auto found = lamps::LampStore(*m_database).withSerial(word, most);
            if (!found)
                return tl::unexpected(found.error());
            for (const lamps::LampInCustody& one : *found) {
                if (std::ranges::find(subjects, one.lamp.id.text(), &Subject::id) == subjects.end())
                    subjects.push_back(subjectOf(one));
            }
        }
    }
    if (about == About::Person) {
        const auto people = people::PeopleStore(*m_database).all();
        if (!people)
            return tl::unexpected(people.error());
        for (const people::Person& person : *people)
            subjects.push_back(subjectOf(person));
    }
    std::erase_if(subjects, [&](const Subject& one) { return !holdsAll(one, words); });
    return subjects;
}

Result<Subject> HistoryStore::subject(About about, const QString& id) const
{
    const auto found = m_database->run(kSubject + u"WHERE about = :about AND subject_id = :id"_s,
                                       {{u":about"_s, wordOf(about)}, {u":id"_s, id}});
    if (!found)
        return tl::unexpected(found.error());
    if (!found->rows.empty())
        return subjectFrom(found->rows.front());
    switch (about) {
    case About::Lamp: {
        const auto lamp = lamps::LampStore(*m_database).lamp(LampId(id));
        return lamp ? Result<Subject>(subjectOf(*lamp)) : tl::unexpected(lamp.error());
    }
    case About::Person: {
        const auto person = people::PeopleStore(*m_database).person(PersonId(id));
        return person ? Result<Subject>(subjectOf(*person)) : tl::unexpected(person.error());
    }
    case About::Lamphouse:
        break;
    }
    const site::SiteStore sites(*m_database);
    const auto site = sites.siteOf(LamphouseId(id));
    const auto document = site ? sites.load(*site) : tl::unexpected(site.error());
    if (!document)
        return tl::unexpected(document.error());
    return Subject{About::Lamphouse, id, document->site.name, site::placeOf(*document, LamphouseId(id))};
}

// ---- One history ------------------------------------------------------------------------------------------

Result<QList<HistoryLine>> HistoryStore::lines(const QString& text, const store::Bindings& bindings) const
{
    const auto found = m_database->run(text, bindings);
    if (!found)
        return tl::unexpected(found.error());
    QList<HistoryLine> lines;
    for (const Row& row : found->rows) {
        auto line = lineFrom(row);
        if (!line)
            return tl::unexpected(line.error());
        lines.append(std::move(*line));
    }
    return lines;
}

Result<QStringList> HistoryStore::idsOf(const Subject& subject) const
{
    QStringList ids{subject.id};
    const QString key = subject.about == About::Lamp ? twinKey(subject.type, subject.name) : QString();
    if (key.isEmpty())
        return ids;
    const auto found =
        m_database->run(u"SELECT subject_id FROM history_subject WHERE twin_key = :twin AND twin_key <> ''"_s,
                        {{u":twin"_s, key}});
    if (!found)
        return tl::unexpected(found.error());
    for (const Row& row : found->rows)
        ids.append(row.text(u"subject_id"));
    const auto own = lamps::LampStore(*m_database).withSerial(label::normalise(subject.name), kMostStays);
    if (!own)
        return tl::unexpected(own.error());
    for (const lamps::LampInCustody& one : *own) {
        if (twinKey(one.lamp.type.text(), one.lamp.serial) == key)
            ids.append(one.lamp.id.text());
    }
    ids.removeDuplicates();
    return ids;
}

Result<QList<HistoryLine>> HistoryStore::ownLines(About about, const QStringList& ids) const
{
    const lamps::LampStore lamps(*m_database);
    QList<HistoryLine> told;
    for (const QString& id : ids) {
        if (about == About::Lamp) {
            const auto moves = lamps.moves(LampId(id));
            const auto fits = lamps.fitsOf(LampId(id));
            if (!moves || !fits)
                return tl::unexpected(moves ? fits.error() : moves.error());
            told += linesOf(*moves, *fits);
        } else if (about == About::Lamphouse) {
            const auto fits = lamps.fitsIn(LamphouseId(id));
            if (!fits)
                return tl::unexpected(fits.error());
            told += linesOf({}, *fits);
        } else {
            const PersonId person(id);
            const auto authorisations = people::PeopleStore(*m_database).authorisationsOf(person);
            const auto keys = people::KeyStore(*m_database).keysOf(person);
            if (!authorisations || !keys)
                return tl::unexpected(!authorisations ? authorisations.error() : keys.error());
            const auto heard = saidOfKeys(people::OfficeStore(*m_database), person, *keys);
            if (!heard)
                return tl::unexpected(heard.error());
            told += linesOf(person, *authorisations, *keys, *heard);
        }
    }
    return told;
}

Result<HistoryPage> HistoryStore::page(About about, const QString& id, qint64 first, int most) const
{
    auto found = subject(about, id);
    if (!found)
        return tl::unexpected(found.error());
    HistoryPage page;
    page.subject = std::move(*found);
    const auto ids = idsOf(page.subject);
    const auto own = ids ? ownLines(about, *ids) : tl::unexpected(ids.error());
    if (!own)
        return tl::unexpected(own.error());
    const QString theirs = linesOfSubject(about);
    const QVariant bound =
        about == About::Lamp
            ? QVariant(QString::fromUtf8(
                  QJsonDocument(QJsonArray::fromStringList(*ids)).toJson(QJsonDocument::Compact)))
            : QVariant(id);
    const auto counted = m_database->run(u"SELECT count(*) AS whole FROM history_line WHERE "_s + theirs,
                                         {{u":ids"_s, bound}});
    const auto newest =
        lines(kLine + theirs + kNewest + u" LIMIT :most"_s, {{u":ids"_s, bound}, {u":most"_s, first + most}});
    const auto deeds =
        lines(kLine + theirs + u" AND kind IN ('fitted', 'taken-out', 'centre-read', 'went-to')"_s + kNewest +
                  u" LIMIT :most"_s,
              {{u":ids"_s, bound}, {u":most"_s, 4 * kMostStays}});
    if (!counted || !newest || !deeds)
        return tl::unexpected(!counted ? counted.error() : !newest ? newest.error() : deeds.error());

    const QList<HistoryLine> allDeeds = together(*deeds, *own);
    const auto ownAlone = std::ranges::count_if(
        allDeeds, [](const HistoryLine& line) { return line.visit.isEmpty(); }); // that no visit tells
    // A visit's line that is not read yet is older than this page, and so is what is told with it.
    page.lines = together(*newest, *own).mid(first, most);
    page.all = counted->rows.front().whole(u"whole") + ownAlone;
    if (about != About::Person) {
        const auto deedsOfLamps = withOneName(allDeeds);
        if (!deedsOfLamps)
            return tl::unexpected(deedsOfLamps.error());
        page.stays = staysOf(*deedsOfLamps);
        std::ranges::reverse(page.stays);
        if (page.stays.size() > kMostStays)
            page.stays.resize(kMostStays);
    }
    if (auto added = addNow(page, *ids); !added)
        return tl::unexpected(added.error());
    if (auto added = addNames(page); !added)
        return tl::unexpected(added.error());
    return page;
}

Result<QList<HistoryLine>> HistoryStore::withOneName(QList<HistoryLine> lines) const
{
    QHash<QString, LampId> byTwin;
    QHash<LampId, LampId> names;
    for (HistoryLine& line : lines) {
        if (!names.contains(line.lamp)) {
            const auto lamp = subject(About::Lamp, line.lamp.text());
            if (!lamp && lamp.error().kind != Error::Kind::NotFound)
                return tl::unexpected(lamp.error());
            const QString key = lamp ? twinKey(lamp->type, lamp->name) : QString();
            const bool isKnown = !key.isEmpty() && byTwin.contains(key);
            names.insert(line.lamp, isKnown ? byTwin.value(key) : line.lamp);
            if (!key.isEmpty() && !isKnown)
                byTwin.insert(key, line.lamp);
        }
        line.lamp = names.value(line.lamp);
    }
    return lines;
}

/// How it stands today: where a lamp is, what is owed still.
Result<void> HistoryStore::addNow(HistoryPage& page, const QStringList& ids) const
{
    if (page.subject.about == About::Person) {
        const auto offices = people::OfficeStore(*m_database).offices();
        if (!offices)
            return tl::unexpected(offices.error());
        for (const people::Office& office : *offices) {
            page.offices.insert(people::thumbprint(office.key), office.name);
            if (office.droppedAt)
                page.dropped.insert(people::thumbprint(office.key));
        }
        return {};
    }
    const auto owed = visit::OwedStore(*m_database).open();
    if (!owed)
        return tl::unexpected(owed.error());
    const bool isLamp = page.subject.about == About::Lamp;
    std::ranges::copy_if(*owed, std::back_inserter(page.owed), [&](const visit::OwedStep& step) {
        return ids.contains(isLamp ? step.lamp.text() : step.lamphouse.text());
    });
    for (const QString& id : isLamp ? ids : QStringList()) {
        const auto lamp = lamps::LampStore(*m_database).lamp(LampId(id));
        if (lamp)
            page.lamp = *lamp;
        else if (lamp.error().kind != Error::Kind::NotFound)
            return tl::unexpected(lamp.error());
    }
    return {};
}

Result<void> HistoryStore::addNames(HistoryPage& page) const
{
    const auto name = [&](About about, const QString& id) -> Result<void> {
        if (id.isEmpty() || page.named.contains({about, id}))
            return {};
        auto found = subject(about, id);
        if (found)
            page.named.insert({about, id}, std::move(*found));
        else if (found.error().kind != Error::Kind::NotFound)
            return tl::unexpected(found.error());
        return {};
    };
    QList<std::pair<About, QString>> wanted;
    for (const HistoryLine& line : page.lines) {
        wanted.append({About::Lamp, line.lamp.text()});
        wanted.append({About::Lamphouse, line.lamphouse.text()});
        wanted.append({About::Person, line.person.text()});
        wanted.append({About::Person, line.other.text()});
        if (line.unusual)
            wanted.append({About::Person, line.unusual->person.text()});
    }
    for (const Stay& stay : page.stays) {
        wanted.append({About::Lamp, stay.lamp.text()});
        wanted.append({About::Lamphouse, stay.lamphouse.text()});
    }
    if (page.lamp)
        wanted.append({About::Person, page.lamp->holder.text()});
    for (const auto& [about, id] : wanted) {
        if (auto named = name(about, id); !named)
            return named;
    }
    return {};
}

} // namespace coldarc::review
