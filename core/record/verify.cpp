#include "core/record/verify.h"

#include "core/base/words.h"

#include <algorithm>
#include <map>
#include <set>

using namespace Qt::StringLiterals;

namespace coldarc::record {
namespace {

constexpr Words<Fault::Kind, 15> kWords{{{Fault::Kind::NoEntries, u"no-entries"},
                                         {Fault::Kind::ChainBreaks, u"chain-breaks"},
                                         {Fault::Kind::LinksMissing, u"links-missing"},
                                         {Fault::Kind::NothingSigned, u"nothing-signed"},
                                         {Fault::Kind::NotAHead, u"not-a-head"},
                                         {Fault::Kind::OtherVisit, u"other-visit"},
                                         {Fault::Kind::NoSuchEntry, u"no-such-entry"},
                                         {Fault::Kind::OtherHead, u"other-head"},
                                         {Fault::Kind::UnknownKey, u"unknown-key"},
                                         {Fault::Kind::DoesNotVerify, u"does-not-verify"},
                                         {Fault::Kind::SignedTwice, u"signed-twice"},
                                         {Fault::Kind::PictureAltered, u"picture-altered"},
                                         {Fault::Kind::CertificateAltered, u"certificate-altered"},
                                         {Fault::Kind::OtherPerson, u"other-person"},
                                         {Fault::Kind::NotAReview, u"not-a-review"}}};

class Check {
public:
    explicit Check(const Record& record)
        : m_record(record)
        , m_trust(record.vouching.offices)
    {
        m_found.visit = record.visit;
        m_found.entries = static_cast<qint64>(record.entries.size());
        for (const people::PublicKey& key : record.keys)
            m_keys.emplace(people::thumbprint(key), key);
    }

    Verification all()
    {
        checkChain();
        readCertificates();
        qint64 place = 0;
        for (const HeadSignature& one : m_record.signatures)
            check(one, place++);
        for (const FormerSignature& one : m_record.former)
            check(one, place++);
        if (place == 0)
            fault(Fault::Kind::NothingSigned);
        for (place = 0; place < static_cast<qint64>(m_record.reviews.size()); ++place)
            check(m_record.reviews[static_cast<std::size_t>(place)], place);
        for (const Picture& picture : m_record.pictures) {
            if (sha256(picture.bytes) != picture.hash)
                m_found.faults.push_back(
                    {.kind = Fault::Kind::PictureAltered, .picture = picture.hash.hex()});
        }
        m_found.trust = std::move(m_trust);
        return std::move(m_found);
    }

private:
    void fault(Fault::Kind kind, qint64 entry = -1, qint64 signature = -1)
    {
        m_found.faults.push_back({.kind = kind, .entry = entry, .signature = signature});
    }

    /// Each link is worked out from the record's own link before it, so that one altered entry is one fault.
    void checkChain()
    {
        if (m_record.entries.empty())
            fault(Fault::Kind::NoEntries);
        if (m_record.entries.size() != m_record.chain.size())
            fault(Fault::Kind::LinksMissing);
        Hash before;
        for (std::size_t entry = 0; entry < std::min(m_record.entries.size(), m_record.chain.size());
             ++entry) {
            if (chained(before, m_record.entries[entry]) != m_record.chain[entry])
                fault(Fault::Kind::ChainBreaks, static_cast<qint64>(entry));
            before = m_record.chain[entry];
        }
    }

    void readCertificates()
    {
        qint64 place = 0;
        const auto read = [&](const auto& papers) {
            for (const auto& one : papers) {
                if (!m_trust.add(one))
                    m_found.faults.push_back({.kind = Fault::Kind::CertificateAltered, .certificate = place});
                ++place;
            }
        };
        read(m_record.vouching.certificates);
        read(m_record.vouching.retirements);
    }

    void check(const HeadSignature& one, qint64 place)
    {
        const auto said = people::headSaidBy(one.jws);
        if (!said)
            return fault(Fault::Kind::NotAHead, -1, place);
        check(said->statement, said->thumbprint, people::signingInput(one.jws), one.signature, place, false);
    }

    void check(const FormerSignature& one, qint64 place)
    {
        people::HeadStatement said = one.statement;
        said.at = {};
        said.person = {};
        const auto message = people::formerMessage(said);
        if (!message)
            return fault(Fault::Kind::NotAHead, -1, place);
        check(said, one.thumbprint, *message, one.signature, place, true);
    }

    void check(const people::HeadStatement& said, const QString& thumbprint, const QByteArray& message,
               const people::Signature& signature, qint64 place, bool isFormer)
    {
        if (!m_seen.insert(message + signature.bytes()).second)
            return fault(Fault::Kind::SignedTwice, said.sequence, place);
        if (said.visit != m_record.visit)
            return fault(Fault::Kind::OtherVisit, said.sequence, place);
        const auto key = m_keys.find(thumbprint);
        if (key == m_keys.end())
            return fault(Fault::Kind::UnknownKey, said.sequence, place);
        if (!people::isSignedBy(key->second, message, signature))
            return fault(Fault::Kind::DoesNotVerify, said.sequence, place);
        if (said.sequence >= static_cast<qint64>(m_record.chain.size()))
            return fault(Fault::Kind::NoSuchEntry, said.sequence, place);
        if (m_record.chain[static_cast<std::size_t>(said.sequence)] != said.head)
            return fault(Fault::Kind::OtherHead, said.sequence, place);
        Signed one{said,    thumbprint,       isFormer, m_trust.of(thumbprint, said.person, said.at),
                   said.at, signature.bytes()};
        if (one.known.isOthers())
            return fault(Fault::Kind::OtherPerson, said.sequence, place);
        m_found.signatures.push_back(std::move(one));
        m_found.signedUpTo = std::max(m_found.signedUpTo, said.sequence);
    }

    void check(const SignedReview& paper, qint64 place)
    {
        const auto said = saidBy(paper);
        const auto wrong = [&](Fault::Kind kind) {
            m_found.faults.push_back(
                {.kind = kind, .entry = said ? said->review.entry : -1, .review = place});
        };
        if (!said)
            return wrong(Fault::Kind::NotAReview);
        if (!m_seen.insert(compactOf(paper)).second)
            return wrong(Fault::Kind::SignedTwice);
        const Review& review = said->review;
        if (review.visit != m_record.visit)
            return wrong(Fault::Kind::OtherVisit);
        const auto key = m_keys.find(said->thumbprint);
        if (key == m_keys.end())
            return wrong(Fault::Kind::UnknownKey);
        if (!isSignedBy(key->second, paper))
            return wrong(Fault::Kind::DoesNotVerify);
        if (review.entry >= static_cast<qint64>(m_record.chain.size()))
            return wrong(Fault::Kind::NoSuchEntry);
        if (m_record.chain[static_cast<std::size_t>(review.entry)] != review.head)
            return wrong(Fault::Kind::OtherHead);
        Reviewed one{*said, idOf(paper), m_trust.of(said->thumbprint, review.by, review.at), review.at};
        if (one.known.isOthers())
            return wrong(Fault::Kind::OtherPerson);
        m_found.reviews.push_back(std::move(one));
    }

    const Record& m_record;
    Verification m_found;
    std::map<QString, people::PublicKey> m_keys;
    people::Trust m_trust;
    std::set<QByteArray> m_seen;
};

} // namespace

QString wordOf(Fault::Kind kind)
{
    return wordIn(kWords, kind);
}

bool isVouchedFor(const Signed& one, const QSet<QString>& offices)
{
    return one.known.isVouchedFor(offices);
}

bool isVouchedFor(const Reviewed& one, const QSet<QString>& offices)
{
    return one.known.isVouchedFor(offices, people::Role::Supervisor);
}

bool Verification::breaksUpTo(qint64 entry) const
{
    return std::ranges::any_of(faults, [&](const Fault& fault) {
        return fault.kind == Fault::Kind::ChainBreaks && fault.entry <= entry;
    });
}

bool Verification::coversABreak(const Signed& one) const
{
    return breaksUpTo(one.statement.sequence);
}

bool Verification::coversABreak(const Reviewed& one) const
{
    return breaksUpTo(one.said.review.entry);
}

Verification verify(const Record& record)
{
    return Check(record).all();
}

} // namespace coldarc::record
