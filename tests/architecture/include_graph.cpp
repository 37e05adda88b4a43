#include "tests/architecture/include_graph.h"

#include <QFile>
#include <QRegularExpression>

#include <algorithm>

namespace coldarc::test {
using namespace Qt::StringLiterals;

namespace {

/// The one written exception: the page that shows where the workspace file is, backs it up and restores it.
const QStringList kMayUseTheStore = {u"ui/shell/backup_page.h"_s, u"ui/shell/backup_page.cpp"_s};

const QString kStore = u"core/store"_s;

bool isCore(const QString& room)
{
    return room.startsWith(u"core/"_s);
}

bool isUi(const QString& room)
{
    return room.startsWith(u"ui/"_s);
}

QString roomOf(const QString& path)
{
    return path.section(u'/', 0, 1);
}

/// This room and all that it uses, directly or not.
void reach(const QString& room, const Rooms& rooms, QSet<QString>& reached)
{
    if (reached.contains(room))
        return;
    reached.insert(room);
    const QSet<QString> row = rooms.value(room);
    for (const QString& used : row)
        reach(used, rooms, reached);
}

/// Why this include is refused, or empty.
QString complaintAbout(const QString& included, const SourceFile& file, const Rooms& rooms)
{
    const QString top = included.section(u'/', 0, 0);
    if (top == u"tests"_s)
        return u"nothing outside tests/ may use tests; move what you need into a room"_s;
    if (top == u"app"_s)
        return file.path.startsWith(u"app/"_s) ? QString() : u"app knows every room and is known by none"_s;
    if (top != u"core"_s && top != u"ui"_s)
        return u"spell our own headers from the top of the tree: \"core/<room>/<file>.h\""_s;
    const QString used = roomOf(included);
    if (!rooms.contains(used))
        return used + u" is no room; the table of rooms stands at the end of CMakeLists.txt"_s;
    if (file.path.startsWith(u"app/"_s) || mayUse(roomOf(file.path), rooms).contains(used))
        return {};
    if (used == kStore && kMayUseTheStore.contains(file.path))
        return {};
    const QString refusal = u"%1 may not use %2; "_s.arg(roomOf(file.path), used);
    if (isUi(roomOf(file.path)) && used == kStore)
        return refusal + u"let the core room's own store, or app, do it and hand the result over"_s;
    return refusal +
           u"add it to the USES of its row in CMakeLists.txt if it stands above, else move the code"_s;
}

} // namespace

Rooms roomsFromText(const QString& text)
{
    Rooms rooms;
    const QStringList lines = text.split(u'\n', Qt::SkipEmptyParts);
    for (const QString& line : lines) {
        const QStringList used = line.section(u':', 1).trimmed().split(u',', Qt::SkipEmptyParts);
        rooms.insert(line.section(u':', 0, 0), QSet<QString>(used.begin(), used.end()));
    }
    return rooms;
}

Rooms readRooms()
{
    QFile table(QStringLiteral(COLDARC_ROOMS_FILE));
    const bool isThere = table.open(QIODevice::ReadOnly);
    Q_ASSERT_X(isThere, "readRooms", "CMake writes this file when it configures");
    return roomsFromText(QString::fromUtf8(table.readAll()));
}

QSet<QString> mayUse(const QString& room, const Rooms& rooms)
{
    QSet<QString> allowed = rooms.value(room);
    if (isUi(room)) {
        QSet<QString> reached;
        reach(room, rooms, reached);
        reached.removeIf([](const QString& each) { return !isCore(each); });
        allowed.unite(reached);
        allowed.remove(kStore);
    }
    allowed.insert(room);
    return allowed;
}

QStringList includeComplaints(const SourceFile& file, const Rooms& rooms)
{
    const QString top = file.path.section(u'/', 0, 0);
    if (!isCpp(file.path) || (top != u"core"_s && top != u"ui"_s && top != u"app"_s))
        return {};
    QStringList complaints;
    if (top != u"app"_s && !rooms.contains(roomOf(file.path)))
        complaints << u"%1:1 stands in %2, which is no room; add a row to CMakeLists.txt"_s.arg(
            file.path, roomOf(file.path));
    // Quoted includes, and the angled form of our own folders, which the compiler would find just as well.
    static const QRegularExpression include(
        uR"re(^[ \t]*#[ \t]*include[ \t]*(?:"([^"\n]+)"|<((?:core|ui|app|tests)/[^>\n]+)>))re"_s,
        QRegularExpression::MultilineOption);
    const QString code = codeOf(file.text, Strings::Kept);
    for (auto found = include.globalMatch(code); found.hasNext();) {
        const QRegularExpressionMatch match = found.next();
        const QString included = match.captured(1) + match.captured(2);
        const bool isGenerated = included.endsWith(u".moc"_s);
        const QString why = isGenerated ? QString() : complaintAbout(included, file, rooms);
        if (!why.isEmpty())
            complaints << u"%1:%2 includes %3, but %4"_s.arg(
                file.path, QString::number(lineOf(code, match.capturedStart(0))), included, why);
    }
    return complaints;
}

QStringList tableComplaints(const Rooms& rooms)
{
    QStringList complaints;
    for (auto row = rooms.begin(); row != rooms.end(); ++row) {
        if (isCore(row.key()) && std::ranges::any_of(row.value(), isUi))
            complaints << u"CMakeLists.txt: %1 uses a ui room; core has no face, turn it round"_s.arg(
                row.key());
        if (isUi(row.key()) && row.value().contains(kStore))
            complaints << u"CMakeLists.txt: %1 uses core/store; let the core room's own store do it"_s.arg(
                row.key());
    }
    return complaints;
}

} // namespace coldarc::test
