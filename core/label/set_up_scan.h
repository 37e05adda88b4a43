#pragma once

#include "core/label/payload.h"

#include <QList>
#include <QString>

namespace coldarc::label {

/// What the code that is scanned to set a scanner up holds: every kind of character that a label may have, in
/// a GS1 code, so that a symbology identifier and a separator must come with it. Item and serial are
/// invented.
[[nodiscard]] QString setUpText();

/// Another character came than the code holds.
struct OtherCharacter {
    QChar inCode;
    QChar came;

    friend bool operator==(const OtherCharacter&, const OtherCharacter&) = default;
};

/// What a scanner made of the set-up code.
struct SetUpVerdict {
    bool saysSymbology = false;   ///< without it a GS1 text is told from others by its look only
    bool keepsSeparator = false;  ///< without it two values run together: no GS1 text is to be trusted
    bool swapsCase = false;       ///< the capitals lock was on
    bool isCutOff = false;        ///< or holds more than the code
    QList<OtherCharacter> others; ///< another keyboard layout: each pair once

    /// Everything came as it stands in the code, with or without the symbology.
    [[nodiscard]] bool isUsable() const
    {
        return keepsSeparator && !swapsCase && !isCutOff && others.isEmpty();
    }
    friend bool operator==(const SetUpVerdict&, const SetUpVerdict&) = default;
};

/// Whether a scan came as from a scanner that is not set up: without the kind of its code, or as a GS1 text
/// with a fault, which a lost separator makes of it.
[[nodiscard]] bool looksUnset(const Payload& payload);

/// Compares what came with `setUpText`. A scanner sends places on a keyboard, not characters: on another
/// layout Y and Z, dashes and brackets come as others (common practice, no source).
[[nodiscard]] SetUpVerdict setUpVerdict(const QString& scanned);

} // namespace coldarc::label
