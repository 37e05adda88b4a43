#include "tests/core/record/any_record.h"

#include <cstddef>
#include <cstdint>
#include <cstdlib>

/// One input of libFuzzer. tests/fuzz/run builds and runs it.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    const QByteArray bytes(reinterpret_cast<const char*>(data), static_cast<qsizetype>(size));
    if (!coldarc::test::readsRecordSafely(bytes))
        std::abort();
    return 0;
}
