#include "app/record_verify.h"

#include "app/file_arguments.h"
#include "app/usage.h"
#include "core/base/json.h"
#include "core/base/words.h"
#include "core/record/record_file.h"
#include "core/review/record_doubts.h"
#include "ui/record/record_words.h"

#include <QFile>
#include <QJsonDocument>

#include <algorithm>
#include <cstdio>

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

template<class Paper>
QString vouchingText(const Paper& one)
{
    QString text;
    const auto add = [&](const std::vector<people::Certified>& all, const QString& end) {
        for (const people::Certified& certified : all) {
            const people::Enrolment& enrolment = certified.enrolment;
            text += u"    key of %1, %2, says office %3 (%4 to %5)%6\n"_s.arg(
                onOneLine(enrolment.name), wordText(people::wordOf(enrolment.role)), certified.office,
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

/// What speaks against a signature or a review, on a line of its own; empty: that is told elsewhere.
QString doubtText(record::Intake::Why why)
{
    using Why = record::Intake::Why;
    const auto line = [](const char* text) { return u"    %1\n"_s.arg(QLatin1StringView(text)); };
    switch (why) {
    case Why::SignatureMisdated:
        return line("DATED LONG BEFORE the entry that it is over was written");
    case Why::SignerNamedOtherwise:
        return line("the entries name them otherwise than whoever vouches for the key");
    case Why::LeadNotVouched:
        return line(
            "SIGNS FOR THE WORK, and whoever vouches for the key knows them in a role that leads none");
    case Why::NotUnderstood:
        return line("whether the visit was over there cannot be told: there are entries that cannot be read");
    case Why::VisitNotOver:
        return line("NO REVIEW: the visit was not over there");
    case Why::ReviewMisdated:
        return line("dated long before the entry that it looked at last, or after today");
    case Why::ReviewOfUnsigned:
        return line("looked at entries that nobody signed");
    case Why::ReviewerNotVouched:
        return line("NO REVIEW unless you know the key as a supervisor's: nobody vouches for it as that");
    default:
        return {};
    }
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
    return u"  %1: %2, entry %3%4, key %5%6\n"_s.arg(who, wordText(people::wordOf(said.meaning)),
                                                     QString::number(said.sequence), when, one.thumbprint,
                                                     covers) +
           vouchingText(one);
}

/// "as-signed", "not-as-signed", or of one that is as it was signed "in-doubt", see RecordDoubts::isGood, and
/// "reviewed-by-own", with a review by somebody who had a part in the visit.
QString stateOf(const CheckedRecord& record)
{
    if (!record.isAsSigned())
        return u"not-as-signed"_s;
    if (!record.doubts.isGood())
        return u"in-doubt"_s;
    return record.isReviewedByOwn() ? u"reviewed-by-own"_s : u"as-signed"_s;
}

QString verdictText(record::Verdict verdict)
{
    return verdict == record::Verdict::Accepted ? u"accepted"_s : u"sent back"_s;
}

QString textOf(const record::Reviewed& one, const std::optional<review::ReviewRefusal>& part, bool isUntold,
               const QList<record::Intake::Why>& doubts, const record::Verification& found)
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
    for (const QString& name : namedOtherwise(review::reviewerOf(one)))
        text += u"    the reviewer's key is certified for another name: %1\n"_s.arg(onOneLine(name));
    for (const record::Intake::Why why : doubts)
        text += doubtText(why);
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
        !record.isAsSigned()       ? u"NOT as it was signed"_s
        : !record.doubts.isGood()  ? u"as it was signed, and IN DOUBT, see below"_s
        : record.isReviewedByOwn() ? u"as it was signed, and REVIEWED BY SOMEBODY WHO HAD A PART in it"_s
                                   : u"as it was signed"_s);
    if (!record.isOver)
        text += u"  the visit was not over at entry %1\n"_s.arg(found.signedUpTo);
    const review::RecordDoubts& doubts = record.doubts;
    if (doubts.opensAnother)
        text += u"  ITS ENTRIES ARE THOSE OF ANOTHER VISIT, signed once more as those of this one\n"_s;
    for (std::size_t place = 0; place < found.signatures.size(); ++place) {
        text += lineOf(found.signatures[place], record);
        if (place < doubts.signatures.size())
            text += doubtText(doubts.signatures[place]);
    }
    for (const visit::WantedSignature& one : doubts.missing)
        text += u"  NO KEY OF %1 (%2) signed entry %3, %4, which says that they did\n"_s.arg(
            onOneLine(record.names.value(one.person, u"somebody who is not in the entries"_s)),
            onOneLine(one.person.text()), QString::number(one.entry), onOneLine(one.meaning));
    for (std::size_t place = 0; place < found.reviews.size(); ++place) {
        const auto whys =
            place < doubts.reviews.size() ? doubts.reviews[place] : QList<record::Intake::Why>();
        text +=
            textOf(found.reviews[place], record.reviewerParts[place], record.untoldParts[place], whys, found);
    }
    for (const Fault& fault : found.faults)
        text += u"  %1 %2\n"_s.arg(onOneLine(ui::placeOf(fault)), ui::sentenceOf(fault.kind));
    for (const Hash& picture : record.missing)
        text += u"  picture %1 is named by an entry and not there\n"_s.arg(picture.hex());
    for (const Hash& picture : record.unnamed)
        text += u"  picture %1 is named by no entry: it is no part of the visit\n"_s.arg(picture.hex());
    for (const Hash& picture : record.namedUnsigned)
        text += u"  picture %1 is named by no entry that somebody signed\n"_s.arg(picture.hex());
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
    const bool isHeldAgainst = std::ranges::all_of(
        records, [](const CheckedRecord& one) { return !one.unread.isEmpty() || !one.office.isEmpty(); });
    if (std::ranges::any_of(records, [](const CheckedRecord& one) { return one.unread.isEmpty(); }))
        text +=
            u"What was cut off behind the last entry, and a signature, review or retirement that was taken "
            "out, no record can tell.\n"_s;
    if (isHeldAgainst)
        return text.toUtf8();
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
                                 {u"role"_s, wordText(people::wordOf(certified.enrolment.role))},
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
                       {u"meaning"_s, wordText(people::wordOf(one.statement.meaning))},
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
    QJsonObject object{
        {u"entry"_s, said.entry},
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
        {u"named_otherwise"_s, QJsonArray::fromStringList(namedOtherwise(review::reviewerOf(one)))}};
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
    const review::RecordDoubts& doubts = record.doubts;
    for (std::size_t place = 0; place < record.found.signatures.size(); ++place) {
        QJsonObject one = toJson(record.found.signatures[place], record.found);
        if (place < doubts.signatures.size())
            one.insert(u"doubt"_s, record::wordOf(doubts.signatures[place]));
        signatures.append(one);
    }
    QJsonArray reviews;
    for (std::size_t place = 0; place < record.found.reviews.size(); ++place) {
        QJsonObject one = toJson(record.found.reviews[place], record.reviewerParts[place],
                                 record.untoldParts[place], record.found);
        QJsonArray whys;
        for (const record::Intake::Why why :
             place < doubts.reviews.size() ? doubts.reviews[place] : QList<record::Intake::Why>())
            whys.append(record::wordOf(why));
        one.insert(u"doubts"_s, whys);
        reviews.append(one);
    }
    QJsonArray missing;
    for (const visit::WantedSignature& one : doubts.missing)
        missing.append(QJsonObject{
            {u"entry"_s, one.entry}, {u"person"_s, one.person.text()}, {u"meaning"_s, one.meaning}});
    QJsonArray faults;
    for (const Fault& fault : record.found.faults)
        faults.append(toJson(fault));
    const auto namesOf = [](const QList<Hash>& pictures) {
        QJsonArray names;
        for (const Hash& picture : pictures)
            names.append(picture.hex());
        return names;
    };
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
            {u"over"_s, record.isOver},
            {u"names"_s, names},
            {u"opens_another"_s, doubts.opensAnother},
            {u"signatures"_s, signatures},
            {u"missing_signatures"_s, missing},
            {u"reviews"_s, reviews},
            {u"faults"_s, faults},
            {u"missing_pictures"_s, namesOf(record.missing)},
            {u"unnamed_pictures"_s, namesOf(record.unnamed)},
            {u"unsigned_pictures"_s, namesOf(record.namedUnsigned)},
            {u"not_vouched_for"_s, unvouched}};
}

/// Whether it can be that of a key: a hash in base64url.
bool isThumbprint(const QString& text)
{
    const auto bytes = people::fromBase64Url(text.toLatin1());
    return bytes && bytes->size() == Hash::kBytes;
}

QByteArray jsonReport(const QList<CheckedRecord>& records)
{
    QJsonArray list;
    for (const CheckedRecord& record : records)
        list.append(toJson(record));
    return QJsonDocument(QJsonObject{{u"records"_s, list}}).toJson();
}

} // namespace

QList<CheckedRecord> checkRecords(const QStringList& files, const QString& office,
                                  std::optional<WallTime> now)
{
    QList<CheckedRecord> records;
    for (const QString& file : files) {
        const auto read = record::readRecord(file);
        records.append(read ? review::checkRecord(file, *read, office)
                            : CheckedRecord{file, read.error().detail});
        CheckedRecord& checked = records.back();
        if (read)
            checked.doubts = review::doubtsOf(checked, review::foldRecord(checked), now);
        checked.entries.clear(); // the report tells of none, and records may be many
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

int verifyCommand(const QStringList& arguments, std::optional<WallTime> now)
{
    const auto asked = fileArguments(arguments, u"--office"_s);
    if (!asked) {
        std::fprintf(stderr, "%s\n", kVerifyUsage);
        return kNoRecord;
    }
    const QString office = asked->value.simplified().remove(u' '); // it is shown in groups
    if (!office.isEmpty() && !isThumbprint(office)) {
        std::fprintf(
            stderr,
            "coldarc verify: \"%s\" is no thumbprint of a key, which is 43 letters, figures, - and _\n",
            qUtf8Printable(asked->value));
        return kNoRecord;
    }
    const VerifyReport report = verifyReport(checkRecords(asked->files, office, now), asked->asJson);
    QFile out;
    const bool isWritten =
        out.open(stdout, QIODevice::WriteOnly) && out.write(report.text) == report.text.size() && out.flush();
    return isWritten ? report.status : kNoRecord;
}

} // namespace coldarc::app
