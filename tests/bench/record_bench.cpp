// Figures of records. Prints `record.name value unit`; an argument is a text that the wanted names contain.
#include "core/record/record_file.h"
#include "core/record/verify.h"
#include "tests/bench/times.h"
#include "tests/core/record/signed_visit.h"
#include "tests/core/record/tampers.h"

#include <QCoreApplication>
#include <QFile>
#include <QTemporaryDir>

#include <sodium.h>

#include <algorithm>
#include <cstdio>

using namespace Qt::StringLiterals;
using namespace coldarc;

namespace {

constexpr int kRecords = 1000;
constexpr int kEntries = 100;
constexpr int kSignatures = 4;
constexpr int kTurns = 5;

bool isWanted(const QString& name)
{
    const QStringList arguments = QCoreApplication::arguments();
    return arguments.size() < 2 || name.contains(arguments.at(1));
}

void print(const char* name, double value, const char* unit)
{
    if (isWanted(QString::fromLatin1(name)))
        std::printf("%s %g %s\n", name, value, unit);
}

/// What the bare library is given to check: message, signature, key.
struct Bare {
    QByteArray message;
    QByteArray signature;
    QByteArray key;
};

struct OneRecord {
    QString file;
    std::vector<Bare> signatures;
};

/// Entries as long as those of a visit: some 300 bytes.
record::Record recordOf(int number)
{
    record::test::SignedVisit visit(1, u"visit-%1"_s.arg(number));
    visit.entries.clear();
    visit.signatures.clear();
    visit.pictures.clear();
    Hash before;
    for (int entry = 0; entry < kEntries; ++entry) {
        QByteArray words;
        for (int word = 0; words.size() < 240; ++word)
            words +=
                "word" + QByteArray::number((number * 7919 + entry * 104729 + word * 1299709) % 99991) + ' ';
        const QByteArray bytes =
            "{\"kind\":\"noted\",\"number\":" + QByteArray::number(entry) + ",\"text\":\"" + words + "\"}";
        before = chained(before, bytes);
        visit.entries.push_back({store::Sequence(entry), bytes, before});
    }
    visit.sign(visit.engineer, u"person-1"_s, 0, people::Meaning::SignedIn);
    visit.sign(visit.trainee, u"person-2"_s, kEntries / 2, people::Meaning::Stop);
    visit.sign(visit.engineer, u"person-1"_s, kEntries - 1, people::Meaning::Performed);
    visit.sign(visit.supervisor, u"person-3"_s, kEntries - 1, people::Meaning::Reviewed);
    return visit.record();
}

std::vector<OneRecord> writeRecords(const QTemporaryDir& folder)
{
    std::vector<OneRecord> records;
    for (int number = 0; number < kRecords; ++number) {
        const record::Record record = recordOf(number);
        QFile file(folder.filePath(u"%1.zip"_s.arg(number)));
        if (!file.open(QIODevice::WriteOnly) || file.write(*record::bytesOf(record)) < 0)
            qFatal("no room for the records");
        OneRecord one{file.fileName(), {}};
        for (const record::HeadSignature& each : record.signatures) {
            const auto said = people::headSaidBy(each.jws);
            const auto key = std::ranges::find_if(record.keys, [&](const people::PublicKey& of) {
                return people::thumbprint(of) == said->thumbprint;
            });
            one.signatures.push_back({people::signingInput(each.jws), each.signature.bytes(), key->bytes()});
        }
        records.push_back(std::move(one));
    }
    return records;
}

const unsigned char* raw(const QByteArray& bytes)
{
    return reinterpret_cast<const unsigned char*>(bytes.constData());
}

/// Reads the same bytes, hashes them once, checks the signatures with the bare library.
void checkBare(const std::vector<OneRecord>& records)
{
    for (const OneRecord& one : records) {
        QFile file(one.file);
        if (!file.open(QIODevice::ReadOnly))
            qFatal("a record is gone");
        const QByteArray bytes = file.readAll();
        std::array<unsigned char, crypto_hash_sha256_BYTES> hash{};
        crypto_hash_sha256(hash.data(), raw(bytes), static_cast<unsigned long long>(bytes.size()));
        for (const Bare& each : one.signatures) {
            if (crypto_sign_verify_detached(raw(each.signature), raw(each.message),
                                            static_cast<unsigned long long>(each.message.size()),
                                            raw(each.key)) != 0)
                qFatal("a signature does not verify");
        }
    }
}

void check(const std::vector<OneRecord>& records)
{
    for (const OneRecord& one : records) {
        const auto read = record::readRecord(one.file);
        if (!read || !record::verify(*read).isGood())
            qFatal("a record does not verify");
    }
}

void measureVerify()
{
    if (!isWanted(u"record.verify_ratio record.verify_ms"_s))
        return;
    const QTemporaryDir folder;
    const std::vector<OneRecord> records = writeRecords(folder);
    std::vector<double> ratios;
    std::vector<double> ours;
    for (int turn = 0; turn < kTurns; ++turn) { // by turns, so that a busy machine slows both
        const double bare = bench::millisecondsOf([&] { checkBare(records); });
        ours.push_back(bench::millisecondsOf([&] { check(records); }));
        ratios.push_back(ours.back() / bare);
    }
    print("record.verify_ratio", bench::median(ratios), "ratio");
    print("record.verify_ms", bench::median(ours) / kRecords, "ms");
}

void measureTampers()
{
    if (!isWanted(u"record.tampers record.tampers_accepted"_s))
        return;
    const record::test::TamperTally tally = record::test::Tampering().all();
    print("record.tampers", static_cast<double>(tally.tried), "alterations");
    print("record.tampers_accepted", static_cast<double>(tally.accepted), "alterations");
}

} // namespace

int main(int argc, char** argv)
{
    const QCoreApplication application(argc, argv);
    if (sodium_init() < 0)
        return 1;
    measureVerify();
    measureTampers();
    return 0;
}
