#include "core/lamps/stock_table.h"

#include "core/label/normalise.h"

#include <QSet>
#include <QStringList>

#include <algorithm>
#include <array>
#include <variant>

namespace coldarc::lamps {

namespace {

using BadCause = BadStockRow::Cause;

constexpr std::array<Custody, 4> kForATable{Custody::OnOrder, Custody::InStock, Custody::InVan,
                                            Custody::Boxed};

QStringList fieldsOf(const QString& line)
{
    QStringList fields = line.split(line.contains(u'\t') ? u'\t' : u';');
    for (QString& field : fields)
        field = field.trimmed();
    return fields;
}

std::variant<LampTypeId, BadCause> typeOf(const QString& text, const QList<catalogue::LampType>& lampTypes)
{
    const QString wanted = label::normalise(text);
    QList<LampTypeId> found;
    for (const catalogue::LampType& type : lampTypes)
        if (label::normalise(type.code) == wanted)
            found.append(type.id);
    if (found.isEmpty())
        return BadCause::TypeNotInCatalogue;
    if (found.size() > 1)
        return BadCause::TypeNamesSeveral;
    return found.front();
}

std::variant<Custody, BadCause> custodyOf(const QString& text)
{
    const auto custody = custodyFromWord(text.toLower());
    if (!custody)
        return BadCause::NoSuchCustody;
    if (std::ranges::find(kForATable, *custody) == kForATable.end())
        return BadCause::CustodyNotForATable;
    return *custody;
}

std::variant<StockRow, BadCause> rowOf(const QStringList& fields, const QList<catalogue::LampType>& lampTypes)
{
    if (fields.size() != 3)
        return BadCause::NotThreeFields;
    const auto type = typeOf(fields[0], lampTypes);
    if (const auto* cause = std::get_if<BadCause>(&type))
        return *cause;
    const auto custody = custodyOf(fields[2]);
    if (const auto* cause = std::get_if<BadCause>(&custody))
        return *cause;
    StockRow row{0, std::get<LampTypeId>(type), fields[1], std::get<Custody>(custody)};
    if (label::normalise(row.serial).isEmpty() && row.custody != Custody::OnOrder)
        return BadCause::SerialMissing;
    return row;
}

} // namespace

StockTable readStockTable(const QString& text, const QList<catalogue::LampType>& lampTypes)
{
    StockTable table;
    QSet<QString> seen;
    const QStringList lines = text.split(u'\n');
    for (qsizetype i = 0; i < lines.size(); ++i) {
        const QString line = lines[i].trimmed();
        if (line.isEmpty())
            continue;
        const int number = static_cast<int>(i) + 1;
        auto row = rowOf(fieldsOf(lines[i]), lampTypes);
        if (auto* good = std::get_if<StockRow>(&row)) {
            const QString serial = label::normalise(good->serial);
            const QString lamp = good->type.text() + u'\n' + serial;
            if (!serial.isEmpty() && seen.contains(lamp))
                row = BadCause::TwiceInTheTable;
            seen.insert(lamp);
        }
        if (auto* good = std::get_if<StockRow>(&row)) {
            good->line = number;
            table.rows.append(*good);
        } else {
            table.bad.append({number, std::get<BadCause>(row), line});
        }
    }
    return table;
}

} // namespace coldarc::lamps
