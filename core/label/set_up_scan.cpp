#include "core/label/set_up_scan.h"

#include "core/label/gs1.h"
#include "core/label/symbology.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::label {

namespace {

constexpr QChar kSeparator = QChar(kGroupSeparator);

// The identifier comes garbled on another layout too: then as many characters more as it has.
QString afterIdentifier(const QString& scanned, qsizetype expected, qsizetype lost)
{
    const ScanText scan = scanText(scanned);
    if (scan.id)
        return scan.text;
    return scanned.size() == expected - lost + 3 ? scanned.mid(3) : scanned;
}

} // namespace

QString setUpText()
{
    return u"010950600013435221AZYQWMazyqwm-/_.:+"_s + kSeparator + u"10LOT7"_s;
}

bool looksUnset(const Payload& payload)
{
    return !payload.symbology || !payload.isSound();
}

SetUpVerdict setUpVerdict(const QString& scanned)
{
    SetUpVerdict verdict;
    verdict.saysSymbology = scanText(scanned).id.has_value();
    verdict.keepsSeparator = scanned.contains(kSeparator);
    QString expected = setUpText();
    const QString came = afterIdentifier(scanned, expected.size(), verdict.keepsSeparator ? 0 : 1);
    if (!verdict.keepsSeparator && came.size() < expected.size())
        expected.remove(kSeparator); // left out, not made another
    verdict.isCutOff = came.size() != expected.size();
    for (qsizetype i = 0; i < std::min(came.size(), expected.size()); ++i) {
        const OtherCharacter pair{expected.at(i), came.at(i)};
        if (pair.inCode == pair.came)
            continue;
        if (pair.inCode.toUpper() == pair.came.toUpper())
            verdict.swapsCase = true;
        else if (!verdict.isCutOff && !verdict.others.contains(pair))
            verdict.others.append(pair);
    }
    return verdict;
}

} // namespace coldarc::label
