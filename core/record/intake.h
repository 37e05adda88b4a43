#pragma once

#include "core/record/verify.h"

#include <QSet>

#include <set>
#include <vector>

namespace coldarc::record {

/// What becomes of a record that comes from another workspace.
struct Intake {
    enum class Verdict : std::uint8_t {
        Take,    ///< what is new in it is added
        Nothing, ///< everything in it is there already
        Wait,    ///< it is whole, and is kept apart until somebody has seen to `why`
        Refuse,  ///< for good: not as it was signed
    };
    enum class Why : std::uint8_t {
        None,
        NotAsSigned,            ///< a fault was found: see the verification
        PictureMissing,         ///< a signed entry names a picture that is not in the record
        NobodyVouches,          ///< for the key of a signature
        UnknownOffice,          ///< an office vouches that is not believed here
        GoneTwoWays,            ///< the visit stands here with other entries from some point on
        OwnVisit,               ///< a visit of this workspace: nobody else adds entries to it
        NotUnderstood,          ///< entries that this program does not know: a later one made them
        SignatureMissing,       ///< somebody did not sign what the entries say they signed for
        ReviewerTookPart,       ///< somebody reviewed a visit that they had a part in
        KeyOutOfUse,            ///< a key that signed or reviewed was taken out of use before
        ReviewerNotVouched,     ///< nobody vouches that the key of a review is a supervisor's
        ReviewerNamedOtherwise, ///< than who vouches for the reviewer's key names them
        VisitNotOver,           ///< where a review looked at it
        ReviewMisdated,         ///< long before the entry that it looked at last, or long from now
        ReviewOfUnsigned,       ///< it looked at entries that nobody signed, and that are not here
        SignerNamedOtherwise,   ///< the entries name whoever signed otherwise than who vouches for the key
        PictureUnnamed,         ///< a picture is in the record that no entry names
        LeadNotVouched,         ///< whoever signed for the work is vouched for in a role that leads none
        OpensAnother,           ///< its first entry opens another visit than the one that was signed
        SignatureMisdated,      ///< long before the entry that it is over
    };
    Verdict verdict = Verdict::Refuse;
    Why why = Why::None;
    qint64 first = 0;   ///< number of the first entry that is added
    qint64 entries = 0; ///< how many the visit has then: those that a signature covers, and those that stood

    friend bool operator==(const Intake&, const Intake&) = default;
};
/// "not-as-signed", "picture-missing", "nobody-vouches", "unknown-office", "gone-two-ways", "own-visit",
/// "not-understood", "signature-missing", "reviewer-took-part", "key-out-of-use", "reviewer-not-vouched",
/// "reviewer-named-otherwise", "visit-not-over", "review-misdated", "review-of-unsigned",
/// "signer-named-otherwise", "picture-unnamed", "lead-not-vouched", "opens-another", "signature-misdated".
[[nodiscard]] QString wordOf(Intake::Why why);
[[nodiscard]] std::optional<Intake::Why> intakeWhyFromWord(const QString& word);

/// What a workspace has of the visit that a record is about.
struct Standing {
    std::vector<Hash> chain;     ///< one link for each entry; none: the visit is not there
    QSet<QByteArray> signatures; ///< their 64 bytes
    bool isOwn = false;          ///< it is worked on here: what entries say is decided here, never taken over
    QSet<QByteArray> reviews{};  ///< the 32 bytes of their ids
    std::set<people::PublicKey> keys{}; ///< that signed and reviewed
};

/// What somebody tells of a record who understands its entries.
struct EntriesTold {
    bool openAnother = false;    ///< visit than the one that the record is of
    bool lackAPicture = false;   ///< that a signed entry names
    bool lackAName = false;      ///< for a picture that is in the record
    bool lackASignature = false; ///< for which signing or closing asks
    bool nameAReviewer = false;  ///< who is thus no reviewer; of one that is not kept here
    /// Of a review that is not kept here: what speaks against it and may yet be seen to; None: nothing.
    Intake::Why doubtsAReview = Intake::Why::None;
    /// What speaks against whoever signed, by what is vouched for of their keys, where that signature is not
    /// kept here; None: nothing.
    Intake::Why doubtsASigner = Intake::Why::None;
};

/// Whom a workspace believes.
struct Believed {
    people::Trust trust{};      ///< in what it knows itself of the keys, whether the record says so or not
    QSet<QByteArray> reviews{}; ///< ids of those by its own people, who may supervise
};

/// Of a visit of this workspace signatures are taken, and never entries: these would be folded without having
/// been decided, and a gate would count as proved by them. Entries behind the last signature are nobody's
/// word and stay out; a record with a review of them waits. Reviews are taken of every visit, and what is
/// kept of them is not asked for again. The order in which records of a visit come changes nothing of what
/// stands in the end, nor does one that comes twice.
[[nodiscard]] Intake intakeOf(const Record& record, const Verification& found, const EntriesTold& told,
                              const Believed& believed, const Standing& standing);

/// What became of one file that was to be taken in.
struct TakenRecord {
    QString file;
    /// Why it could not be taken at all.
    enum class Trouble : std::uint8_t {
        NotOpened,   ///< the file
        NoRecord,    ///< what is in it is no record, or not a whole one
        CannotWait,  ///< it would have to wait, and is too large for that or too many wait already
        Busy,        ///< somebody else was writing into the workspace
        NotWritten,  ///< into the workspace
        AlteredHere, ///< what the workspace has of the visit is not as it was written
    };
    QString unread; ///< what went wrong, for the log; empty: nothing, see `intake`
    VisitId visit{};
    Intake intake{};
    std::vector<Fault> faults{}; ///< of one that is not as it was signed
    int newEntries = 0;
    Trouble trouble = Trouble::NoRecord; ///< of one that has `unread`
};

} // namespace coldarc::record
