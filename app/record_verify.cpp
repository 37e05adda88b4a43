#include "app/record_verify.h"

#include "app/file_arguments.h"
#include "core/base/json.h"
#include "core/record/record_file.h"
#include "core/visit/entry.h"
#include "ui/record/record_words.h"

#include <QFile>
#include <QJsonDocument>

#include <algorithm>
#include <cstdio>
#include <iterator>

using namespace Qt::StringLiterals;

namespace coldarc::app {
namespace {

using record::Fault;

enum Status {
    kAsSigned = 0,
    kNotAsSigned = 1,
    kNoRecord = 2,
};

/// Somebody else's words on one line of a terminal.
QString onOneLine(const QString& text)
{
    QString line = text.simplified();
    for (QChar& letter : line) {
        if (!letter.isPrint() && !letter.isSurrogate())
            letter = QChar::ReplacementCharacter;
    }
    return line;
}

QString meaningOf(const people::HeadStatement& said)
{
    const std::string_view word = people::wordOf(said.meaning);
    return QString::fromLatin1(word.data(), static_cast<qsizetype>(word.size()));
}

QList<review::VouchedBy> vouchingOf(const record::Signed& one)
{
    QList<review::VouchedBy> all;
    for (const people::Certified& said : one.known.stillVouchedBy()) {
        const people::Enrolment& enrolment = said.enrolment;
        all.append({said.office, enrolment.name, enrolment.role, enrolment.from, enrolment.until});
    }
    return all;
}

/// What part each reviewer had in the visit, by everything that stands in it.
void addReviewerParts(const record::Record& record, CheckedRecord& checked)
{
    if (checked.found.reviews.empty())
        return;
    const QList<visit::Entry> entries = entriesIn(record);
    const QList<review::HeadSigned> signatures = signaturesOf(checked.found);
    for (const record::Reviewed& one : checked.found.reviews) {
        checked.reviewerParts.push_back(review::partOf(reviewerOf(one), entries, signatures));
        const auto seen = std::min<qsizetype>(one.said.review.entry + 1, entries.size());
        checked.untoldParts.push_back(std::ranges::any_of(entries.first(seen), isUnreadable));
    }
}

/// What the signed entries say of people and pictures; an entry that cannot be read says nothing.
void addSaidBySigned(const record::Record& record, CheckedRecord& checked)
{
    for (const QByteArray& bytes : signedPartOf(record, checked.found)) {
        const auto entry = visit::entryFrom(bytes);
        if (!entry)
            continue;
        const auto name = [&](const visit::PersonFacts& person) {
            if (!checked.names.contains(person.id))
                checked.names.insert(person.id, person.name);
        };
        if (const auto* opening = std::get_if<visit::Opening>(&entry->body))
            std::ranges::for_each(opening->people, name);
        else if (const auto* joined = std::get_if<visit::Joined>(&entry->body))
            name(joined->person);
        for (const Hash& picture : visit::picturesOf(*entry)) {
            const bool isThere =
                std::ranges::find(record.pictures, picture, &record::Picture::hash) != record.pictures.end();
            if (!isThere && !checked.missing.contains(picture))
                checked.missing.append(picture);
        }
    }
}

QString wordFor(people::Role role)
{
    const std::string_view word = people::wordOf(role);
    return QString::fromLatin1(word.data(), static_cast<qsizetype>(word.size()));
}

template<class Paper>
QString vouchingText(const Paper& one)
{
    QString text;
    const auto add = [&](const std::vector<people::Certified>& all, const QString& end) {
        for (const people::Certified& certified : all) {
            const people::Enrolment& enrolment = certified.enrolment;
            text += u"    key of %1, %2, says office %3 (%4 to %5)%6\n"_s.arg(
                onOneLine(enrolment.name), wordFor(enrolment.role), certified.office,
                people::isoText(enrolment.from), people::isoText(enrolment.until), end);
        }
    };
    add(one.known.vouchedBy, QString());
    add(one.known.vouchedOtherDays, u", not for the day of this signature"_s);
    if (text.isEmpty())
        text = u"    nobody vouches for this key: hold it against a list that you trust\n"_s;
    for (const people::Retired& retired : one.known.outOfUse)
        text += u"    key taken out of use from %1, says office %2: this does not count\n"_s.arg(
            people::isoText(retired.retirement.since), retired.office);
    return text;
}

QString lineOf(const record::Signed& one, const CheckedRecord& record)
{
    const people::HeadStatement& said = one.statement;
    QString who = u"an older form, which names neither person nor moment"_s;
    QString when;
    if (!one.isFormer) {
        const QString name = onOneLine(record.names.value(said.person, u"not in the entries"_s));
        who = u"%1 (%2)"_s.arg(name, onOneLine(said.person.text()));
        when = u", %1"_s.arg(isoUtc(said.at));
    }
    const QString covers =
        record.found.coversABreak(one) ? u"; given over what was altered since"_s : QString();
    return u"  %1: %2, entry %3%4, key %5%6\n"_s.arg(who, meaningOf(said), QString::number(said.sequence),
                                                     when, one.thumbprint, covers) +
           vouchingText(one);
}

/// Names of the reviewer's key in certificates that are not the one that the reviewer gives.
QStringList namedOtherwise(const record::Reviewed& one)
{
    const review::Reviewer reviewer = reviewerOf(one);
    QStringList names = reviewer.otherNames;
    names.removeIf([&](const QString& name) { return review::isSameName(name, reviewer.person.name); });
    names.removeDuplicates();
    return names;
}

/// "as-signed", "not-as-signed", or "reviewed-by-own" of one that is as it was signed, with a review by
/// somebody who had a part in the visit.
QString stateOf(const CheckedRecord& record)
{
    if (!record.found.isGood() || !record.missing.isEmpty())
        return u"not-as-signed"_s;
    return record.isReviewedByOwn() ? u"reviewed-by-own"_s : u"as-signed"_s;
}

QString verdictText(record::Verdict verdict)
{
    return verdict == record::Verdict::Accepted ? u"accepted"_s : u"sent back"_s;
}

QString textOf(const record::Reviewed& one, const std::optional<review::ReviewRefusal>& part, bool isUntold,
               const record::Verification& found)
{
    const record::Review& said = one.said.review;
    QString text = u"  review by %1 (%2): %3, looked at up to entry %4, %5, key %6%7\n"_s.arg(
        onOneLine(said.name), onOneLine(said.by.text()), verdictText(said.verdict),
        QString::number(said.entry), isoUtc(said.at), one.said.thumbprint,
        found.coversABreak(one) ? u"; given over what was altered since"_s : QString());
    text += vouchingText(one);
    if (!said.text.isEmpty())
        text += u"    says: %1\n"_s.arg(onOneLine(said.text));
    for (const record::ReviewRemark& remark : said.remarks)
        text += u"    says of entry %1: %2\n"_s.arg(QString::number(remark.entry), onOneLine(remark.text));
    if (part && part->kind == review::ReviewRefusal::Kind::TookPart)
        text += u"    NO REVIEW: the reviewer had a part in the visit, see entry %1\n"_s.arg(part->entry);
    else if (part)
        text +=
            u"    NO REVIEW: somebody of the reviewer's name had a part in the visit, see entry %1\n"_s.arg(
                part->entry);
    else if (isUntold)
        text +=
            u"    whether the reviewer had a part cannot be told: there are entries that cannot be read\n"_s;
    for (const QString& name : namedOtherwise(one))
        text += u"    the reviewer's key is certified for another name: %1\n"_s.arg(onOneLine(name));
    return text;
}

QString textOf(const CheckedRecord& record)
{
    if (!record.unread.isEmpty())
        return u"%1: no record: %2\n"_s.arg(record.file, onOneLine(record.unread));
    const record::Verification& found = record.found;
    QString text = u"%1: visit %2, %3 entries, signed up to entry %4: %5\n"_s.arg(
        record.file, onOneLine(found.visit.text()), QString::number(found.entries),
        QString::number(found.signedUpTo),
        !found.isGood()            ? u"NOT as it was signed"_s
        : record.isReviewedByOwn() ? u"as it was signed, and REVIEWED BY SOMEBODY WHO HAD A PART in it"_s
                                   : u"as it was signed"_s);
    for (const record::Signed& one : found.signatures)
        text += lineOf(one, record);
    for (std::size_t place = 0; place < found.reviews.size(); ++place)
        text += textOf(found.reviews[place], record.reviewerParts[place], record.untoldParts[place], found);
    for (const Fault& fault : found.faults)
        text += u"  %1 %2\n"_s.arg(onOneLine(ui::placeOf(fault)), ui::sentenceOf(fault.kind));
    for (const Hash& picture : record.missing)
        text += u"  picture %1 is named by an entry and not there\n"_s.arg(picture.hex());
    for (const record::Signed& one : record.unvouched)
        text += u"  office %1 does not vouch for key %2\n"_s.arg(record.office, one.thumbprint);
    for (const record::Reviewed& one : record.unvouchedReviews)
        text += u"  office %1 does not vouch for key %2 as that of a supervisor\n"_s.arg(record.office,
                                                                                         one.said.thumbprint);
    return text;
}

QByteArray textReport(const QList<CheckedRecord>& records)
{
    QString text;
    for (const CheckedRecord& record : records)
        text += textOf(record);
    text += u"Whose a key is, an office says, and which office to believe, no record can tell: hold its "
            u"thumbprint "
            "against one that you know (--office THUMBPRINT).\n"_s;
    return text.toUtf8();
}

QJsonArray vouchingJson(const std::vector<people::Certified>& all)
{
    QJsonArray array;
    for (const people::Certified& certified : all)
        array.append(QJsonObject{{u"office"_s, certified.office},
                                 {u"person"_s, certified.enrolment.person.text()},
                                 {u"name"_s, certified.enrolment.name},
                                 {u"role"_s, wordFor(certified.enrolment.role)},
                                 {u"from"_s, people::isoText(certified.enrolment.from)},
                                 {u"until"_s, people::isoText(certified.enrolment.until)}});
    return array;
}

QJsonArray outOfUseJson(const std::vector<people::Retired>& all)
{
    QJsonArray array;
    for (const people::Retired& retired : all)
        array.append(QJsonObject{{u"office"_s, retired.office},
                                 {u"since"_s, people::isoText(retired.retirement.since)}});
    return array;
}

QJsonObject toJson(const record::Signed& one, const record::Verification& found)
{
    QJsonObject object{{u"entry"_s, one.statement.sequence},
                       {u"meaning"_s, meaningOf(one.statement)},
                       {u"kid"_s, one.thumbprint},
                       {u"former"_s, one.isFormer},
                       {u"vouched_by"_s, vouchingJson(one.known.vouchedBy)},
                       {u"vouched_other_days"_s, vouchingJson(one.known.vouchedOtherDays)},
                       {u"out_of_use"_s, outOfUseJson(one.known.outOfUse)},
                       {u"over_a_break"_s, found.coversABreak(one)}};
    if (!one.isFormer) {
        object.insert(u"at"_s, isoUtc(one.statement.at));
        object.insert(u"person"_s, one.statement.person.text());
    }
    return object;
}

QJsonObject toJson(const record::Reviewed& one, const std::optional<review::ReviewRefusal>& part,
                   bool isUntold, const record::Verification& found)
{
    const record::Review& said = one.said.review;
    QJsonArray remarks;
    for (const record::ReviewRemark& remark : said.remarks)
        remarks.append(QJsonObject{{u"entry"_s, remark.entry}, {u"text"_s, remark.text}});
    QJsonObject object{{u"entry"_s, said.entry},
                       {u"verdict"_s, record::wordOf(said.verdict)},
                       {u"text"_s, said.text},
                       {u"remarks"_s, remarks},
                       {u"by"_s, said.by.text()},
                       {u"name"_s, said.name},
                       {u"at"_s, isoUtc(said.at)},
                       {u"kid"_s, one.said.thumbprint},
                       {u"vouched_by"_s, vouchingJson(one.known.vouchedBy)},
                       {u"vouched_other_days"_s, vouchingJson(one.known.vouchedOtherDays)},
                       {u"out_of_use"_s, outOfUseJson(one.known.outOfUse)},
                       {u"over_a_break"_s, found.coversABreak(one)},
                       {u"reviewer_took_part"_s, part.has_value()},
                       {u"part_cannot_be_told"_s, !part && isUntold},
                       {u"named_otherwise"_s, QJsonArray::fromStringList(namedOtherwise(one))}};
    if (part)
        object.insert(u"part_in_entry"_s, part->entry);
    return object;
}

QJsonObject toJson(const Fault& fault)
{
    QJsonObject object{{u"fault"_s, record::wordOf(fault.kind)}};
    if (fault.entry >= 0)
        object.insert(u"entry"_s, fault.entry);
    if (fault.signature >= 0)
        object.insert(u"signature"_s, fault.signature + 1);
    if (!fault.picture.isEmpty())
        object.insert(u"picture"_s, fault.picture);
    if (fault.certificate >= 0)
        object.insert(u"certificate"_s, fault.certificate + 1);
    if (fault.review >= 0)
        object.insert(u"review"_s, fault.review + 1);
    return object;
}

QJsonObject toJson(const CheckedRecord& record)
{
    if (!record.unread.isEmpty())
        return {{u"file"_s, record.file}, {u"state"_s, u"no-record"_s}, {u"why"_s, record.unread}};
    QJsonArray signatures;
    for (const record::Signed& one : record.found.signatures)
        signatures.append(toJson(one, record.found));
    QJsonArray reviews;
    for (std::size_t place = 0; place < record.found.reviews.size(); ++place)
        reviews.append(toJson(record.found.reviews[place], record.reviewerParts[place],
                              record.untoldParts[place], record.found));
    QJsonArray faults;
    for (const Fault& fault : record.found.faults)
        faults.append(toJson(fault));
    QJsonArray missing;
    for (const Hash& picture : record.missing)
        missing.append(picture.hex());
    QJsonArray unvouched;
    for (const record::Signed& one : record.unvouched)
        unvouched.append(one.thumbprint);
    for (const record::Reviewed& one : record.unvouchedReviews)
        unvouched.append(one.said.thumbprint);
    QJsonObject names;
    for (auto name = record.names.begin(); name != record.names.end(); ++name)
        names.insert(name.key().text(), name.value());
    return {{u"file"_s, record.file},
            {u"state"_s, stateOf(record)},
            {u"visit"_s, record.found.visit.text()},
            {u"entries"_s, record.found.entries},
            {u"signed_up_to"_s, record.found.signedUpTo},
            {u"names"_s, names},
            {u"signatures"_s, signatures},
            {u"reviews"_s, reviews},
            {u"faults"_s, faults},
            {u"missing_pictures"_s, missing},
            {u"not_vouched_for"_s, unvouched}};
}

QByteArray jsonReport(const QList<CheckedRecord>& records)
{
    QJsonArray list;
    for (const CheckedRecord& record : records)
        list.append(toJson(record));
    return QJsonDocument(QJsonObject{{u"records"_s, list}}).toJson();
}

} // namespace

bool CheckedRecord::isReviewedByOwn() const
{
    return std::ranges::any_of(reviewerParts, [](const auto& part) { return part.has_value(); });
}

std::span<const QByteArray> signedPartOf(const record::Record& record, const record::Verification& found)
{
    const auto covered = static_cast<std::size_t>(found.signedUpTo + 1);
    return std::span(record.entries).first(std::min(covered, record.entries.size()));
}

QList<review::HeadSigned> signaturesOf(const record::Verification& found)
{
    QList<review::HeadSigned> all;
    for (const record::Signed& one : found.signatures) {
        const people::HeadStatement& said = one.statement;
        const auto meaning = people::wordOf(said.meaning);
        all.append({said.sequence, said.person,
                    QString::fromLatin1(meaning.data(), static_cast<qsizetype>(meaning.size())), said.at,
                    true, one.thumbprint, vouchingOf(one), one.isFormer, !one.known.outOfUse.empty()});
    }
    std::ranges::stable_sort(all, {}, &review::HeadSigned::entry);
    return all;
}

bool isUnreadable(const visit::Entry& entry)
{
    return std::holds_alternative<visit::Unknown>(entry.body);
}

QList<visit::Entry> entriesIn(const record::Record& record)
{
    QList<visit::Entry> entries;
    for (const QByteArray& bytes : record.entries)
        entries.append(visit::entryFrom(bytes).value_or(visit::Entry{{}, {}, visit::Unknown{}}));
    return entries;
}

review::Reviewer reviewerOf(const record::Reviewed& one)
{
    review::Reviewer reviewer;
    reviewer.person.id = one.said.review.by;
    reviewer.person.name = one.said.review.name;
    reviewer.key = one.said.thumbprint;
    for (const auto* all : {&one.known.vouchedBy, &one.known.vouchedOtherDays}) {
        for (const people::Certified& certified : *all)
            reviewer.otherNames.append(certified.enrolment.name);
    }
    return reviewer;
}

CheckedRecord checkRecord(const QString& file, const record::Record& record)
{
    CheckedRecord checked{file, {}, record::verify(record)};
    addSaidBySigned(record, checked);
    addReviewerParts(record, checked);
    return checked;
}

QList<CheckedRecord> checkRecords(const QStringList& files, const QString& office)
{
    QList<CheckedRecord> records;
    for (const QString& file : files) {
        const auto read = record::readRecord(file);
        if (!read) {
            records.append({file, read.error().detail});
            continue;
        }
        CheckedRecord checked = checkRecord(file, *read);
        if (!office.isEmpty()) {
            checked.office = office;
            std::ranges::copy_if(
                checked.found.signatures, std::back_inserter(checked.unvouched),
                [&](const record::Signed& one) { return !record::isVouchedFor(one, {office}); });
            std::ranges::copy_if(
                checked.found.reviews, std::back_inserter(checked.unvouchedReviews),
                [&](const record::Reviewed& one) { return !record::isVouchedFor(one, {office}); });
        }
        records.append(std::move(checked));
    }
    return records;
}

VerifyReport verifyReport(const QList<CheckedRecord>& records, bool asJson)
{
    const QByteArray text = asJson ? jsonReport(records) : textReport(records);
    const auto isUnread = [](const CheckedRecord& one) { return !one.unread.isEmpty(); };
    if (std::ranges::any_of(records, isUnread))
        return {text, kNoRecord};
    return {text, std::ranges::all_of(records, &CheckedRecord::isGood) ? kAsSigned : kNotAsSigned};
}

int verifyCommand(const QStringList& arguments)
{
    const auto asked = fileArguments(arguments, u"--office"_s);
    if (!asked) {
        std::fputs("coldarc verify [--json] [--office THUMBPRINT] FILE...\n", stderr);
        return kNoRecord;
    }
    const VerifyReport report = verifyReport(checkRecords(asked->files, asked->value), asked->asJson);
    QFile out;
    const bool isWritten =
        out.open(stdout, QIODevice::WriteOnly) && out.write(report.text) == report.text.size() && out.flush();
    return isWritten ? report.status : kNoRecord;
}

} // namespace coldarc::app
