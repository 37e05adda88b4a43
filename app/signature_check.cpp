#include "app/signature_check.h"

#include "core/people/read_trust.h"

namespace coldarc::app {
namespace {

enum class Stand : std::uint8_t {
    Sound,
    Bad,    ///< made to look like one of their key's: that key cannot sign there again
    Others, ///< by a key that is not theirs: it signs nothing and is in nobody's way
};

/// A key that nobody owns signs for nobody; an owner who cannot be read is another matter.
Result<Stand> standOf(const Workspace& workspace, const store::Signature& kept,
                      const std::vector<store::Entry>& entries)
{
    const auto key = people::PublicKey::fromBytes(kept.publicKey);
    const auto signature = people::Signature::fromBytes(kept.bytes);
    const auto meaning = people::meaningFromWord(kept.meaning.toStdString());
    const auto number = static_cast<std::size_t>(kept.seq.value());
    if (!key)
        return Stand::Others;
    const auto trust = people::readTrust(workspace.offices, workspace.keys, {*key});
    if (!trust)
        return tl::unexpected(trust.error());
    if (!trust->of(people::thumbprint(*key), kept.person, kept.at).isListedAsTheirs())
        return Stand::Others;
    const bool isSound =
        signature && meaning && number < entries.size() && entries[number].hash == kept.head &&
        people::isSignedBy(*key, {kept.visit, kept.seq.value(), kept.head, *meaning, kept.at, kept.person},
                           *signature);
    return isSound ? Stand::Sound : Stand::Bad;
}

} // namespace

Result<KeptSignatures> keptSignatures(const Workspace& workspace, const VisitId& visit)
{
    const auto entries = workspace.journal.entries(visit);
    if (!entries)
        return tl::unexpected(entries.error());
    const auto signatures = workspace.journal.signatures(visit);
    if (!signatures)
        return tl::unexpected(signatures.error());
    KeptSignatures found;
    QList<ui::WantedSignature> sound;
    for (const store::Signature& one : *signatures) {
        const ui::WantedSignature place{one.seq.value(), one.person, one.meaning};
        const auto stand = standOf(workspace, one, *entries);
        if (!stand)
            return tl::unexpected(stand.error());
        auto& among = *stand == Stand::Sound ? sound : found.broken;
        if (!among.contains(place))
            among.append(place);
        if (*stand != Stand::Others && !found.kept.contains(place))
            found.kept.append(place);
    }
    found.broken.removeIf([&](const ui::WantedSignature& one) { return sound.contains(one); });
    return found;
}

} // namespace coldarc::app
