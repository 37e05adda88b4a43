#pragma once

#include <QString>

namespace coldarc {

/// Whether a figure is written as thousands are, in groups of three behind points or commas: "3,000",
/// "1.980", "12,500,000". Such a figure is three thousand to one reader and three to another, so that it is
/// refused where thousands are met and never guessed. Where only small quantities are met, a colour or a dark
/// screen, "0.123" and "1.234" are honest decimals; "0.123" is no thousands anywhere. Blanks around it are
/// left aside.
[[nodiscard]] bool isGrouped(const QString& figure);

} // namespace coldarc
