#include "tests/core/label/any_payload.h"

#include <QByteArrayView>
#include <QString>

#include <cstddef>
#include <cstdint>
#include <cstdlib>

/// One input of libFuzzer: UTF-8, as a decoder or a scanner may bring it. tests/fuzz/run builds and runs it.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size)
{
    const QByteArrayView bytes(data, static_cast<qsizetype>(size));
    if (!coldarc::test::readsSafely(QString::fromUtf8(bytes)))
        std::abort();
    return 0;
}
