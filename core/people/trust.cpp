#include "core/people/trust.h"

#include <algorithm>

namespace coldarc::people {
namespace {

template<class Of>
QSet<QString> namesIn(const std::map<QString, Of>& byThumbprint)
{
    QSet<QString> names;
    for (const auto& [name, of] : byThumbprint)
        names.insert(name);
    return names;
}

} // namespace

bool KnownOfKey::isOthers() const
{
    return listed == Listed::Others ||
           (!vouchedForOthers.empty() && vouchedBy.empty() && vouchedOtherDays.empty());
}

std::vector<Certified> KnownOfKey::stillVouchedBy() const
{
    std::vector<Certified> still = vouchedBy;
    std::erase_if(still, [&](const Certified& one) { return isOutOfUseFor({one.office}); });
    return still;
}

QStringList KnownOfKey::names() const
{
    QStringList names;
    for (const auto* all : {&vouchedBy, &vouchedOtherDays, &vouchedForOthers}) {
        for (const Certified& one : *all)
            names.append(one.enrolment.name);
    }
    return names;
}

bool KnownOfKey::isOutOfUseFor(const QSet<QString>& offices) const
{
    return std::ranges::any_of(outOfUse, [&](const Retired& one) { return offices.contains(one.office); });
}

bool KnownOfKey::isVouchedFor(const QSet<QString>& offices, std::optional<Role> role) const
{
    return !isOutOfUseFor(offices) && std::ranges::any_of(vouchedBy, [&](const Certified& one) {
        return offices.contains(one.office) && one.enrolment.role == role.value_or(one.enrolment.role);
    });
}

Trust::Trust(const std::vector<PublicKey>& offices)
    : m_inOrder(offices)
{
    for (const PublicKey& key : offices)
        m_offices.emplace(thumbprint(key), key);
}

bool Trust::add(const Certificate& certificate)
{
    const auto said = saidBy(certificate);
    const auto office = said ? m_offices.find(said->office) : m_offices.end();
    if (office == m_offices.end() || !isCertifiedBy(office->second, certificate, *said))
        return false;
    m_certificates.push_back({thumbprint(said->enrolment.key), certificate, *said});
    return true;
}

bool Trust::add(const SignedRetirement& paper)
{
    const auto said = saidBy(paper);
    const auto office = said ? m_offices.find(said->office) : m_offices.end();
    if (office == m_offices.end() || !isRetiredBy(office->second, paper, *said))
        return false;
    m_retirements.push_back({thumbprint(said->retirement.key), paper, *said});
    return true;
}

/// Whether an office gave a paper depends on nothing but both; whether it is believed does.
template<class All, class Paper>
bool Trust::addTo(All& all, const Paper& paper, const All& heard)
{
    const auto found = std::ranges::find(heard, paper, &All::value_type::paper);
    if (found == heard.end())
        return add(paper);
    if (!m_offices.contains(found->said.office))
        return false;
    all.push_back(*found);
    return true;
}

bool Trust::add(const Certificate& certificate, const Trust& other)
{
    return addTo(m_certificates, certificate, other.m_certificates);
}

bool Trust::add(const SignedRetirement& paper, const Trust& other)
{
    return addTo(m_retirements, paper, other.m_retirements);
}

void Trust::add(const EnrolledKey& key)
{
    m_enrolled.emplace(thumbprint(key.publicKey), key);
}

KnownOfKey Trust::of(const QString& key, const PersonId& person, WallTime at) const
{
    using Listed = KnownOfKey::Listed;
    const bool isNamed = !person.isEmpty();
    KnownOfKey known;
    if (const auto own = m_enrolled.find(key); own != m_enrolled.end()) {
        const EnrolledKey& enrolled = own->second;
        known.listed = isNamed && enrolled.person != person              ? Listed::Others
                       : enrolled.retiredAt && at >= *enrolled.retiredAt ? Listed::Retired
                                                                         : Listed::Theirs;
    }
    for (const auto& one : m_certificates) {
        const Enrolment& enrolment = one.said.enrolment;
        if (one.key != key)
            continue;
        auto& among = isNamed && enrolment.person != person ? known.vouchedForOthers
                      : isNamed && !holdsAt(enrolment, at)  ? known.vouchedOtherDays
                                                            : known.vouchedBy;
        among.push_back(one.said);
    }
    for (const auto& one : m_retirements) {
        if (one.key == key && (!isNamed || isOutOfUseAt(one.said.retirement, at)))
            known.outOfUse.push_back(one.said);
    }
    return known;
}

std::optional<PersonId> Trust::ownerOf(const QString& key) const
{
    const auto own = m_enrolled.find(key);
    return own == m_enrolled.end() ? std::nullopt : std::optional(own->second.person);
}

QSet<QString> Trust::offices() const
{
    return namesIn(m_offices);
}

QSet<QString> Trust::listed() const
{
    return namesIn(m_enrolled);
}

std::vector<PublicKey> Trust::officesHeard() const
{
    std::vector<PublicKey> heard = m_inOrder;
    std::erase_if(heard, [&](const PublicKey& key) {
        const auto isBy = [name = thumbprint(key)](const auto& one) { return one.said.office == name; };
        return std::ranges::none_of(m_certificates, isBy) && std::ranges::none_of(m_retirements, isBy);
    });
    return heard;
}

std::vector<Certificate> Trust::certificates() const
{
    std::vector<Certificate> all;
    for (const auto& one : m_certificates)
        all.push_back(one.paper);
    return all;
}

std::vector<SignedRetirement> Trust::retirements() const
{
    std::vector<SignedRetirement> all;
    for (const auto& one : m_retirements)
        all.push_back(one.paper);
    return all;
}

} // namespace coldarc::people
