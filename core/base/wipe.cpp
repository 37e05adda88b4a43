#include "core/base/wipe.h"

#include <sodium.h>

namespace coldarc {

void wipe(QString& text)
{
    // Not data(), which would give this text characters of its own and leave the others as they are.
    auto* characters = const_cast<QChar*>(text.constData()); // NOLINT(cppcoreguidelines-pro-type-const-cast)
    if (text.data_ptr().isMutable())
        sodium_memzero(characters, static_cast<std::size_t>(text.size()) * sizeof(QChar));
    text.clear();
}

} // namespace coldarc
