#include "core/people/sealed_key.h"

#include "core/people/sealing.h"

#include <algorithm>
#include <cstring>

using namespace Qt::StringLiterals;

namespace coldarc::people {
namespace {

Hash ownerMark(const PersonId& person)
{
    return sha256(person.text().toUtf8());
}

bool isOf(const SecretBytes& content, const Hash& owner)
{
    return std::memcmp(content.data() + SigningKey::kSeedBytes, owner.bytes().constData(), Hash::kBytes) == 0;
}

} // namespace

bool isBelowFloor(GuessCost cost)
{
    return cost.passes < kFloorCost.passes || cost.memoryKib < kFloorCost.memoryKib;
}

Result<SealedKey> sealKey(const SigningKey& key, const PersonId& person, const Passphrase& passphrase,
                          GuessCost cost)
{
    SecretBytes content(SigningKey::kSeedBytes + Hash::kBytes);
    std::memcpy(content.data(), key.seed().data(), SigningKey::kSeedBytes);
    std::memcpy(content.data() + SigningKey::kSeedBytes, ownerMark(person).bytes().constData(), Hash::kBytes);
    auto box = putAway(content, passphrase.bytes(), cost);
    if (!box)
        return tl::unexpected(box.error());
    return SealedKey{key.publicKey(), box->salt, box->nonce, box->box, box->cost};
}

Result<SigningKey> openKey(const SealedKey& sealed, const PersonId& person, const TypedSecret& passphrase)
{
    if (sealed.box.size() != SealedKey::kBoxBytes)
        return fail(Error::Kind::Malformed, u"a sealed key of %1 bytes"_s.arg(sealed.box.size()));
    const auto content = takeOut({sealed.salt, sealed.nonce, sealed.box, sealed.cost}, passphrase.bytes());
    if (!content)
        return tl::unexpected(content.error());
    SecretBytes seed(SigningKey::kSeedBytes);
    std::memcpy(seed.data(), content->data(), seed.size());
    SigningKey key = SigningKey::fromSeed(std::move(seed));
    if (key.publicKey() != sealed.publicKey || !isOf(*content, ownerMark(person)))
        return fail(Error::Kind::Refused, u"the sealed key is not this person's"_s);
    return key;
}

Result<SealedKey> changePassphrase(const SealedKey& sealed, const PersonId& person, const TypedSecret& old,
                                   const Passphrase& fresh, GuessCost cost)
{
    const auto key = openKey(sealed, person, old);
    if (!key)
        return tl::unexpected(key.error());
    const GuessCost raised{std::max(cost.passes, kFloorCost.passes),
                           std::max(cost.memoryKib, kFloorCost.memoryKib)};
    return sealKey(*key, person, fresh, raised);
}

} // namespace coldarc::people
