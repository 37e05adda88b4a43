#pragma once

#include "core/label/gs1.h"

namespace coldarc::label {

/// How many digits the identifier at the beginning of a text has: 2, 3 or 4; nothing if none is allotted that
/// begins with these two digits. Source: GS1 Syntax Dictionary, READ.
[[nodiscard]] std::optional<qsizetype> digitsOfAi(QStringView text);

/// The length of the value where the first two digits of an identifier settle it, so that no separator has to
/// follow. Nothing otherwise. Source: `fixedAIprefixLengths` of the GS1 Syntax Engine, READ.
[[nodiscard]] std::optional<qsizetype> settledLength(QStringView ai);

/// What is wrong with one element by itself; Flaw::UnknownAi for one that the table does not have.
[[nodiscard]] std::optional<Flaw> flawOf(const Element& element, int currentYear);

/// What is wrong with all of them together: Doubled, LoneSerial, Empty.
[[nodiscard]] QList<Remark> flawsTogether(const QList<Element>& elements);

/// Whether a Digital Link may begin with this identifier.
[[nodiscard]] bool isLinkKey(QStringView ai);
/// Whether these identifiers, in this order, may follow the key in the path of a link.
[[nodiscard]] bool areQualifiersOf(QStringView key, const QList<QStringView>& ais);
/// Whether this identifier has its place in the path behind this key, and so not among the queries.
[[nodiscard]] bool isQualifierOf(QStringView key, QStringView ai);

} // namespace coldarc::label
