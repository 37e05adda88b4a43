#pragma once

#include "ui/alignment/light_view.h"
#include "ui/photometry/sheet_view.h"
#include "ui/review/review_view.h"

#include <QByteArray>
#include <QList>
#include <QString>

#include <variant>

namespace coldarc::ui {

/// What a text on paper is for; decides size and weight. Everything is black on white.
enum class PaperRole {
    Title,   ///< the site, once
    Figure,  ///< a figure that is looked for first
    Heading, ///< a screen, a chapter
    Section, ///< a small name over what follows
    Strong,
    Body,
    Small,
};

/// One paragraph. It wraps, within a word where that is longer than its column.
struct PaperText {
    QString text;
    PaperRole role = PaperRole::Body;

    friend bool operator==(const PaperText&, const PaperText&) = default;
};

using PaperColumn = QList<PaperText>;

/// Paragraphs side by side.
struct PaperColumns {
    enum class Look {
        Bare,
        Framed,    ///< a box around all, a line between the columns
        RuleUnder, ///< a row of a table
        RuleOver,  ///< the head of a table
    };
    QList<double> shares; ///< of the width, one for each column; together 1 at most
    QList<PaperColumn> columns;
    Look look = Look::Bare;
    double leastHeight = 0; ///< pt

    friend bool operator==(const PaperColumns&, const PaperColumns&) = default;
};

/// Rows below their head, which comes again on every page.
struct PaperTable {
    QList<double> shares;
    QStringList head;
    QList<QList<PaperColumn>> rows;

    friend bool operator==(const PaperTable&, const PaperTable&) = default;
};

/// Light against one knob, and against time.
struct PaperScan {
    ScanChartView view;
    friend bool operator==(const PaperScan&, const PaperScan&) = default;
};
struct PaperTrace {
    TraceChartView view;
    friend bool operator==(const PaperTrace&, const PaperTrace&) = default;
};

/// The points of a screen in its shape.
struct PaperScreen {
    double aspect = 2.39; ///< width / height
    QList<SheetPointView> points;
    friend bool operator==(const PaperScreen&, const PaperScreen&) = default;
};

/// How the machine stood over time.
struct PaperTimeLine {
    using Kind = TimeLineView::Kind;
    using Bar = TimeLineView::Bar;
    using Row = TimeLineView::Row; ///< its bars in min since the visit was opened
    struct Mark {
        double at = 0; ///< min
        QString text;  ///< the number of the entry
        friend bool operator==(const Mark&, const Mark&) = default;
    };
    double minutes = 1; ///< that are drawn
    QList<ChartTick> ticks;
    QList<Row> rows;
    QList<Mark> marks; ///< something out of the ordinary

    friend bool operator==(const PaperTimeLine&, const PaperTimeLine&) = default;
};

/// One picture that was kept, as its file has it.
struct PaperPicture {
    QByteArray bytes;
    QString caption;
    friend bool operator==(const PaperPicture&, const PaperPicture&) = default;
};

/// Charts, screens and pictures stand beside one another, as many as have room.
using PaperDrawing = std::variant<PaperScan, PaperTrace, PaperScreen, PaperTimeLine, PaperPicture>;
struct PaperDrawings {
    QList<PaperDrawing> drawings; ///< one to a row of them
    double height = 0;            ///< pt
    friend bool operator==(const PaperDrawings&, const PaperDrawings&) = default;
};

struct PaperBreak {
    friend bool operator==(const PaperBreak&, const PaperBreak&) = default;
};

/// What stands on paper, one below the other.
struct PaperBlock {
    std::variant<PaperText, PaperColumns, PaperTable, PaperDrawings, PaperBreak> what;
    double before = 0;          ///< pt of room over it, unless it is the first of its page
    bool keepsWithNext = false; ///< never the last of its page

    friend bool operator==(const PaperBlock&, const PaperBlock&) = default;
};

} // namespace coldarc::ui
