// The least that a program of this kind does before something can be read: a window with one line of text,
// and a workspace file open. What lies between this and an empty window no program that shows text can save.
// Arguments: when it was started, in milliseconds of the monotonic clock; the workspace file.

#include "tests/bench/painted.h"

#include <QLabel>
#include <QSqlDatabase>
#include <QSqlQuery>

#include <cstdio>
#include <cstdlib>

using namespace Qt::StringLiterals;

int main(int count, char** arguments)
{
    QApplication application(count, arguments);
    if (count < 3)
        return 1;
    auto database = QSqlDatabase::addDatabase(u"QSQLITE"_s);
    database.setDatabaseName(QString::fromLocal8Bit(arguments[2]));
    QSqlQuery heads(database);
    if (!database.open() || !heads.exec(u"SELECT count(*) FROM entry"_s) || !heads.next())
        return 1;
    QLabel window(u"%1 entries"_s.arg(heads.value(0).toInt()));
    coldarc::bench::Painted painted(window);
    window.resize(1366, 768);
    window.show();
    if (!painted.wait())
        return 1;
    std::printf("%.3f\n", coldarc::bench::monotonicMs() - std::strtod(arguments[1], nullptr));
    return 0;
}
