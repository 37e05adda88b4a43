#include "core/review/reviewing.h"

#include "core/base/words.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::review {
namespace {

using Kind = ReviewRefusal::Kind;
using Verdict = people::Authority::Verdict;

constexpr Words<Stand, 4> kStands{{{Stand::Waiting, u"waiting"},
                                   {Stand::Accepted, u"accepted"},
                                   {Stand::SentBack, u"sent-back"},
                                   {Stand::Answered, u"answered"}}};

template<class Body, class... Kinds>
concept OneOf = (std::same_as<Body, Kinds> || ...);

/// Whom each kind of entry names beside its writer. A new kind does not compile until it is said here.
struct Named {
    QList<PersonId> operator()(const visit::Opening& opening) const
    {
        QList<PersonId> people;
        for (const visit::PersonFacts& person : opening.people)
            people.append(person.id);
        return people;
    }
    QList<PersonId> operator()(const visit::Joined& joined) const { return {joined.person.id}; }
    QList<PersonId> operator()(const visit::Did& did) const
    {
        return {did.act ? did.act->person : PersonId(), did.countersignedBy};
    }
    QList<PersonId> operator()(const visit::Acted& acted) const
    {
        return {acted.act.person, acted.countersignedBy};
    }
    template<OneOf<visit::IncidentAnswered, visit::FanAnswered, visit::LocksSeen, visit::Withdrawn> Body>
    QList<PersonId> operator()(const Body& body) const
    {
        return {body.countersignedBy};
    }
    QList<PersonId> operator()(const visit::Happened& happened) const { return {happened.person}; }
    QList<PersonId> operator()(const visit::PassedOn& passed) const { return {passed.from, passed.to}; }
    QList<PersonId> operator()(const visit::LockRemoved& removed) const
    {
        return {removed.owner, removed.supervisor};
    }
    QList<PersonId> operator()(const visit::Left& left) const { return {left.person}; }
    /// These name nobody of ours but their writer; the site's contact has a name and no id.
    template<
        OneOf<visit::LampRead, visit::SerialPassed, visit::LightRead, visit::LightSet, visit::ScreenRead,
              visit::ScreenConditions, visit::ScreenLimits, visit::Owed, visit::Noted, visit::PictureKept,
              visit::Resumed, visit::SafeBegun, visit::RemovalTold, visit::CustodyDecided, visit::Signed,
              visit::SiteSigned, visit::Closed, visit::Addendum, visit::Unknown>
            Body>
    QList<PersonId> operator()(const Body&) const
    {
        return {};
    }
};

/// What nobody sees in a name tells no two people apart.
QString plainName(QString name)
{
    name.removeIf([](QChar letter) { return letter.category() == QChar::Other_Format; });
    return name.normalized(QString::NormalizationForm_KC).simplified().toCaseFolded();
}

bool isNameOf(const Reviewer& reviewer, const QString& name)
{
    return isSameName(name, reviewer.person.name) ||
           std::ranges::any_of(reviewer.otherNames,
                               [&](const QString& other) { return isSameName(name, other); });
}

bool isNamedAlike(const visit::Entry& entry, const Reviewer& reviewer)
{
    return std::ranges::any_of(factsIn(entry), [&](const visit::PersonFacts& one) {
        return one.id != reviewer.person.id && isNameOf(reviewer, one.name);
    });
}

/// Whoever has the key that signed is known to an office by a name of the reviewer's.
bool isVouchedAlike(const HeadSigned& signature, const Reviewer& reviewer)
{
    return std::ranges::any_of(signature.vouchedBy,
                               [&](const VouchedBy& one) { return isNameOf(reviewer, one.name); });
}

/// The latest moment at which this review would stand where it does not belong; nothing: it belongs there.
std::optional<WallTime> clockBehind(const record::Review& review, const VisitAtReview& visit)
{
    std::optional<WallTime> latest;
    const auto look = [&](WallTime after) {
        if (review.at <= after && (!latest || after > *latest))
            latest = after;
    };
    if (!visit.entries.isEmpty())
        look(visit.entries.last().at.wall - kMostClockDifference - std::chrono::milliseconds(1));
    for (const record::Review& kept : visit.reviews) {
        if (kept.entry >= review.entry)
            look(kept.at);
    }
    return latest;
}

/// The first entry of which this is so; -1 where none is.
template<class Test>
qint64 firstOf(const QList<visit::Entry>& entries, const Test& test)
{
    const auto found = std::ranges::find_if(entries, test);
    return found == entries.end() ? -1 : found - entries.begin();
}

/// Whatever is wrong with the words of a review.
QList<ReviewRefusal> wordsRefused(const record::Review& review, qint64 entries)
{
    QList<ReviewRefusal> refusals;
    if (review.verdict == record::Verdict::SentBack && review.text.trimmed().isEmpty())
        refusals.append({Kind::TextMissing});
    for (qsizetype place = 0; place < review.remarks.size(); ++place) {
        const record::ReviewRemark& remark = review.remarks[place];
        if (remark.text.trimmed().isEmpty())
            refusals.append({Kind::RemarkEmpty, -1, place});
        if (remark.entry < 0 || remark.entry >= entries)
            refusals.append({Kind::RemarkOnNoEntry, remark.entry, place});
    }
    if (record::isTooLong(review))
        refusals.append({Kind::TooLong});
    return refusals;
}

} // namespace

QString wordOf(Stand stand)
{
    return wordIn(kStands, stand);
}

std::optional<Stand> standFromWord(const QString& word)
{
    return valueIn(kStands, word);
}

Stand standOf(const QList<record::Review>& reviews, qint64 entries)
{
    if (reviews.isEmpty())
        return Stand::Waiting;
    const record::Review* last = &reviews.first();
    for (const record::Review& one : reviews) {
        if (std::pair(one.entry, one.at) >= std::pair(last->entry, last->at))
            last = &one;
    }
    const bool isAnythingNew = last->entry < entries - 1;
    if (last->verdict == record::Verdict::SentBack)
        return isAnythingNew ? Stand::Answered : Stand::SentBack;
    return isAnythingNew ? Stand::Waiting : Stand::Accepted;
}

QList<visit::PersonFacts> factsIn(const visit::Entry& entry)
{
    if (const auto* opening = std::get_if<visit::Opening>(&entry.body))
        return opening->people;
    const auto* joined = std::get_if<visit::Joined>(&entry.body);
    return joined ? QList<visit::PersonFacts>{joined->person} : QList<visit::PersonFacts>();
}

QList<PersonId> peopleIn(const visit::Entry& entry)
{
    QList<PersonId> people{entry.by};
    for (const PersonId& one : std::visit(Named(), entry.body)) {
        if (!one.isEmpty() && !people.contains(one))
            people.append(one);
    }
    return people;
}

bool isSameName(const QString& one, const QString& other)
{
    return plainName(one) == plainName(other);
}

QStringList namedOtherwise(const Reviewer& reviewer)
{
    QStringList names = reviewer.otherNames;
    names.removeIf([&](const QString& name) { return isSameName(name, reviewer.person.name); });
    names.removeDuplicates();
    return names;
}

std::optional<ReviewRefusal> partOf(const Reviewer& reviewer, const QList<visit::Entry>& entries,
                                    const QList<HeadSigned>& signatures)
{
    const qint64 named = firstOf(
        entries, [&](const visit::Entry& entry) { return peopleIn(entry).contains(reviewer.person.id); });
    if (named >= 0)
        return ReviewRefusal{Kind::TookPart, named};
    const auto own = std::ranges::find_if(signatures, [&](const HeadSigned& one) {
        return one.person == reviewer.person.id || (!reviewer.key.isEmpty() && one.key == reviewer.key);
    });
    if (own != signatures.end())
        return ReviewRefusal{Kind::TookPart, own->entry};
    const qint64 alike =
        firstOf(entries, [&](const visit::Entry& one) { return isNamedAlike(one, reviewer); });
    if (alike >= 0)
        return ReviewRefusal{Kind::NameTookPart, alike};
    const auto vouched = std::ranges::find_if(
        signatures, [&](const HeadSigned& one) { return isVouchedAlike(one, reviewer); });
    return vouched != signatures.end() ? std::optional(ReviewRefusal{Kind::NameTookPart, vouched->entry})
                                       : std::nullopt;
}

/// A visit without a swap asks for one model that nobody has, so that only an authorisation for all counts.
Verdict supervises(const Reviewer& reviewer, const visit::VisitState& state, people::Day day)
{
    QList<ModelId> models;
    for (const visit::SwapState& swap : state.swaps)
        models.append(state.ground->models[swap.lamphouse]);
    if (models.isEmpty())
        models.append(ModelId());
    Verdict worst = Verdict::Valid;
    for (const ModelId& model : models) {
        const people::Authority found = people::authorityOf(reviewer.person, reviewer.authorisations,
                                                            people::Duty::Supervise, model, day);
        worst = std::max(worst, found.verdict);
    }
    return worst;
}

QList<ReviewRefusal> mayTakeUp(const Reviewer& reviewer, const VisitAtReview& visit, people::Day today)
{
    if (visit.state.isReadOnly || !visit.state.ground)
        return {{Kind::NotUnderstood}};
    QList<ReviewRefusal> refusals;
    if (visit.state.end.isEmpty())
        refusals.append({Kind::NotOver});
    if (const auto part = partOf(reviewer, visit.entries, visit.signatures))
        refusals.append(*part);
    if (const Verdict verdict = supervises(reviewer, visit.state, today); verdict != Verdict::Valid)
        refusals.append({Kind::NoAuthority, -1, -1, verdict});
    return refusals;
}

QList<ReviewRefusal> mayReview(const record::Review& review, const Reviewer& reviewer,
                               const VisitAtReview& visit, people::Day today)
{
    QList<ReviewRefusal> refusals = mayTakeUp(reviewer, visit, today);
    if (visit.state.ground && review.visit != visit.state.ground->opening.visit)
        refusals.append({Kind::OtherVisit});
    if (review.by != reviewer.person.id || review.name != reviewer.person.name)
        refusals.append({Kind::OtherPerson});
    const auto entries = static_cast<qint64>(visit.entries.size());
    if (review.entry != entries - 1 || review.head != visit.head)
        refusals.append({Kind::NotTheLastEntry});
    if (const auto after = clockBehind(review, visit))
        refusals.append({Kind::ClockBehind, -1, -1, Verdict::Valid, *after});
    return refusals + wordsRefused(review, entries);
}

} // namespace coldarc::review
