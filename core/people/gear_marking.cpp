#include "core/people/gear_marking.h"

#include <QRegularExpression>

#include <array>

namespace coldarc::people {

using namespace Qt::StringLiterals;

namespace {

using Standard = GearMarking::Standard;

/// m/s: strength letters of EN 166, 0.86 g ball of 6 mm.
std::optional<double> en166Speed(const QString& letter)
{
    if (letter == u"F")
        return 45.0;
    if (letter == u"B")
        return 120.0;
    if (letter == u"A")
        return 190.0;
    return std::nullopt; // S, or none: no small ball
}

std::optional<GearMarking> en166(const QString& marks)
{
    // Optical class, strength, the same when hot and cold, fields of use, scratch and mist.
    static const QRegularExpression kForm(u"^([123])?([SFBA])?(T)?([34589]*)(K)?(N)?$"_s);
    const QRegularExpressionMatch match = kForm.match(marks);
    if (!match.hasMatch() || marks.isEmpty())
        return std::nullopt;
    GearMarking marking;
    marking.standard = Standard::En166;
    if (!match.captured(1).isEmpty())
        marking.opticalClass = match.captured(1).toInt();
    marking.impactSpeed = en166Speed(match.captured(2));
    marking.holdsHotAndCold = !match.captured(3).isEmpty();
    marking.holdsMolten = match.captured(4).contains(u'9');
    marking.isForFaceShieldsOnly = match.captured(2) == u"A";
    return marking;
}

std::optional<GearMarking> iso16321(const QString& marks)
{
    static constexpr std::array kSpeeds{45.0, 80.0, 120.0}; // C, D, E
    static const QRegularExpression kForm(u"^(?:-1)?([CDE])$"_s);
    const QRegularExpressionMatch match = kForm.match(marks);
    if (!match.hasMatch())
        return std::nullopt;
    GearMarking marking;
    marking.standard = Standard::Iso16321;
    marking.impactSpeed = kSpeeds.at(static_cast<std::size_t>(match.captured(1).front().unicode() - u'C'));
    return marking;
}

std::optional<GearMarking> en388(const QString& marks)
{
    static constexpr std::array kForces{2.0, 5.0, 10.0, 15.0, 22.0, 30.0}; // A to F
    static const QRegularExpression kForm(u"^[0-4X][0-5X][0-4X][0-4X]([A-FX])?P?$"_s);
    const QRegularExpressionMatch match = kForm.match(marks);
    if (!match.hasMatch())
        return std::nullopt;
    GearMarking marking;
    marking.standard = Standard::En388;
    const QString level = match.captured(1);
    if (!level.isEmpty() && level != u"X")
        marking.cutForce = kForces.at(static_cast<std::size_t>(level.front().unicode() - u'A'));
    return marking;
}

std::optional<GearMarking> isea105(const QString& marks)
{
    static constexpr std::array kLevels{200.0, 500.0, 1000.0, 1500.0, 2200.0, 3000.0, 4000.0, 5000.0, 6000.0};
    static const QRegularExpression kForm(u"^A([1-9])$"_s);
    const QRegularExpressionMatch match = kForm.match(marks);
    if (!match.hasMatch())
        return std::nullopt;
    GearMarking marking;
    marking.standard = Standard::Isea105;
    marking.cutGramForce = kLevels.at(static_cast<std::size_t>(match.captured(1).toInt() - 1));
    return marking;
}

} // namespace

std::optional<GearMarking> gearMarkingFrom(const QString& text)
{
    struct Row {
        QLatin1StringView name;
        std::optional<GearMarking> (*read)(const QString&);
    };
    static constexpr std::array<Row, 5> kStandards{{{"EN166"_L1, en166},
                                                    {"EN388"_L1, en388},
                                                    {"ISO16321"_L1, iso16321},
                                                    {"ANSI/ISEA105"_L1, isea105},
                                                    {"ISEA105"_L1, isea105}}};
    const QString packed = text.toUpper().remove(u' ');
    for (const Row& row : kStandards) {
        if (packed.startsWith(row.name))
            return row.read(packed.mid(row.name.size()));
    }
    return std::nullopt;
}

bool contradicts(const GearMarking& marking, const QString& kind)
{
    const bool isForEyes = marking.standard == Standard::En166 || marking.standard == Standard::Iso16321;
    const bool isShield = kind == u"face-shield";
    const bool isGlasses = kind == u"safety-glasses";
    if (isForEyes)
        return !(isShield || isGlasses) || (marking.isForFaceShieldsOnly && !isShield);
    return isShield || isGlasses;
}

} // namespace coldarc::people
