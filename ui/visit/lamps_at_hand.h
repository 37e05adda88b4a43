#pragma once

#include "core/label/agreement.h"
#include "core/label/doubts.h"
#include "core/visit/state.h"
#include "ui/visit/bench_view.h"

#include <optional>

namespace coldarc::ui {

/// The lamps that the entry of a card may mean: the visit's own, and those in the vans of its people who are
/// here; as many as have a key, none of the visit's left out.
class LampsAtHand {
public:
    struct Lamp {
        QString code;
        QString serial;
        QString standsFor{}; ///< the place of another swap that it was matched for; empty: of none

        friend auto operator<=>(const Lamp& a, const Lamp& b)
        {
            return std::pair(a.code, a.serial) <=> std::pair(b.code, b.serial);
        }
        friend bool operator==(const Lamp& a, const Lamp& b)
        {
            return a.code == b.code && a.serial == b.serial;
        }
    };

    /// @param known  what the workspace knows of lamps.
    void gather(const visit::VisitState& state, int swap, const QList<label::KnownLamp>& known);
    /// @param id  of one of the presses; nothing: it is none.
    [[nodiscard]] std::optional<Lamp> lamp(const QString& id) const;
    [[nodiscard]] QList<PersonAct> presses(const label::Reading& entry) const;
    /// What stands over the presses.
    [[nodiscard]] QString says() const;

private:
    QList<Lamp> m_lamps;
    qsizetype m_more = 0; ///< that have no key
};

} // namespace coldarc::ui
