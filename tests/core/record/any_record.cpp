#include "tests/core/record/any_record.h"

#include "core/people/key_files.h"
#include "core/record/record_file.h"
#include "core/record/record_text.h"
#include "core/record/verify.h"

namespace coldarc::test {
namespace {

bool isSound(const record::Record& record)
{
    const record::Verification found = record::verify(record);
    return !found.isGood() || (!found.signatures.empty() && found.signedUpTo < found.entries);
}

bool readsFile(const QByteArray& bytes)
{
    const auto record = record::recordFromBytes(bytes);
    if (!record)
        return true;
    const auto written = record::bytesOf(*record);
    const auto again = written ? record::recordFromBytes(*written) : *record;
    return again && again->entries == record->entries && again->pictures == record->pictures &&
           record::manifestOf(*again) == record::manifestOf(*record) && isSound(*record);
}

bool readsManifest(const QByteArray& bytes)
{
    const auto record = record::recordFromManifest(bytes);
    if (!record)
        return true;
    const QByteArray written = record::manifestOf(*record);
    const auto again = record::recordFromManifest(written);
    return again && record::manifestOf(*again) == written && isSound(*record);
}

bool readsEntries(const QByteArray& bytes)
{
    const auto entries = record::entriesFromLines(bytes);
    return !entries || record::linesOf(*entries) == bytes;
}

bool readsKeyFile(const QByteArray& bytes)
{
    if (const auto request = people::keyRequestFrom(bytes))
        return people::keyRequestFrom(people::bytesOf(*request)).value() == *request;
    if (const auto file = people::certificateFileFrom(bytes))
        return people::certificateFileFrom(people::bytesOf(*file)).value() == *file;
    return true;
}

} // namespace

bool readsRecordSafely(const QByteArray& bytes)
{
    if (bytes.isEmpty())
        return true;
    const QByteArray rest = bytes.mid(1);
    switch (bytes.front()) {
    case 'f':
        return readsFile(rest);
    case 'm':
        return readsManifest(rest);
    case 'e':
        return readsEntries(rest);
    default:
        return readsKeyFile(rest);
    }
}

} // namespace coldarc::test
