#pragma once

#include "core/base/result.h"

#include <QByteArray>
#include <QHash>

#include <mutex>
#include <utility>

namespace coldarc {

/// What was made of texts lately, so that it is not made once more: of the same text always the same is made.
/// For any thread. What could not be made is not remembered.
template<class Value>
class Remembered {
public:
    /// At most as many values, of texts of at most as many bytes; one more, and all are forgotten.
    static constexpr qsizetype kMost = 64;
    static constexpr qsizetype kMostBytes = qsizetype{1} << 18;

    /// @param make  what gives a `Result<Value>` that depends on nothing but the text.
    template<class Make>
    [[nodiscard]] Result<Value> of(const QByteArray& text, Make make)
    {
        {
            const std::scoped_lock lock(m_mutex);
            if (const auto known = m_values.constFind(text); known != m_values.cend())
                return *known;
        }
        Result<Value> made = make();
        if (made && text.size() <= kMostBytes) {
            const std::scoped_lock lock(m_mutex);
            if (m_values.size() >= kMost)
                m_values.clear();
            m_values.insert(text, *made);
        }
        return made;
    }

private:
    std::mutex m_mutex;
    QHash<QByteArray, Value> m_values;
};

} // namespace coldarc
