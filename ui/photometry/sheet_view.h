#pragma once

#include "ui/parts/action_button.h"
#include "ui/parts/choice_row.h"
#include "ui/parts/field.h"

#include <QList>
#include <QString>
#include <QStringList>

#include <optional>

namespace coldarc::ui {

/// How something stands against its limit; drawn as a sign beside its word.
enum class SheetSign {
    Open,     ///< not measured
    Within,   ///< a tick
    Low,      ///< an arrow down
    High,     ///< an arrow up
    NoLimit,  ///< measured, nothing to hold it against
    Outside,  ///< a cross: of the sheet as a whole
    HeldBack, ///< measured, but the conditions forbid a verdict
};

/// One point on the drawn screen. Places as shares of its width and height from the upper left corner.
struct SheetPointView {
    QString id;    ///< the word of its place
    QString name;  ///< "top left"
    QString value; ///< "41.2"; empty without a reading
    QString share; ///< "86.4 %" of the centre; or empty
    QString words; ///< "within"
    double across = 0;
    double down = 0;
    SheetSign sign = SheetSign::Open;
    bool isInHand = false;
    bool isNeeded = false; ///< by the limits in use

    friend bool operator==(const SheetPointView&, const SheetPointView&) = default;
};

/// One quantity held against its limit.
struct VerdictLine {
    QString what;  ///< "Side against centre, left"
    QString value; ///< "86.4 %"; empty where it is not measured
    QString limit; ///< "75 to 90 %"
    QString words; ///< "within"
    QString note;  ///< "second hand, laboratory limit"; or empty
    SheetSign sign = SheetSign::Open;

    friend bool operator==(const VerdictLine&, const VerdictLine&) = default;
};

/// A white in the x y diagram.
struct XyPoint {
    QString name;
    double x = 0;
    double y = 0;
    bool isCentre = false;

    friend bool operator==(const XyPoint&, const XyPoint&) = default;
};
struct XyView {
    struct Box {
        double xLeast = 0;
        double xMost = 0;
        double yLeast = 0;
        double yMost = 0;

        friend bool operator==(const Box&, const Box&) = default;
    };
    std::optional<Box> box; ///< of the limits in use
    QList<XyPoint> points;
    Box shown;     ///< what part of the diagram is drawn
    QString words; ///< "Centre: x 0.3152, y 0.3524; x within, y within"; or why there is no drawing

    friend bool operator==(const XyView&, const XyView&) = default;
};

/// Something asked of the person before a reading is taken. Every answer keeps what was typed.
struct SheetQuestion {
    QString text;
    QList<ChoiceOption> answers;

    friend bool operator==(const SheetQuestion&, const SheetQuestion&) = default;
};

/// A line of a form: typed, or chosen from a list.
struct SheetField {
    QString id;
    FieldView field;
    QList<ChoiceOption> options; ///< of a choice; `field.value` is then the id of the answer
    bool isWide = false;         ///< takes a row of its own

    friend bool operator==(const SheetField&, const SheetField&) = default;
};

/// A meter's table that is being taken over.
struct SheetImportView {
    QString said;               ///< what came of it, or why it can't be taken
    QList<SheetField> mapping;  ///< empty while there is no table
    QList<QStringList> preview; ///< the first lines, cell by cell
    int headerLines = 0;        ///< so many of them hold no readings
    QStringList places;         ///< beside each of the others, which point it is taken for; empty: unknown
    QStringList bad;            ///< one for each bad line
    std::optional<SheetQuestion> question;
    QString act;     ///< on the button that takes it: "Take 5 readings"; empty: it can't be taken
    int boxTurn = 0; ///< a change of it empties the box

    friend bool operator==(const SheetImportView&, const SheetImportView&) = default;
};

/// What stands at the right of the sheet.
enum class SheetPanel {
    Verdicts,
    Conditions,
    MeterFile,
    BeforeAfter,
};

/// Everything that the screen sheet shows.
struct SheetView {
    QString place; ///< "Screen 2 · 30 of 34"
    QString title; ///< "Measure the screen"
    QString time;  ///< "under the new lamp"
    QString whole; ///< "Outside the limits"
    SheetSign wholeSign = SheetSign::Open;
    QString claim;      ///< "not a conformity claim"; or empty
    QString conditions; ///< in one line: "lit 34 min · meter valid"
    double aspect = 2.39;
    QList<SheetPointView> points;
    QString elsewhere; ///< readings at the points of another convention; or empty

    QString pointName; ///< of the point in hand
    ChoiceView unit;
    QString luminance; ///< as typed
    QString x;
    QString y;
    bool wantsColour = false; ///< Enter goes on to x before the reading is taken
    QString fault;            ///< what is wrong with what was typed
    QString said;             ///< what came of the last press; or empty
    std::optional<SheetQuestion> question;
    int turn = 0;          ///< a change of it: the next point is to be typed
    bool isFilled = false; ///< no needed point is left: Enter goes to the main action

    SheetPanel panel = SheetPanel::Verdicts;
    ChoiceView set;
    QString setSource;           ///< document, edition, class
    QList<SheetField> ownLimits; ///< limits that the set leaves to the user
    QList<VerdictLine> verdicts;
    QStringList notes; ///< why verdicts are held back, and what the sheet is marked with
    QStringList evenness;
    XyView xy;
    QList<SheetField> form;
    QString expected;
    SheetImportView import;
    QString comparison; ///< what the comparison comes to
    QStringList changes;

    ActionView action;
    bool canOwe = false;
    bool canTakeBack = false; ///< of the reading in hand

    friend bool operator==(const SheetView&, const SheetView&) = default;
};

} // namespace coldarc::ui
