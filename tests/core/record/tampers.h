#pragma once

#include "core/record/record_file.h"
#include "core/record/record_text.h"
#include "core/record/verify.h"
#include "tests/core/record/signed_visit.h"

#include <set>
#include <utility>

namespace coldarc::record::test {

/// What became of a record that was altered in every way that is tried.
struct TamperTally {
    qint64 tried = 0;
    qint64 refused = 0;
    qint64 harmless = 0; ///< read back with the very entries, pictures, payloads, signatures and certificates
    qint64 accepted = 0; ///< taken for good and not the same
    std::set<qsizetype> harmlessBytes; ///< in the archive's own dates and marks
};

/// Alters the record of a small vouched visit: every bit of its file flipped; each entry dropped, doubled,
/// swapped; each link, signature and certificate taken from another record; each key substituted; each
/// header's words altered.
class Tampering {
public:
    TamperTally all()
    {
        flipBits();
        for (std::size_t entry = 0; entry < m_good.entries.size(); ++entry)
            alterEntry(static_cast<std::ptrdiff_t>(entry));
        for (std::size_t one = 0; one < m_good.signatures.size(); ++one)
            alterSignature(one);
        for (std::size_t key = 0; key < m_good.keys.size(); ++key)
            play([&](Record& record) { record.keys[key] = keyOf(9).publicKey(); });
        for (std::size_t one = 0; one < m_good.vouching.certificates.size(); ++one)
            play([&](Record& record) {
                record.vouching.certificates[one].jws.payload.replace("2027-10-31", "2037-10-31");
            });
        for (std::size_t one = 0; one < m_good.vouching.retirements.size(); ++one)
            play([&](Record& record) {
                record.vouching.retirements[one].jws.payload.replace("2027-01-31", "2037-01-31");
            });
        for (std::size_t one = 0; one < m_good.reviews.size(); ++one)
            alterReview(one);
        return std::move(m_tally);
    }

private:
    static SignedVisit visitOf(const QString& id)
    {
        SignedVisit visit(12, id);
        visit.pictures.front() = {sha256("p"), "p"};
        visit.vouch(visit.engineer, QStringLiteral("person-1"), QStringLiteral("2027-10-31"));
        visit.retire(visit.trainee, QStringLiteral("2027-01-31"));
        visit.review(visit.reviewer, QStringLiteral("person-9"), 11, Verdict::SentBack);
        return visit;
    }

    [[nodiscard]] bool isSame(const Record& read) const
    {
        return read.entries == m_good.entries && read.pictures == m_good.pictures &&
               manifestOf(read) == manifestOf(m_good);
    }
    /// @return whether it was taken for good.
    bool judge(const Result<Record>& read)
    {
        ++m_tally.tried;
        if (!read || !verify(*read).isGood()) {
            ++m_tally.refused;
            return false;
        }
        ++(isSame(*read) ? m_tally.harmless : m_tally.accepted);
        return true;
    }
    template<class Change>
    void play(Change change)
    {
        Record record = m_good;
        change(record);
        if (const auto bytes = bytesOf(record))
            judge(recordFromBytes(*bytes));
    }

    void flipBits()
    {
        const QByteArray good = *bytesOf(m_good);
        for (qsizetype bit = 0; bit < good.size() * 8; ++bit) {
            QByteArray bad = good;
            bad[bit / 8] = static_cast<char>(bad[bit / 8] ^ (1 << (bit % 8)));
            if (judge(recordFromBytes(bad)))
                m_tally.harmlessBytes.insert(bit / 8);
        }
    }
    void alterEntry(std::ptrdiff_t at)
    {
        const auto entry = static_cast<std::size_t>(at);
        play([&](Record& record) { record.entries.erase(record.entries.begin() + at); });
        play([&](Record& record) {
            record.entries.erase(record.entries.begin() + at);
            record.chain.erase(record.chain.begin() + at);
        });
        play([&](Record& record) {
            record.entries.insert(record.entries.begin() + at, m_good.entries[entry]);
            record.chain.insert(record.chain.begin() + at, m_good.chain[entry]);
        });
        play([&](Record& record) { record.chain[entry] = m_other.chain[entry]; });
        play([&](Record& record) { record.entries[entry] = m_other.entries[entry]; });
        if (entry > 0)
            play([&](Record& record) { std::swap(record.entries[entry], record.entries[entry - 1]); });
    }
    void alterSignature(std::size_t one)
    {
        play([&](Record& record) { record.signatures[one] = m_other.signatures[one]; });
        play([&](Record& record) { record.signatures[one].signature = m_other.signatures[one].signature; });
        play([&](Record& record) { record.signatures.push_back(m_good.signatures[one]); });
        for (const auto& [before, now] : {std::pair<QByteArray, QByteArray>("19:04", "18:04"),
                                          {"person-", "someone-"},
                                          {"\"alg\"", "\"alh\""}})
            play([&](Record& record) { record.signatures[one].jws.protectedHeader.replace(before, now); });
    }

    void alterReview(std::size_t one)
    {
        play([&](Record& record) { record.reviews[one] = m_other.reviews[one]; });
        play([&](Record& record) { record.reviews[one].signature = m_other.reviews[one].signature; });
        play([&](Record& record) { record.reviews.push_back(m_good.reviews[one]); });
        for (const auto& [before, now] : {std::pair<QByteArray, QByteArray>("sent-back", "accepted"),
                                          {"person-9", "person-1"},
                                          {"looked", "looking"},
                                          {"\"entry\":2", "\"entry\":3"},
                                          {"20:04", "19:04"}})
            play([&](Record& record) { record.reviews[one].jws.payload.replace(before, now); });
    }

    Record m_good = visitOf(QStringLiteral("visit-7")).record();
    Record m_other = visitOf(QStringLiteral("visit-8")).record();
    TamperTally m_tally;
};

} // namespace coldarc::record::test
