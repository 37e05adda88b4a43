// The least that a program of this kind does before something can be read: a window with one line of text,
// and a workspace file open. What lies between this and an empty window no program that shows text can save.
// Arguments: when it was started, in milliseconds of the monotonic clock; the workspace file.

#include "core/store/database.h"
#include "tests/bench/painted.h"
#include "tests/bench/times.h"

#include <QLabel>

#include <cstdio>
#include <cstdlib>

using namespace Qt::StringLiterals;
using namespace coldarc;

int main(int count, char** arguments)
{
    QApplication application(count, arguments);
    if (count < 3)
        return 1;
    auto database = store::Database::connect(QString::fromLocal8Bit(arguments[2]), store::Access::Read);
    const auto version = database ? database->version() : tl::unexpected(database.error());
    if (!version)
        return 1;
    QLabel window(u"version %1"_s.arg(*version));
    bench::Painted painted(window);
    window.resize(1366, 768);
    window.show();
    if (!painted.wait())
        return 1;
    std::printf("%.3f\n", bench::monotonicMs() - std::strtod(arguments[1], nullptr));
    return 0;
}
