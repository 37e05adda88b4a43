#pragma once

#include "core/label/gs1.h"
#include "core/label/symbology.h"

#include <QList>
#include <QString>

#include <cstdint>
#include <optional>

namespace coldarc::label {

/// In which form a text is written.
enum class Form : std::uint8_t {
    Gs1,   ///< element string, bracketed line, Digital Link or EAN number
    Keyed, ///< every line is "key: value" or "key=value", or it is an envelope of data identifiers
    Plain, ///< anything else: a bare type, a bare serial, both run together
};

/// One "key: value".
struct KeyedValue {
    QString key; ///< as it stands, without the blanks around it
    QString value;

    friend bool operator==(const KeyedValue&, const KeyedValue&) = default;
};

/// What one bar code, or one line off a label, holds.
struct Payload {
    std::optional<SymbologyId> symbology; ///< nothing if it is not known
    QString text;                         ///< after the symbology identifier, exactly
    Form form = Form::Plain;
    ElementString gs1;                ///< of Gs1; an EAN number stands as (01)
    std::optional<LabelDate> made{};  ///< (11) of a sound Gs1
    std::optional<LabelDate> useBy{}; ///< (17) of a sound Gs1
    QList<KeyedValue> keyed;          ///< of Keyed, never empty then

    /// False where the text says that it is GS1's and is not sound: it is then shown and never believed.
    [[nodiscard]] bool isSound() const { return form != Form::Gs1 || gs1.isSound(); }
    friend bool operator==(const Payload&, const Payload&) = default;
};

/// The longest text that is looked at, in UTF-16 units; what comes behind is cut off, and no code can hold
/// it. Source: 7089 digits are the most that a QR code holds, from memory.
inline constexpr qsizetype kLongestPayload = 7089;

/// Reads any text whatever. Where the reader does not say the symbology, a text counts as GS1's only if it is
/// sound and names an item.
/// @param scanned  with the symbology identifier in front, if the reader says one.
[[nodiscard]] Payload readPayload(const QString& scanned, int currentYear);

} // namespace coldarc::label
