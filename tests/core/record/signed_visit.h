#pragma once

#include "core/base/json.h"
#include "core/record/record.h"
#include "tests/support/test_key.h"

namespace coldarc::record::test {

using coldarc::test::keyOf;

/// The journal of an invented visit: a few entries, signed by an engineer, a trainee and a supervisor.
struct SignedVisit {
    explicit SignedVisit(int entryCount = 12, const QString& id = QStringLiteral("visit-7"))
        : visit(id)
    {
        Hash before;
        for (int number = 0; number < entryCount; ++number) {
            const QByteArray bytes = "{\"kind\":\"noted\",\"text\":\"remark " + QByteArray::number(number) +
                                     " of " + id.toUtf8() + "\"}";
            before = chained(before, bytes);
            entries.push_back({store::Sequence(number), bytes, before});
        }
        sign(engineer, QStringLiteral("person-1"), 0, people::Meaning::SignedIn);
        sign(trainee, QStringLiteral("person-2"), entryCount / 2, people::Meaning::Stop);
        for (const auto& [key, person, meaning] :
             {std::tuple(&engineer, QStringLiteral("person-1"), people::Meaning::Performed),
              std::tuple(&trainee, QStringLiteral("person-2"), people::Meaning::TookPart),
              std::tuple(&supervisor, QStringLiteral("person-3"), people::Meaning::Reviewed)})
            sign(*key, person, entryCount - 1, meaning);
    }

    void sign(const people::SigningKey& key, const QString& person, int entry, people::Meaning meaning,
              bool isFormer = false)
    {
        const store::Entry& at = entries[static_cast<std::size_t>(entry)];
        const people::HeadStatement said{visit, entry, at.hash, meaning, moment, PersonId(person)};
        const QByteArray message =
            isFormer ? *people::formerMessage(said) : *people::signedMessage(said, key.publicKey());
        const std::string_view word = people::wordOf(meaning);
        signatures.push_back({visit, at.seq, at.hash, said.person, key.publicKey().bytes(),
                              key.sign(message).bytes(),
                              QString::fromUtf8(word.data(), qsizetype(word.size())), moment});
    }
    /// The office vouches that the key is this person's, from 2026-11-01 on.
    void vouch(const people::SigningKey& key, const QString& person, const QString& until,
               people::Role role = people::Role::Engineer)
    {
        if (vouching.offices.empty())
            vouching.offices.push_back(office.publicKey());
        vouching.certificates.push_back(*people::certify(
            {key.publicKey(), PersonId(person), QStringLiteral("Invented ") + person, role,
             *people::dayFromIso(QStringLiteral("2026-11-01")), *people::dayFromIso(until), moment},
            office));
    }
    /// The office says that the key is out of use from that day on.
    void retire(const people::SigningKey& key, const QString& since)
    {
        if (vouching.offices.empty())
            vouching.offices.push_back(office.publicKey());
        vouching.retirements.push_back(
            *people::retire({key.publicKey(), *people::dayFromIso(since), moment}, office));
    }
    /// Somebody reviews it, an hour later.
    void review(const people::SigningKey& key, const QString& person, int entry,
                Verdict verdict = Verdict::Accepted)
    {
        const Review said{visit,
                          entry,
                          entries[static_cast<std::size_t>(entry)].hash,
                          verdict,
                          QStringLiteral("looked at it"),
                          {{2, QStringLiteral("and at this")}},
                          PersonId(person),
                          QStringLiteral("Invented ") + person,
                          moment + std::chrono::hours(1)};
        const SignedReview paper = *record::sign(said, key);
        reviews.push_back({idOf(paper), said, paper, key.publicKey()});
    }
    [[nodiscard]] Record record() const
    {
        return *recordOf(visit, entries, signatures, pictures, vouching, reviews);
    }

    VisitId visit;
    WallTime moment = *wallFromIso(QStringLiteral("2026-11-25T19:04:11.250Z"));
    people::SigningKey engineer = keyOf(1);
    people::SigningKey trainee = keyOf(2);
    people::SigningKey supervisor = keyOf(3);
    people::SigningKey office = keyOf(4);
    people::SigningKey reviewer = keyOf(5);
    std::vector<store::Entry> entries;
    std::vector<store::Signature> signatures;
    std::vector<Picture> pictures{{sha256("a picture"), "a picture"}};
    Vouching vouching{};
    std::vector<KeptReview> reviews{};
};

} // namespace coldarc::record::test
