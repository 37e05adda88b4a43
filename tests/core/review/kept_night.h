#pragma once

#include "core/people/trust.h"
#include "core/record/record.h"
#include "core/visit/wanted_signature.h"
#include "tests/core/record/signed_visit.h"
#include "tests/core/visit/night.h"

namespace coldarc::test {

/// An invented night that is over, as a workspace keeps it: every entry, and every signature that is wanted,
/// made with one key.
struct KeptNight {
    KeptNight()
    {
        night.doAll();
        night.close();
        Hash before;
        for (const visit::Entry& entry : night.entries) {
            const QByteArray bytes = visit::bytesOf(entry);
            before = chained(before, bytes);
            entries.push_back({store::Sequence(static_cast<qint64>(entries.size())), bytes, before});
        }
        for (const visit::WantedSignature& one : visit::wantedSignatures(night.entries, night.state))
            sign(one.entry, one.person, one.meaning);
    }
    void sign(qint64 entry, const PersonId& person, const QString& meaning, bool isFormer = false,
              std::chrono::hours later = {})
    {
        const store::Entry& at = entries[static_cast<std::size_t>(entry)];
        const people::HeadStatement said{
            visit, entry, at.hash, *people::meaningFromWord(meaning.toStdString()), moment() + later, person};
        const QByteArray message =
            isFormer ? *people::formerMessage(said) : *people::signedMessage(said, key.publicKey());
        signatures.push_back({visit, at.seq, at.hash, person, key.publicKey().bytes(),
                              key.sign(message).bytes(), meaning, said.at});
    }
    /// By Sue, with her key.
    [[nodiscard]] record::KeptReview review(qint64 entry,
                                            const PersonId& by = PersonId(QStringLiteral("sue")),
                                            std::chrono::hours later = {}) const
    {
        const record::Review said{visit,
                                  entry,
                                  entries[static_cast<std::size_t>(entry)].hash,
                                  record::Verdict::Accepted,
                                  {},
                                  {},
                                  by,
                                  QStringLiteral("S. Marlow"),
                                  moment() + later};
        const record::SignedReview paper = *record::sign(said, sueKey);
        return {record::idOf(paper), said, paper, sueKey.publicKey()};
    }
    /// For the whole year of that night.
    [[nodiscard]] people::Certificate certificate(const people::SigningKey& whose, const PersonId& person,
                                                  const QString& name,
                                                  people::Role role = people::Role::Supervisor) const
    {
        const auto year = people::utcDayOf(moment()).year();
        return *people::certify({whose.publicKey(), person, name, role, year / std::chrono::January / 1,
                                 year / std::chrono::December / 31, moment()},
                                office);
    }
    [[nodiscard]] people::SignedRetirement retirement(const people::SigningKey& whose,
                                                      std::chrono::days later = {}) const
    {
        return *people::retire({whose.publicKey(), people::utcDayOf(moment() + later), moment() + later},
                               office);
    }
    [[nodiscard]] record::Record record(const std::vector<record::KeptReview>& reviews = {},
                                        record::Vouching vouching = {}) const
    {
        return *record::recordOf(visit, entries, signatures, {}, std::move(vouching), reviews);
    }
    [[nodiscard]] qint64 last() const { return static_cast<qint64>(entries.size()) - 1; }
    [[nodiscard]] WallTime moment() const { return night.clock.now().wall; }

    Night night;
    VisitId visit = night.opening().visit;
    people::SigningKey key = record::test::keyOf(7); ///< of whoever did the work
    people::SigningKey sueKey = record::test::keyOf(9);
    people::SigningKey office = record::test::keyOf(4);
    std::vector<store::Entry> entries;
    std::vector<store::Signature> signatures;
};

} // namespace coldarc::test
