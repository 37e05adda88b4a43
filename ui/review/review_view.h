#pragma once

#include "core/review/time_line.h"
#include "ui/alignment/light_view.h"
#include "ui/machine/machine_view.h"
#include "ui/parts/choice_row.h"
#include "ui/parts/row_list.h"
#include "ui/visit/done_view.h"

#include <QList>
#include <QString>
#include <QStringList>

#include <optional>

namespace coldarc::ui {

/// How the machine stood over a visit, as it is drawn. Minutes are those of review::ShownTime.
struct TimeLineView {
    using Kind = review::SpanKind; ///< a state is pale, with an outline, a wait hatched, a gate solid
    struct Bar {
        double from = 0;
        double until = 0;
        friend bool operator==(const Bar&, const Bar&) = default;
    };
    struct Row {
        QString name;
        Kind kind = Kind::State;
        QList<Bar> bars;
        friend bool operator==(const Row&, const Row&) = default;
    };
    struct Group {
        QString place; ///< "Screen 2"
        QList<Row> rows;
        friend bool operator==(const Group&, const Group&) = default;
    };
    struct Tick {
        double at = 0;
        QString time; ///< "13:02"
        QString day;  ///< "2026-11-23", where another day begins; or empty
        friend bool operator==(const Tick&, const Tick&) = default;
    };
    /// Something out of the ordinary.
    struct Mark {
        double at = 0;
        qint64 entry = 0;
        QString title;
        friend bool operator==(const Mark&, const Mark&) = default;
    };
    double minutes = 1;
    QList<Tick> ticks;
    QList<Bar> cuts; ///< pauses that are drawn shorter than they were
    QList<Group> groups;
    QList<Mark> marks;
    QList<double> remarks; ///< entries that somebody remarked on
    QStringList after;     ///< what was written after closing: it is not drawn

    friend bool operator==(const TimeLineView&, const TimeLineView&) = default;
};

/// Something out of the ordinary, as a card that leads to its moment.
struct ReviewCard {
    qint64 entry = 0;
    QString title;
    QString more;
    QString where; ///< "entry 61, 13:30"

    friend bool operator==(const ReviewCard&, const ReviewCard&) = default;
};

/// A line that is right or is not, with a sign before it.
struct SignedLine {
    DoneMark::Kind kind = DoneMark::Kind::Signed;
    QString text;
    QString sub; ///< who vouches for the key; or empty

    friend bool operator==(const SignedLine&, const SignedLine&) = default;
};

/// The light of one swap.
struct ReviewLight {
    QString title; ///< "Light, Screen 2"
    QList<ScanChartView> scans;
    TraceChartView trace;
    QStringList screen; ///< what the screen sheets say; may be empty

    friend bool operator==(const ReviewLight&, const ReviewLight&) = default;
};

struct ReviewPicture {
    QString hash; ///< hexadecimal
    QString caption;
    qint64 entry = 0;

    friend bool operator==(const ReviewPicture&, const ReviewPicture&) = default;
};

/// A review that was signed before this one.
struct PastReview {
    QString title; ///< "Sent back by M. Duarte"
    QString when;  ///< empty of one of which nothing is known
    QString text;
    QStringList remarks; ///< "entry 61: which lamp was this?"
    SignedLine signature;

    friend bool operator==(const PastReview&, const PastReview&) = default;
};

/// What the id of a row of histories stands for.
struct HistoryLink {
    enum class About {
        Lamphouse,
        Lamp,
        Person,
    };
    About about = About::Lamphouse;
    QString id;

    friend bool operator==(const HistoryLink&, const HistoryLink&) = default;
};
/// Of the id of a row, and back. Pre: the id is of such a row.
[[nodiscard]] HistoryLink historyLinkOf(const QString& row);
[[nodiscard]] QString rowOf(const HistoryLink& link);
/// A history that can be gone to, and the name of what it is about.
struct HistoryOffer {
    HistoryLink link;
    QString name;
};

/// One visit on the desk; what changes while somebody goes along its time line stands in MomentView.
struct ReviewView {
    QString empty; ///< said instead of everything else: nothing chosen, being read, cannot be read
    QString head;  ///< "Visit of 2026-11-23, A. Okoro with B. Lind"
    QString title; ///< "Pier Street, Screen 2 and Screen 4"
    QString sub;   ///< "12:44 to 14:24 · done · 112 entries"
    QString stand; ///< how it stands with its review
    QString fault; ///< where its chain breaks; or empty
    QList<ReviewCard> cards;
    QString noCards;
    TimeLineView timeLine;
    QList<SignedLine> signatures;
    QList<ReviewLight> lights;
    QList<ReviewPicture> pictures;
    QList<DoneLine> lines;
    QList<PastReview> past;
    QList<RowView> histories; ///< what else is known of its lamphouses, lamps and people; see HistoryLink

    friend bool operator==(const ReviewView&, const ReviewView&) = default;
};

/// One moment of a visit.
struct MomentView {
    qint64 entry = -1;
    double at = 0;    ///< min
    QString time;     ///< "13:38"
    QString head;     ///< "Entry 61 · 13:30:02 · A. Okoro"
    QString what;     ///< "Try to start it"
    QStringList more; ///< as it stands in the logbook
    QString place;    ///< whose machine is drawn
    MachineView machine;

    friend bool operator==(const MomentView&, const MomentView&) = default;
};

/// The queue's frame: its rows are in the model.
struct QueueView {
    QString count;  ///< "9 visits wait, 3 out of the ordinary"
    QString empty;  ///< said where there are none, or they could not be read
    QString filter; ///< what is left out, in short
    QString text;   ///< part of a site's or engineer's name
    ChoiceView stand;
    ChoiceView what;
    ChoiceView days;
    ChoiceView order;
    int current = -1; ///< row in hand

    friend bool operator==(const QueueView&, const QueueView&) = default;
};

} // namespace coldarc::ui
