#include "core/label/symbology.h"

#include "core/label/characters.h"

#include <algorithm>
#include <array>
#include <string_view>

using namespace Qt::StringLiterals;

namespace coldarc::label {

namespace {

struct Row {
    char16_t code;
    Symbology symbology;
    std::u16string_view gs1Modifiers;
};

constexpr std::array<Row, 6> kRows{{{u'A', Symbology::Code39, u""},
                                    {u'C', Symbology::Code128, u"1"},
                                    {u'E', Symbology::Ean, u"04"},
                                    {u'd', Symbology::DataMatrix, u"2"},
                                    {u'Q', Symbology::Qr, u"3"},
                                    {u'e', Symbology::Other, u"0"}}};

const Row* rowOf(QChar code)
{
    const auto found = std::ranges::find(kRows, code.unicode(), &Row::code);
    return found == kRows.end() ? nullptr : &*found;
}

} // namespace

QString wordOf(Symbology symbology)
{
    switch (symbology) {
    case Symbology::Code39:
        return u"code-39"_s;
    case Symbology::Code128:
        return u"code-128"_s;
    case Symbology::Ean:
        return u"ean"_s;
    case Symbology::DataMatrix:
        return u"data-matrix"_s;
    case Symbology::Qr:
        return u"qr"_s;
    case Symbology::Other:
        return u"other"_s;
    }
    Q_UNREACHABLE();
}

bool SymbologyId::saysGs1() const
{
    const Row* const row = rowOf(code);
    return row && row->gs1Modifiers.find(modifier.unicode()) != std::u16string_view::npos;
}

bool SymbologyId::isChecked() const
{
    constexpr std::u16string_view kUnchecked = u"04"; // 4: the same in full ASCII
    return symbology != Symbology::Other &&
           (symbology != Symbology::Code39 || kUnchecked.find(modifier.unicode()) == kUnchecked.npos);
}

ScanText scanText(const QString& scanned)
{
    const bool hasId = scanned.size() >= 3 && scanned.at(0) == u']' && isLatin(scanned.at(1)) &&
                       (isLatin(scanned.at(2)) || isDigit(scanned.at(2)));
    if (!hasId)
        return {std::nullopt, scanned};
    const Row* const row = rowOf(scanned.at(1));
    return {SymbologyId{row ? row->symbology : Symbology::Other, scanned.at(1), scanned.at(2)},
            scanned.mid(3)};
}

} // namespace coldarc::label
