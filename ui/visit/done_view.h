#pragma once

#include "ui/parts/action_button.h"

#include <QList>
#include <QString>
#include <QStringList>

#include <optional>

namespace coldarc::ui {

/// What stands beside an entry: a signature, that it is out of the ordinary, or a remark.
struct DoneMark {
    enum class Kind {
        Signed,
        Missing, ///< a signature that was asked for and is not made yet
        Broken,  ///< one that does not verify
        Unusual,
        Remark, ///< what a supervisor said of it
    };
    Kind kind = Kind::Signed;
    QString text; ///< "signed by A. Okoro"

    friend bool operator==(const DoneMark&, const DoneMark&) = default;
};

/// One entry of the logbook, as a person would say it.
struct DoneLine {
    qint64 entry = 0;
    QString section;  ///< "Screen 2 · Cold and dead"; a change of it starts a new section; or empty
    QString time;     ///< "13:02:19"
    QString date;     ///< "2026-11-25 +01:00"
    QString who;      ///< "A. Okoro"
    QString what;     ///< "Try to start it"
    QStringList more; ///< place, answers, gates that waited, countersign
    QList<DoneMark> marks;
    QString withdrawn; ///< by whom, when and why it does not count any more; empty: it counts
    QString picture;   ///< hash of the picture in it, hexadecimal; or empty

    friend bool operator==(const DoneLine&, const DoneLine&) = default;
};

/// What is added to the logbook, or corrected in it, in place of the entry that was chosen.
struct DoneForm {
    enum class Kind {
        Withdraw,
        Note,
        Addendum,
        Picture,
    };
    Kind kind = Kind::Note;
    QString title;
    QStringList follows; ///< what comes of it, said beforehand
    QString label;       ///< of the text; empty: nothing is typed, a picture is given
    QString draft;       ///< what is typed so far
    bool canType = true; ///< false while somebody is inside
    QString hint;        ///< how the text is ended by keyboard; or empty
    ActionView action;

    friend bool operator==(const DoneForm&, const DoneForm&) = default;
};

/// Everything that the page "What was done" shows.
struct DoneView {
    QString site;
    QString sub;           ///< "42 entries, the last signed"; whether the visit is open, closed, read-only
    QString review;        ///< what a supervisor said of it last; or empty
    QList<DoneLine> lines; ///< newest at the bottom
    QString empty;         ///< said where there are none
    qint64 chosen = -1;    ///< entry of the line in hand
    QString chosenName;    ///< "Entry 14"
    QString withdraw;      ///< on the button that begins to withdraw it; empty: there is none
    QString noWithdraw;    ///< why there is none, or what it waits for
    QString write;         ///< on the button that begins a note or an addendum; or empty
    QString picture;       ///< on the button that begins to keep a picture; or empty
    QString waits;         ///< why nothing is typed now; or empty
    QString sign;          ///< on the button that signs what waits for the key of whoever presses; or empty
    QStringList said;      ///< what came of the last press
    QString leave;         ///< where the way back leads
    std::optional<DoneForm> form;

    friend bool operator==(const DoneView&, const DoneView&) = default;
};

} // namespace coldarc::ui
