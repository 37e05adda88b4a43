#include "tests/architecture/house_rules.h"

#include <algorithm>

namespace coldarc::test {
using namespace Qt::StringLiterals;

namespace {

const QStringList kOurCpp = {u"core/"_s, u"ui/"_s, u"app/"_s, u"tests/"_s};
const QStringList kProduct = {u"core/"_s, u"ui/"_s, u"app/"_s};
const QStringList kWholeTree = {QString()};

QRegularExpression pattern(const QString& text)
{
    return QRegularExpression(text, QRegularExpression::MultilineOption);
}

std::vector<HouseRule> makeRules()
{
    return {
        {u"SqlTypes"_s,
         pattern(u"<QSql|\\bQSql[A-Z]\\w*"_s),
         Part::Code,
         kOurCpp,
         {u"core/store/"_s},
         u"say it through the API of core/store"_s},
        {u"SqlText"_s,
         pattern(
             u"\\b(SELECT\\s|INSERT\\s+(OR\\s+\\w+\\s+)?INTO\\b|UPDATE\\s+\\w+\\s+SET\\b|DELETE\\s+FROM\\b|"
             "CREATE\\s+(TABLE|INDEX|VIEW|TRIGGER)\\b)"_s),
         Part::CodeAndStrings,
         kProduct,
         {u"core/store/"_s},
         u"put SQL text into core/<room>/<thing>_store.cpp or a file of resources/schema"_s},
        {u"PrefixedQtHeader"_s,
         pattern(u"<Qt[A-Z]\\w*/"_s),
         Part::Code,
         kOurCpp,
         {},
         u"write <QString>, not <QtCore/QString>: only the short form is held back by what a room links"_s},
        {u"OwnClock"_s,
         pattern(u"\\b(currentDateTime\\w*|(system|steady|high_resolution)_clock::now|QDate::currentDate|"
                 "QTime::currentTime|current(M?)SecsSinceEpoch|clock_gettime|gettimeofday|QElapsedTimer)\\b|"
                 "std::time\\("_s),
         Part::Code,
         kOurCpp,
         {u"core/base/clock.cpp"_s, u"tests/core/base/clock_test.cpp"_s, u"tests/bench/"_s, u"tests/long/"_s},
         u"take a Stamp, or a const Clock& handed in from app"_s},
        {u"ClockSetting"_s,
         pattern(
             u"\\b(setenv|settimeofday|clock_settime|adjtimex?|timedatectl|hwclock)\\b|\\bdate\\s+(-s\\b|--set)"_s),
         Part::Everything,
         kWholeTree,
         {},
         u"move a test::FakeClock; leave the computer as it is"_s},
        {u"Sleeping"_s,
         pattern(u"\\b(QThread::[mu]?sleep|usleep|nanosleep|sleep_for|sleep_until|qSleep|qWait)\\b|"
                 "(?<![\\w.>])sleep\\(\\s*\\d"_s),
         Part::Code,
         kOurCpp,
         {u"tests/bench/"_s, u"tests/long/"_s},
         u"compute from stamps; a QTimer in a widget may say \"look again\", a test moves its FakeClock"_s},
        {u"Objects"_s,
         pattern(u"\\bQ_(OBJECT|GADGET|NAMESPACE)\\b"_s),
         Part::Code,
         {u"core/"_s},
         {},
         u"core holds values and rules; signals belong to a presenter in ui"_s},
        {u"BorrowedSignal"_s,
         pattern(u"\\bQ_EMIT\\s+\\w+\\([^;]*?(\\.(at|first|last|front|back)\\(|\\w\\[)"_s),
         Part::Code,
         kProduct,
         {},
         u"emit a copy, list.value(i): a listener may replace the list while the next one still reads from it"_s},
        {u"TextForPeople"_s,
         pattern(u"\\b(tr|qsTr|qtTrId)\\(|\\bQT_TR\\w*|\\bQCoreApplication::translate\\b"_s),
         Part::Code,
         {u"core/"_s},
         {},
         u"give back a value; the presenter chooses the words"_s},
        {u"Singletons"_s,
         pattern(u"\\binstance\\(\\)|\\bqApp\\b"_s),
         Part::Code,
         kProduct,
         {u"app/"_s},
         u"hand it over as an argument, from app"_s},
        {u"UnfinishedWork"_s,
         pattern(u"\\b(TODO|FIXME|XXX)\\b"_s),
         Part::Everything,
         kWholeTree,
         {},
         u"do it, write a test that shows it, or open an issue"_s},
        {u"LiteralsInHeaders"_s,
         pattern(u"^using\\s+namespace\\b"_s),
         Part::Code,
         kOurCpp,
         {},
         u"using-directives in .cpp files or inside a function only: a header's reach whoever includes it"_s},
        {u"BareGoogleTest"_s,
         pattern(u"<gtest/"_s),
         Part::Code,
         {u"tests/"_s},
         {u"tests/support/"_s},
         u"include \"tests/support/testing.h\", which prints Qt's texts as text"_s},
        {u"TestNames"_s,
         pattern(u"^\\s*(TYPED_)?TEST(_F|_P)?\\(\\s*(\\w*_\\w*\\s*,|\\w+\\s*,\\s*\\w*_)"_s),
         Part::Code,
         {u"tests/"_s},
         {},
         u"a test's name is a sentence in UpperCamel, without underscores"_s},
    };
}

/// Tests of a room as a whole, which have no header of their name.
const QStringList kWholeRoomTests = {
    u"tests/core/machine/enumeration_test.cpp"_s, // every state that can be reached
    u"tests/core/machine/frame_test.cpp"_s,       // what a command leaves alone
    u"tests/core/machine/lockout_order_test.cpp"_s,
    u"tests/core/machine/mutation_test.cpp"_s, // what each demand is good for
    u"tests/core/machine/rearm_test.cpp"_s,    // what makes a gate wait again
    u"tests/core/machine/transitions_test.cpp"_s,
    u"tests/core/people/people_step_test.cpp"_s, // old files, when a step makes their tables anew
    u"tests/core/store/durability_test.cpp"_s,
    u"tests/core/visit/electrician_test.cpp"_s,   // somebody who only proves absence
    u"tests/core/visit/fan_or_power_test.cpp"_s,  // a fan or the power lost
    u"tests/core/visit/follow_up_test.cpp"_s,     // a visit that only does what was owed
    u"tests/core/visit/gate_test.cpp"_s,          // a refused attempt per gate
    u"tests/core/visit/incident_test.cpp"_s,      // each incident's short path
    u"tests/core/visit/lock_removal_test.cpp"_s,  // a lock whose owner is not there
    u"tests/core/visit/said_and_done_test.cpp"_s, // what an answer or a word taken back can mean
    u"tests/core/visit/night_waits_test.cpp"_s,   // waits in a whole night
    u"tests/core/visit/people_test.cpp"_s,        // several people at one visit
    u"tests/core/visit/random_test.cpp"_s,        // random nights
    u"tests/core/visit/stop_test.cpp"_s,          // the three stops
    u"tests/core/visit/swap_test.cpp"_s,          // a whole swap
    u"tests/core/visit/withdrawing_test.cpp"_s,   // what was written by mistake
};

bool beginsWithAny(const QString& path, const QStringList& beginnings)
{
    return std::ranges::any_of(beginnings, [&](const QString& b) { return path.startsWith(b); });
}

bool isRead(const HouseRule& rule, const QString& path)
{
    if (!beginsWithAny(path, rule.watched) || beginsWithAny(path, rule.allowed))
        return false;
    if (path.startsWith(u"tests/architecture/"_s) || (rule.part != Part::Everything && !isCpp(path)))
        return false;
    if (rule.name == u"LiteralsInHeaders"_s)
        return path.endsWith(u".h"_s);
    return !(rule.name == u"SqlText"_s && path.startsWith(u"core/"_s) && path.endsWith(u"_store.cpp"_s));
}

QString partOf(const SourceFile& file, Part part)
{
    if (part == Part::Everything)
        return file.text;
    return codeOf(file.text, part == Part::Code ? Strings::Blanked : Strings::Kept);
}

} // namespace

const std::vector<HouseRule>& houseRules()
{
    static const std::vector<HouseRule> rules = makeRules();
    return rules;
}

QStringList complaintsOf(const HouseRule& rule, const SourceFile& file)
{
    if (!isRead(rule, file.path))
        return {};
    QStringList complaints;
    const QString text = partOf(file, rule.part);
    for (auto found = rule.pattern.globalMatch(text); found.hasNext();) {
        const QRegularExpressionMatch match = found.next();
        const qsizetype line = lineOf(text, match.capturedEnd(0) - 1);
        complaints << u"%1:%2 has \"%3\" (%4); %5"_s.arg(
            file.path, QString::number(line), match.captured(0).simplified(), rule.name, rule.cure);
    }
    return complaints;
}

QStringList topLevelComplaints(const QStringList& names)
{
    static const QStringList house = {u"CMakeLists.txt"_s, u"README.md"_s, u"DEVELOPERS.md"_s, u"app"_s,
                                      u"core"_s,           u"ui"_s,        u"resources"_s,     u"tests"_s,
                                      u"sample-data"_s};
    QStringList complaints;
    for (const QString& name : names) {
        if (!name.startsWith(u'.') && !house.contains(name))
            complaints << u"%1:1 stands at the top of the tree; move it into one of %2"_s.arg(
                name, house.join(u", "_s));
    }
    return complaints;
}

QStringList twinComplaints(const QSet<QString>& paths)
{
    static const QRegularExpression test(u"^tests/(core/\\w+/\\w+)_test\\.cpp$"_s);
    QStringList complaints;
    for (const QString& path : paths) {
        const QRegularExpressionMatch match = test.match(path);
        if (match.hasMatch() && !kWholeRoomTests.contains(path) &&
            !paths.contains(match.captured(1) + u".h"_s))
            complaints << u"%1:1 has no twin %2.h; name a test after the header whose promises it checks, or "
                          u"list it in "
                          "kWholeRoomTests of house_rules.cpp"_s.arg(path, match.captured(1));
    }
    complaints.sort();
    return complaints;
}

QStringList guideComplaints(const QString& guide, const QSet<QString>& paths, const QSet<QString>& rooms)
{
    static const QRegularExpression notBuilt(u"^### Not built yet$.*?(?=^#)"_s,
                                             QRegularExpression::MultilineOption |
                                                 QRegularExpression::DotMatchesEverythingOption);
    static const QRegularExpression named(
        u"`((?:app|core|ui|tests|resources|sample-data|\\.ci)/[^`<> ]*)`"_s);
    QStringList complaints;
    for (const QString& room : rooms) {
        if (room.startsWith(u"core/"_s) && !guide.contains(u"| `%1` |"_s.arg(room)))
            complaints << u"DEVELOPERS.md:1 has no line for %1; add one to its table of rooms"_s.arg(room);
    }
    QString built = guide;
    built.remove(notBuilt);
    for (auto found = named.globalMatch(built); found.hasNext();) {
        const QString path = found.next().captured(1);
        const QString folder = path.endsWith(u'/') ? path : path + u'/';
        const bool exists =
            paths.contains(path) || rooms.contains(path) ||
            std::ranges::any_of(paths, [&](const QString& p) { return p.startsWith(folder); });
        if (!exists)
            complaints << u"DEVELOPERS.md:1 names %1, which is not there; name what is"_s.arg(path);
    }
    complaints.sort();
    return complaints;
}

} // namespace coldarc::test
