#include "core/label/normalise.h"

namespace coldarc::label {

namespace {

constexpr char16_t kMinusSign = 0x2212;
constexpr char16_t kFirstFullWidth = 0xFF01; // stands for '!'
constexpr char16_t kLastFullWidth = 0xFF5E;  // stands for '~'
constexpr char16_t kFullWidthStep = 0xFEE0;

QChar plainWidth(QChar c)
{
    const char16_t unit = c.unicode();
    const bool fullWidth = unit >= kFirstFullWidth && unit <= kLastFullWidth;
    return fullWidth ? QChar(static_cast<char16_t>(unit - kFullWidthStep)) : c;
}

bool isLeftOut(QChar c)
{
    return c.isSpace() || c.category() == QChar::Punctuation_Dash || c.category() == QChar::Other_Format ||
           c.unicode() == kMinusSign;
}

// Only where the way back leads to the same letter: the capital of a dotless i is I, which would hide a
// difference.
QChar capital(QChar c)
{
    const QChar upper = c.toUpper();
    return upper.toLower() == c ? upper : c;
}

} // namespace

NormalText normalText(const QString& original)
{
    NormalText result;
    result.originalLength = original.size();
    for (qsizetype i = 0; i < original.size(); ++i) {
        const QChar c = plainWidth(original.at(i));
        if (isLeftOut(c))
            continue;
        result.text.append(capital(c));
        result.at.push_back(i);
    }
    return result;
}

QString normalise(const QString& original)
{
    return normalText(original).text;
}

} // namespace coldarc::label
