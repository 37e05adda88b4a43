#pragma once

#include <QByteArray>
#include <QList>
#include <QString>
#include <QStringList>
#include <QStringView>
#include <QVariant>

#include <memory>
#include <optional>
#include <utility>
#include <vector>

namespace coldarc::store {

/// The values of a statement's named placeholders, e.g. `{{u":visit"_s, visit.text()}, {u":seq"_s,
/// qint64(3)}}`.
///
/// Bind QString for TEXT, QByteArray for BLOB, int or qint64 for INTEGER, double for REAL, `sqlNull()` for
/// NULL. A default-made QString or QByteArray is the empty text or blob, never NULL.
using Bindings = QList<std::pair<QString, QVariant>>;

/// The absence of a value.
[[nodiscard]] inline QVariant sqlNull()
{
    return {};
}

/// The value, or its absence.
template<class T>
[[nodiscard]] QVariant orNull(const std::optional<T>& value)
{
    return value ? QVariant(*value) : QVariant();
}

/// One row of an answer, asked by column name. Asking for a column that the statement did not name is a bug
/// and stops the program.
class Row {
public:
    Row(std::shared_ptr<const QStringList> columns, QVariantList values)
        : m_columns(std::move(columns))
        , m_values(std::move(values))
    {
    }

    [[nodiscard]] bool isNull(QStringView column) const { return value(column).isNull(); }
    /// Empty, 0, 0.0 or false for NULL.
    [[nodiscard]] QString text(QStringView column) const { return value(column).toString(); }
    [[nodiscard]] QByteArray bytes(QStringView column) const { return value(column).toByteArray(); }
    [[nodiscard]] qint64 whole(QStringView column) const { return value(column).toLongLong(); }
    [[nodiscard]] double number(QStringView column) const { return value(column).toDouble(); }
    [[nodiscard]] bool flag(QStringView column) const { return whole(column) != 0; }

private:
    [[nodiscard]] const QVariant& value(QStringView column) const
    {
        const qsizetype at = m_columns->indexOf(column);
        Q_ASSERT_X(at >= 0, "store::Row", "the statement names no such column");
        return m_values.at(at);
    }

    std::shared_ptr<const QStringList> m_columns; ///< shared by all rows of one answer
    QVariantList m_values;
};

/// What a statement gave back.
struct Answer {
    std::vector<Row> rows; ///< of a statement that reads, in its order
    qint64 changed = 0;    ///< of a statement that writes: how many rows
};

} // namespace coldarc::store
