#pragma once

#include "ui/parts/action_button.h"
#include "ui/parts/card_lines.h"

#include <QString>
#include <QStringList>

#include <optional>

namespace coldarc::ui {

/// What is written before it is kept or signed.
struct VerdictForm {
    enum class Kind {
        Remark,
        SendBack,
    };
    Kind kind = Kind::Remark;
    QString title; ///< "Remark on entry 61: Try to start it"
    QString label;
    QString draft;
    QString hint;

    friend bool operator==(const VerdictForm&, const VerdictForm&) = default;
};

/// What a supervisor can do with the visit in hand.
struct VerdictView {
    QList<CardLine> remarks; ///< not signed yet
    QString statement;       ///< what a press signs: who, what it means, what it covers; or empty
    QStringList no;          ///< why nothing can be signed here
    QString said;            ///< what came of the last press
    QString remark;          ///< on the button that begins a remark; or empty
    QString sendBack;        ///< on the button that begins to send it back; or empty
    std::optional<VerdictForm> form;
    ActionView action; ///< accept; of a form what it is for

    friend bool operator==(const VerdictView&, const VerdictView&) = default;
};

} // namespace coldarc::ui
