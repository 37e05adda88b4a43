#include "tests/app/any_intake.h"

#include <QCoreApplication>
#include <QFile>

#include <cstddef>
#include <cstdint>
#include <cstdlib>

namespace {

QByteArray opening()
{
    QFile file(QStringLiteral("tests/fuzz/intake-opening")); // it is run from the top of the tree
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray("{}");
}

} // namespace

/// One input of libFuzzer. tests/fuzz/run builds and runs it.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    static int count = 1;
    static char name[] = "intake_fuzz";
    static char* names[] = {name, nullptr};
    static const QCoreApplication application(count, names); // the database is a plugin
    static coldarc::test::AnyIntake intake(opening());
    const QByteArray bytes(reinterpret_cast<const char*>(data), static_cast<qsizetype>(size));
    if (!intake.takesSafely(bytes))
        std::abort();
    return 0;
}
