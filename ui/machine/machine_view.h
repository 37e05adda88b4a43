#pragma once

#include <QList>
#include <QString>
#include <QStringList>

#include <optional>

namespace coldarc::ui {

/// What the drawing of one site visit's machine shows. All of it is words and enumerations that the presenter
/// takes from the state; "unknown" is a state of its own, drawn as neither.
struct MachineView {
    enum class Power {
        Unknown,
        Off,
        On,
    };
    enum class Run {
        Unknown,
        Stopped,
        Runs,
    };
    enum class Projector {
        Unknown,
        Off,
        Standby,
        On,
    };
    enum class Cover {
        Shut,
        Open,
    };
    enum class Heat {
        Unknown,
        Lit,
        Cooling,
        Cold,
    };
    enum class Seat {
        Unknown,
        Empty,
        Entered,
        Clamped,
    };
    enum class Charge {
        Held,
        Waited, ///< let down for its time, and no tester has said so yet
        Relieved,
    };
    enum class Adaptor {
        None, ///< this lamp type has none, or nothing is said of it
        OnLamp,
        LaidBy,
        Lost,
    };

    /// One isolation point.
    struct Point {
        QString name; ///< "panel B, 14"
        Power power = Power::Unknown;
        int locks = 0; ///< locks that hang on it

        friend bool operator==(const Point&, const Point&) = default;
    };

    struct Lamphouse {
        QString name; ///< shown when there is more than one
        Heat heat = Heat::Unknown;
        std::optional<Cover> housing; ///< nothing: the door of this model is the guard
        Cover guard = Cover::Shut;
        Cover dowser = Cover::Shut;
        Seat seat = Seat::Unknown;
        Charge charge = Charge::Held;
        Adaptor adaptor = Adaptor::None;
        QStringList people; ///< who stands in its zone

        friend bool operator==(const Lamphouse&, const Lamphouse&) = default;
    };

    QList<Point> points; ///< at most four are drawn beside each other
    Projector projector = Projector::Unknown;
    Run fan = Run::Unknown;
    Run extraction = Run::Unknown;
    QList<Lamphouse> lamphouses;

    friend bool operator==(const MachineView&, const MachineView&) = default;
};

} // namespace coldarc::ui
