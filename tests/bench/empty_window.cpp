// The least that any Qt program does before something is seen: what tests/bench/app_bench measures the start
// of Coldarc against. Argument: when it was started, in milliseconds of the monotonic clock.

#include "tests/bench/painted.h"
#include "tests/bench/times.h"

#include <cstdio>
#include <cstdlib>

int main(int count, char** arguments)
{
    QApplication application(count, arguments);
    QWidget window;
    coldarc::bench::Painted painted(window);
    window.resize(1366, 768);
    window.show();
    if (count < 2 || !painted.wait())
        return 1;
    std::printf("%.3f\n", coldarc::bench::monotonicMs() - std::strtod(arguments[1], nullptr));
    return 0;
}
