#include "ui/record/record_words.h"

#include <QCoreApplication>

using namespace Qt::StringLiterals;

namespace coldarc::ui {

using record::Fault;
using record::Intake;

namespace {

QString say(const char* text)
{
    return QCoreApplication::translate("record", text);
}

} // namespace

QString placeOf(const Fault& fault)
{
    QStringList parts;
    if (fault.signature >= 0)
        parts << say("signature %1").arg(fault.signature + 1);
    if (fault.entry >= 0)
        parts << say("entry %1").arg(fault.entry);
    if (!fault.picture.isEmpty())
        parts << say("picture %1").arg(fault.picture);
    if (fault.certificate >= 0)
        parts << say("certificate %1").arg(fault.certificate + 1);
    if (fault.review >= 0)
        parts << say("review %1").arg(fault.review + 1);
    return parts.isEmpty() ? say("the record") : parts.join(u", "_s);
}

QString sentenceOf(Fault::Kind kind)
{
    switch (kind) {
    case Fault::Kind::NoEntries:
        return say("has no entries");
    case Fault::Kind::ChainBreaks:
        return say("is not as it was written: the chain breaks here");
    case Fault::Kind::LinksMissing:
        return say("has not one link for each entry: entries were taken out or put in");
    case Fault::Kind::NothingSigned:
        return say("was signed by nobody");
    case Fault::Kind::NotAHead:
        return say("is over something that is no head of a visit");
    case Fault::Kind::OtherVisit:
        return say("belongs to another visit");
    case Fault::Kind::NoSuchEntry:
        return say("is over an entry that is not there: the end was cut off");
    case Fault::Kind::OtherHead:
        return say("was given when the entries up to there were others");
    case Fault::Kind::UnknownKey:
        return say("was given with a key that is not in the record");
    case Fault::Kind::DoesNotVerify:
        return say("does not verify: what was signed, or the signature, was altered");
    case Fault::Kind::SignedTwice:
        return say("stands there twice");
    case Fault::Kind::PictureAltered:
        return say("is not the picture that the entry names");
    case Fault::Kind::CertificateAltered:
        return say("was altered, or no office of the record gave it");
    case Fault::Kind::OtherPerson:
        return say("was given with the key of somebody else");
    case Fault::Kind::NotAReview:
        return say("is no review");
    }
    Q_UNREACHABLE();
}

QString sentenceOf(record::TakenRecord::Trouble trouble)
{
    using Trouble = record::TakenRecord::Trouble;
    switch (trouble) {
    case Trouble::NotOpened:
        return say("The file could not be opened. Nothing was changed: see that it is still there and can be "
                   "read.");
    case Trouble::NoRecord:
        return say("This is no record of a visit, or not the whole of one. Nothing of it was kept: ask "
                   "whoever sent it to send it again.");
    case Trouble::CannotWait:
        return say("It would have to wait, and there is no room for it among those that wait. Nothing of it "
                   "was kept: see to those that wait, and take it in again.");
    case Trouble::Busy:
        return say("The workspace was busy. Nothing of it was kept: take it in again.");
    case Trouble::NotWritten:
        return say(
            "It could not be written into the workspace. Nothing of it was kept: make room on the disk, "
            "and take it in again.");
    case Trouble::AlteredHere:
        return say(
            "What stands here of this visit is not as it was written, so that nothing can be held against "
            "it. Nothing of the record was kept: a backup of this workspace may hold the visit whole.");
    }
    Q_UNREACHABLE();
}

QString sentenceOf(Intake::Why why)
{
    switch (why) {
    case Intake::Why::None:
        return {};
    case Intake::Why::NotAsSigned:
        return say("It is not as it was signed, and nothing of it was taken.");
    case Intake::Why::PictureMissing:
        return say("A picture that an entry names is not in it, and nothing of it was taken. Let it be saved "
                   "once more.");
    case Intake::Why::NobodyVouches:
        return say("Nobody vouches for a key that signed it, for that day. Let the engineer have it vouched "
                   "for by their "
                   "office, and "
                   "save the record once more.");
    case Intake::Why::UnknownOffice:
        return say("An office vouches for it that is not believed here. Take up that office, on the page of "
                   "the people, "
                   "and try again.");
    case Intake::Why::GoneTwoWays:
        return say("The visit stands here with other entries from some point on: both are kept, and somebody "
                   "has to ask "
                   "how that came about.");
    case Intake::Why::OwnVisit:
        return say("It adds entries to a visit of this workspace, which nobody else does: nothing of it was "
                   "taken. Ask "
                   "whoever sent it how that came about.");
    case Intake::Why::NotUnderstood:
        return say(
            "It has entries of a later version of this program. Bring this one up to date, and try again.");
    case Intake::Why::SignatureMissing:
        return say("Somebody did not sign what the visit says they signed for. Let them open their key on "
                   "the laptop "
                   "that it comes from, and the record be saved once more.");
    case Intake::Why::ReviewerTookPart:
        return say(
            "Whoever reviewed it had a part in the visit, and nothing of it was taken: somebody else has to "
            "review it.");
    case Intake::Why::KeyOutOfUse:
        return say("A key that signed it was taken out of use before that day. Ask whoever is said to have "
                   "signed, and whoever took the key out of use, how that came about.");
    case Intake::Why::ReviewerNotVouched:
        return say(
            "Nobody who is believed here vouches that its review is by a supervisor. Let the reviewer have "
            "their key vouched for by their office, and save the record once more.");
    case Intake::Why::ReviewerNamedOtherwise:
        return say(
            "Its review gives another name than the one under which the reviewer's key is vouched for. "
            "Ask the reviewer, and their office, which of them is right.");
    case Intake::Why::VisitNotOver:
        return say(
            "Its review looked at a visit that was not over. Ask whoever sent it for the whole record.");
    case Intake::Why::ReviewMisdated:
        return say(
            "Its review is dated long before the visit ended, or after today. Ask the reviewer whether "
            "the clock of their laptop was right.");
    case Intake::Why::ReviewOfUnsigned:
        return say("Its review looked at entries that nobody signed. Let whoever wrote them sign, and the "
                   "record be saved once more.");
    case Intake::Why::SignerNamedOtherwise:
        return say(
            "It names somebody who signed otherwise than their office does, which vouches for the key. "
            "Ask them, and their office, which of the names is right.");
    case Intake::Why::PictureUnnamed:
        return say(
            "A picture is in it that no entry names: it was put in by somebody else, and nothing of the "
            "record was taken. Ask whoever sent it to save it once more.");
    case Intake::Why::LeadNotVouched:
        return say(
            "The office of whoever signed for the work knows them as one who leads no work on lamps. Ask "
            "that office who led it, and whether they do by now.");
    case Intake::Why::OpensAnother:
        return say("Its entries are those of another visit, signed once more for this one, and nothing of it "
                   "was taken. Ask whoever sent it how that came about.");
    case Intake::Why::SignatureMisdated:
        return say(
            "A signature in it is dated long before the entry that it is over. Ask whoever is said to have "
            "signed whether the clock of their laptop was right, and whether their key is still theirs "
            "alone.");
    }
    Q_UNREACHABLE();
}

} // namespace coldarc::ui
