#include "app/walk.h"

#include "app/demo_data.h"
#include "app/walker.h"
#include "core/people/signing_key.h"
#include "core/procedure/procedure_file.h"
#include "core/store/workspace_file.h"
#include "core/visit/open_visit.h"
#include "ui/parts/theme.h"

#include <QApplication>
#include <QDir>
#include <QFile>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTextStream>

#include <map>

using namespace Qt::StringLiterals;

namespace coldarc::app {
namespace {

constexpr WallTime kStart{std::chrono::milliseconds(1'795'630'000'000)}; // an invented evening

QTextStream& out()
{
    static QTextStream stream(stdout);
    return stream;
}

int stop(const QString& why)
{
    out() << "The walk did not start: " << why << '\n';
    out().flush();
    return 1;
}

people::Day dayOf(WallTime wall, int days)
{
    return people::Day(std::chrono::floor<std::chrono::days>(wall) + std::chrono::days(days));
}

visit::Attendant attendantFrom(const DemoPerson& person, WallTime now)
{
    visit::Attendant attendant{person.person, {}};
    int number = 0;
    for (const DemoPerson::Grant& grant : person.grants) {
        people::Authorisation authorisation;
        authorisation.id = people::AuthorisationId(person.person.id.text() + QString::number(++number));
        authorisation.person = person.person.id;
        authorisation.duty = grant.duty;
        authorisation.models = grant.models;
        authorisation.from = dayOf(now, grant.fromDays);
        authorisation.until = dayOf(now, grant.untilDays);
        attendant.authorisations.push_back(authorisation);
    }
    return attendant;
}

/// The first swap of the demo's first plan, with the engineer alone.
std::optional<visit::WantedVisit> wantedFrom(const DemoData& data, WallTime now)
{
    if (data.plans.isEmpty() || data.plans.first().swaps.isEmpty())
        return std::nullopt;
    const DemoPlan& plan = data.plans.first();
    const DemoSite* site = data.site(plan.site);
    visit::WantedVisit wanted;
    wanted.visit = VisitId(u"walk"_s);
    wanted.reason = plan.reason;
    if (!site)
        return std::nullopt;
    wanted.site = site->at(now);
    wanted.today = dayOf(now, 0);
    for (const DemoPerson& person : data.people.people) {
        if (person.person.role == people::Role::Engineer && wanted.people.isEmpty())
            wanted.people.append(attendantFrom(person, now));
    }
    const DemoPlan::Swap& swap = plan.swaps.first();
    for (const DemoLamps::Stock& stock : data.lamps.stock) {
        if (stock.serial == swap.serial)
            wanted.swaps.append(
                {SwapId(u"swap-1"_s), swap.lamphouse, {LampId(u"new"_s), stock.type, stock.serial, 0.0}});
    }
    for (const DemoLamps::Fitted& fitted : data.lamps.fitted) {
        if (wanted.site.lamphouse(fitted.lamphouse))
            wanted.fitted.append({fitted.lamphouse,
                                  {LampId(u"fitted in "_s + fitted.lamphouse.text()), fitted.type,
                                   fitted.serial, fitted.hoursAtEnd}});
    }
    return wanted;
}

/// Every entry's exact bytes and its hash, then the signatures, one JSON object a line.
Result<QString> writeLogbook(const QString& folder, const store::Journal& journal, const VisitId& visit)
{
    const auto entries = journal.entries(visit);
    const auto signatures = journal.signatures(visit);
    if (!entries || !signatures)
        return fail(Error::Kind::Storage, u"the logbook could not be read back"_s);
    QFile file(QDir(folder).filePath(u"signed-logbook.jsonl"_s));
    if (!file.open(QIODevice::WriteOnly))
        return fail(Error::Kind::Storage, file.errorString());
    for (const store::Entry& entry : *entries) {
        file.write(QJsonDocument(QJsonObject{{u"seq"_s, entry.seq.value()},
                                             {u"hash"_s, entry.hash.hex()},
                                             {u"entry"_s, QString::fromUtf8(entry.bytes)}})
                       .toJson(QJsonDocument::Compact) +
                   '\n');
    }
    for (const store::Signature& one : *signatures) {
        file.write(QJsonDocument(QJsonObject{{u"signs"_s, one.seq.value()},
                                             {u"head"_s, one.head.hex()},
                                             {u"person"_s, one.person.text()},
                                             {u"meaning"_s, one.meaning},
                                             {u"public_key"_s, QString::fromLatin1(one.publicKey.toHex())},
                                             {u"signature"_s, QString::fromLatin1(one.bytes.toHex())}})
                       .toJson(QJsonDocument::Compact) +
                   '\n');
    }
    return file.fileName();
}

/// How many signatures there are; nothing when one does not verify.
std::optional<int> verified(const store::Journal& journal, const VisitId& visit)
{
    const auto signatures = journal.signatures(visit);
    if (!signatures)
        return std::nullopt;
    for (const store::Signature& one : *signatures) {
        const auto key = people::PublicKey::fromBytes(one.publicKey);
        const auto signature = people::Signature::fromBytes(one.bytes);
        const auto meaning = people::meaningFromWord(one.meaning.toStdString());
        if (!key || !signature || !meaning ||
            !people::isSignedBy(*key, people::HeadStatement{visit, one.seq.value(), one.head, *meaning},
                                *signature))
            return std::nullopt;
    }
    return static_cast<int>(signatures->size());
}

} // namespace

int walk(const QString& folder, const Folders& folders)
{
    if (!QDir().mkpath(folder))
        return stop(u"the folder %1 cannot be made"_s.arg(folder));
    const QString workspace = QDir(folder).filePath(u"walk.coldarc"_s);
    for (const QString& old : QDir(folder).entryList({u"walk.coldarc*"_s}, QDir::Files))
        QFile::remove(QDir(folder).filePath(old)); // of an earlier walk: nothing in it is anybody's work

    const auto data = readDemoData(folders.sampleData);
    if (!data)
        return stop(data.error().detail);
    const auto catalogue = catalogue::loadCatalogue(QDir(folders.resources).filePath(u"catalogue"_s));
    const auto procedures =
        procedure::loadProcedures(QDir(folders.resources).filePath(u"procedures"_s), catalogue.catalogue);
    const auto wanted = wantedFrom(*data, kStart);
    if (!wanted)
        return stop(u"the demo plans no swap"_s);
    const auto opening = visit::openingFor(*wanted, {catalogue.catalogue, procedures});
    if (!opening)
        return stop(u"the planned visit cannot be opened, reason %1"_s.arg(
            static_cast<int>(opening.error().first().kind)));

    store::OpenAnswer opened = store::openWorkspace(workspace, {u"walk"_s, kStart});
    if (!opened.database)
        return stop(opened.detail);
    store::Journal journal(*opened.database);
    store::Summaries summaries(*opened.database);
    WalkClock clock(kStart);
    const PersonId lead = opening->people.first().id;
    auto logbook = visit::Logbook::begin(journal, summaries, lead, *opening, clock.now());
    if (!logbook)
        return stop(logbook.error().detail);

    ui::Theme theme(*qApp);
    theme.apply(ui::ThemeKind::Booth);
    const people::SigningKey key = people::SigningKey::generate();
    ui::VisitDesk desk(*logbook, clock, lead);
    ui::VisitPage room(desk);
    QObject::connect(&desk, &ui::VisitDesk::signatureWanted, &room, [&](const ui::WantedSignature& asked) {
        const auto head = journal.head(opening->visit);
        const auto meaning = people::meaningFromWord(asked.meaning.toStdString());
        if (!head || !meaning || head->seq.value() != asked.entry)
            return;
        const auto message = people::signedMessage({opening->visit, asked.entry, head->hash, *meaning});
        if (!message)
            return;
        static_cast<void>(
            journal.keep({opening->visit, head->seq, head->hash, asked.person, key.publicKey().bytes(),
                          key.sign(*message).bytes(), asked.meaning, clock.now().wall}));
    });
    room.resize(1366, 768);
    room.show();
    room.activateWindow();
    QApplication::setActiveWindow(&room); // a screen without a window manager makes no window active
    const auto* type = catalogue.catalogue.lampType(*wanted->swaps.first().newLamp.type);
    Walker walker(room, desk, clock, folder, {{type->code, wanted->swaps.first().newLamp.serial}});
    const bool isDone = walker.walk() && walker.trouble().isEmpty();

    const auto signatures = verified(journal, opening->visit);
    const auto written = writeLogbook(folder, journal, opening->visit);
    out() << "Walked the demo swap at " << opening->site.site.name << ": " << walker.presses() << " presses, "
          << walker.typedCharacters() << " typed characters, " << logbook->entries().size() << " entries.\n";
    for (const QString& refusal : walker.refusals())
        out() << "Refused, as it should be: " << refusal << '\n';
    for (const QString& trouble : walker.trouble())
        out() << "Trouble: " << trouble << '\n';
    out() << "Pictures: " << walker.pictures().size() << " in " << QDir(folder).absolutePath() << '\n';
    if (written)
        out() << "Signed logbook: " << *written << " (" << signatures.value_or(-1)
              << " signatures verified)\n";
    out() << "Workspace of the walk: " << workspace << '\n';
    out().flush();
    return isDone && signatures && *signatures > 0 && written ? 0 : 1;
}

} // namespace coldarc::app
