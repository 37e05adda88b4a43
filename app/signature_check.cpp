#include "app/signature_check.h"

#include "core/people/read_trust.h"

namespace coldarc::app {
namespace {

/// A key that nobody owns signs for nobody; an owner who cannot be read is another matter.
Result<bool> verifies(const Workspace& workspace, const store::Signature& kept,
                      const std::vector<store::Entry>& entries)
{
    const auto key = people::PublicKey::fromBytes(kept.publicKey);
    const auto signature = people::Signature::fromBytes(kept.bytes);
    const auto meaning = people::meaningFromWord(kept.meaning.toStdString());
    const auto number = static_cast<std::size_t>(kept.seq.value());
    if (!key || !signature || !meaning || number >= entries.size() || entries[number].hash != kept.head)
        return false;
    const auto trust = people::readTrust(workspace.offices, workspace.keys, {*key});
    if (!trust)
        return tl::unexpected(trust.error());
    return trust->of(people::thumbprint(*key), kept.person, kept.at).isListedAsTheirs() &&
           people::isSignedBy(*key, {kept.visit, kept.seq.value(), kept.head, *meaning, kept.at, kept.person},
                              *signature);
}

} // namespace

Result<QList<ui::WantedSignature>> brokenSignatures(const Workspace& workspace, const VisitId& visit)
{
    const auto entries = workspace.journal.entries(visit);
    if (!entries)
        return tl::unexpected(entries.error());
    const auto signatures = workspace.journal.signatures(visit);
    if (!signatures)
        return tl::unexpected(signatures.error());
    QList<ui::WantedSignature> broken;
    for (const store::Signature& one : *signatures) {
        const auto verified = verifies(workspace, one, *entries);
        if (!verified)
            return tl::unexpected(verified.error());
        if (!*verified)
            broken.append({one.seq.value(), one.person, one.meaning});
    }
    return broken;
}

} // namespace coldarc::app
