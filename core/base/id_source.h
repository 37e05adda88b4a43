#pragma once

#include <QString>

namespace coldarc {

/// Where new ids come from, so that tests and the demo can have the same ones every time.
class IdSource {
public:
    virtual ~IdSource() = default;
    /// A text that this source has not given before.
    [[nodiscard]] virtual QString next() = 0;
};

/// Random UUIDs (version 4), without braces.
class RandomIds final : public IdSource {
public:
    [[nodiscard]] QString next() override;
};

} // namespace coldarc
