#pragma once

#include "ui/visit/bench_view.h"

namespace coldarc::ui {

/// What one source says of the lamp, and how it agrees with the entry. Each is typed on its own.
struct BookInColumn {
    enum class Mark {
        Open,
        Agrees,
        Differs,
    };
    struct Cell {
        QString text;  ///< as typed
        QString words; ///< "agrees"; "differs, place 9: 8 here, B in the entry (easily mistaken)"
        Mark mark = Mark::Open;

        friend bool operator==(const Cell&, const Cell&) = default;
    };
    QString id;    ///< "box", "paper", "entry", "marking"
    QString title; ///< "Box"
    QString how;   ///< how it came here: "typed", "scanned, QR, picture kept"; or empty
    Cell type;
    Cell serial;
    bool canTakeCodes = false; ///< never the entry: that is somebody's own word
    bool takesCodes = false;   ///< the next scan goes here, and what is picked on a picture
    bool holdsCode = false;    ///< one that stands elsewhere too waits to be said to stand here as well
    QString codesText{};       ///< on its code button
    bool isNeeded = true;      ///< Enter goes to its empty boxes
    bool hasPicture = false;   ///< which can be taken off

    friend bool operator==(const BookInColumn&, const BookInColumn&) = default;
};

/// A moment on the line of dates. Places run from 0, today, to 1, the latest one shown.
struct DateMark {
    QString name;     ///< "alert"
    QString when;     ///< "14 Mar 2027"
    QString interval; ///< "between 2 Mar and 29 Mar"; empty when it is certain
    double at = 0;
    double from = 0;
    double to = 0;

    friend bool operator==(const DateMark&, const DateMark&) = default;
};

/// Where to set the alert, and how that was found.
struct ThresholdView {
    QString suggested; ///< "1250 h"; empty when none can be made
    QStringList how;   ///< one sentence each
    QList<DateMark> line;

    friend bool operator==(const ThresholdView&, const ThresholdView&) = default;
};

/// Everything that the book-in card shows.
struct BookInView {
    QString place;
    QString title;
    QList<BookInColumn> columns;
    QString scanSays;           ///< what became of the last scan, or of the last code picked; or empty
    bool doubtsScanner = false; ///< the last scan came as a scanner sends that is not set up
    QList<PersonAct> atHand;    ///< lamps that the entry can be chosen from, none preferred
    QString atHandSays;         ///< where they are known from, and how many are not shown
    bool takesPictures = false;
    bool offersWithoutPicture = false; ///< one could not be kept: the way on without it
    QString picturesOf;                ///< what a picture is kept of: "Box"; empty: nothing is asked for
    QStringList doubts;                ///< what memory says against the lamp, and what to do
    QStringList waits; ///< what Matched waits for, in sentences; or why the last press came to nothing
    QString matched;   ///< "Matched: 1 of 2, box and paper"
    std::optional<SignalView> danger; ///< of the step
    QStringList wrongType;            ///< what each type would do to the lamp, when more than one is named
    QList<CaptureView> rest;          ///< cause, counter, threshold; a reason where one is asked
    QList<CaptureView> pass; ///< a serial that may pass with a reason: what is asked for it; empty: none
    std::optional<ThresholdView> threshold;
    QStringList keyIn; ///< large: what must be keyed into the projector's own controller
    QList<PersonAct> acts;
    ActionView action;

    friend bool operator==(const BookInView&, const BookInView&) = default;
};

} // namespace coldarc::ui
