#pragma once

#include "ui/machine/gate_list.h"
#include "ui/machine/machine_view.h"
#include "ui/parts/action_button.h"
#include "ui/parts/choice_row.h"
#include "ui/parts/reach.h"
#include "ui/parts/signal_panel.h"
#include "ui/parts/strip.h"
#include "ui/parts/wait_ring.h"

#include <QList>
#include <QString>
#include <QStringList>

#include <optional>

namespace coldarc::ui {

/// One swap of the visit, in the list at the left.
struct SwapRow {
    QString title;              ///< "Screen 2"
    QString state;              ///< "cooling, 6:41"
    QString key;                ///< the key that goes there: "F1"
    std::optional<double> wait; ///< share of a running wait that has passed; nothing when no wait runs

    friend bool operator==(const SwapRow&, const SwapRow&) = default;
};

/// One step of the swap in hand.
struct StepRow {
    enum class Stand {
        Done,
        Now,
        Ahead,
    };
    QString phase; ///< the section it stands in; a change of it starts a new section
    QString title;
    Stand stand = Stand::Ahead;
    QString aside; ///< when it was done, what is left of its wait, or what it waits for: "13:02", "6:41",
                   ///< "waits: Cold"

    friend bool operator==(const StepRow&, const StepRow&) = default;
};

/// Something that the step wants to know. Choices and ticks where gloves are worn; text and numbers
/// elsewhere.
struct CaptureView {
    enum class Kind {
        Choice,
        Ticks,
        Text,
        Number,
    };
    struct Option {
        QString id;
        QString text;
        QString sub; ///< of a tick: its marking or date; empty otherwise

        friend bool operator==(const Option&, const Option&) = default;
    };

    QString id;
    Kind kind = Kind::Choice;
    QString label;
    QList<Option> options; ///< of choice and ticks
    QStringList value;     ///< one id, the ids ticked, or one text; empty when nothing is answered
    QString unit;
    QString hint;
    QString error;
    Reach reach = Reach::Hand;
    bool isOptional = false; ///< Enter goes past it; Tab goes there

    friend bool operator==(const CaptureView&, const CaptureView&) = default;
};

/// What was answered, in the order of the captures. `value` as in CaptureView.
struct CaptureAnswer {
    QString id;
    QStringList value;

    friend bool operator==(const CaptureAnswer&, const CaptureAnswer&) = default;
};

/// A press that belongs to one person: "same gear, on", a countersign.
struct PersonAct {
    enum class Stand {
        Open,
        Given,
    };
    QString id;
    QString text; ///< "B. Lind: polarity seen too"
    QString sub;
    QString key; ///< that person's own key: "F8"
    Stand stand = Stand::Open;

    friend bool operator==(const PersonAct&, const PersonAct&) = default;
};

/// The step in hand.
struct StepCard {
    QString stepKey; ///< names the step; a change of it brings up new captures and holds the first press
    QString place;   ///< "Screen 2"
    QString counter; ///< "5 of 34"
    QString phase;   ///< "Cold and dead"
    QString title;   ///< what to do
    QString why;     ///< one sentence
    QString sub;     ///< how the wait is counted, what is known of it; or empty
    QString keyIn;   ///< what goes into the projector's own controller, a line each; shown large; or empty
    std::optional<WaitView> wait;
    QList<CaptureView> captures;
    QList<PersonAct> acts;
    std::optional<SignalView> danger;
    ActionView action;    ///< `stepKey` of it is the same as this one's
    QString unanswered{}; ///< how many incidents wait for an answer; or empty

    friend bool operator==(const StepCard&, const StepCard&) = default;
};

/// Everything that the bench shows.
struct BenchView {
    QString site;       ///< "Pier Street"
    QString subtitle;   ///< "night visit, 2 swaps"
    QString nextShow;   ///< "next show 16:40"
    QString needs;      ///< "2 h 33"; or empty
    QString gap;        ///< "gap 3 h 35"; or empty
    QStringList people; ///< "A. Okoro", "with B. Lind, trainee"
    QList<SwapRow> swaps;
    int swapInHand = 0;
    QList<StepRow> steps;
    StepCard card;
    QList<GateView> gates;
    MachineView machine;
    QString makeSafeEnd; ///< which end it leads to: "leads to: out of use, locked and tagged"
    StripView strip;

    friend bool operator==(const BenchView&, const BenchView&) = default;
};

} // namespace coldarc::ui
