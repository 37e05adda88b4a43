// Figures of reading labels. Prints `label.name value unit`; an argument is a text that the wanted names
// contain.
#include "core/catalogue/catalogue.h"
#include "tests/core/label/wrong_lamps.h"

#include <QCoreApplication>

#include <cstdio>

using namespace Qt::StringLiterals;
using namespace coldarc;

namespace {

bool isWanted(const QString& name)
{
    const QStringList arguments = QCoreApplication::arguments();
    return arguments.size() < 2 || name.contains(arguments.at(1));
}

void print(const QString& name, double value, const char* unit)
{
    if (isWanted(name))
        std::printf("%s %g %s\n", qUtf8Printable(name), value, unit);
}

void measureWrongLamps(const QList<catalogue::LampType>& lampTypes)
{
    if (!isWanted(u"label.wrong_passed label.wrong_passed_control label.caught_by label.right_held"_s))
        return;
    const test::Tally tally = test::playWrongLamps(lampTypes, 10'000, 1);
    print(u"label.wrong_passed"_s, tally.wrongPassed, "lamps_of_10000");
    print(u"label.wrong_passed_control"_s, tally.wrongPassedWithoutMarking, "lamps_of_10000");
    print(u"label.right_held"_s, tally.rightHeld, "lamps_of_10000");
    static constexpr std::array<const char*, 4> kSources{"marking", "box", "paper", "entry"};
    QMap<int, int> bySource;
    for (auto it = tally.caughtBy.begin(); it != tally.caughtBy.end(); ++it)
        bySource[it.key().second] += it.value();
    for (auto it = bySource.begin(); it != bySource.end(); ++it)
        print(u"label.caught_by_"_s + QLatin1String(kSources.at(static_cast<size_t>(it.key()))), it.value(),
              "lamps_of_10000");
}

} // namespace

int main(int argc, char** argv)
{
    QCoreApplication application(argc, argv);
    const QList<catalogue::LampType> lampTypes =
        catalogue::loadCatalogue(QStringLiteral(COLDARC_SOURCE_DIR "/resources/catalogue"))
            .catalogue.lampTypes();
    measureWrongLamps(lampTypes);
    return 0;
}
