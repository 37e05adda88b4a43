#pragma once

#include "core/base/json.h"

#include <QJsonObject>
#include <QString>
#include <QStringView>

#include <cstdint>
#include <optional>

namespace coldarc::catalogue {

/// In which form a maker writes what a bar code holds.
enum class LabelForm : std::uint8_t {
    Gs1,   ///< parts are application identifiers, "01", "240", "21"
    Keyed, ///< parts are keys, "TYPE", "S/N"
    Plain, ///< there is one part only, the text itself
};
/// One of "gs1", "keyed", "plain".
[[nodiscard]] QString wordOf(LabelForm form);

/// Says which part of a bar code's text is the lamp's type and which its serial. At least one of them is
/// named.
struct LabelRule {
    LabelForm form = LabelForm::Gs1;
    QString type;   ///< of Gs1 and Keyed: identifier or key of the type; empty if this code does not hold it
    QString serial; ///< likewise of the serial
    QString
        pattern; ///< of Plain: `{type}`, `{serial}`, or both once with something between them that parts them
    /// What a serial of this type looks like, see `fitsShape`. Empty: anything; never empty in a rule that
    /// names no type, since anything would be a serial then.
    QString serialShape;

    [[nodiscard]] bool namesType() const;
    [[nodiscard]] bool namesSerial() const;
    friend bool operator==(const LabelRule&, const LabelRule&) = default;
};

/// Whether a text looks like this: `#` stands for a digit, `@` for a letter A to Z in either case, `*` for
/// either, anything else for itself.
[[nodiscard]] bool fitsShape(QStringView text, QStringView shape);

/// Reads one rule; complaints go to the reader. Nothing after one.
[[nodiscard]] std::optional<LabelRule> readLabelRule(JsonReader& reader);
[[nodiscard]] QJsonObject toJson(const LabelRule& rule);

} // namespace coldarc::catalogue
