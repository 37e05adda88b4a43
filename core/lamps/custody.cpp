#include "core/lamps/custody.h"

#include <QStringList>

#include <algorithm>
#include <initializer_list>

using namespace Qt::StringLiterals;

namespace coldarc::lamps {

namespace {

struct Row {
    Custody custody;
    const char16_t* word;
    bool begins; ///< a lamp may turn up here
    std::initializer_list<Custody> next;
};

using C = Custody;

// In the order of the enumeration.
const std::array<Row, kCustodies> kRows{{
    {C::OnOrder, u"on-order", true, {C::InStock, C::InVan}},
    {C::InStock, u"in-stock", true, {C::InVan, C::Fitted, C::Returned, C::Recycled, C::Burst, C::KeptBySite}},
    {C::InVan,
     u"in-van",
     true,
     {C::InStock, C::Fitted, C::Unused, C::Returned, C::Recycled, C::Burst, C::KeptBySite}},
    {C::Fitted, u"fitted", true, {C::Boxed, C::Burst}},
    {C::Boxed,
     u"boxed",
     true,
     {C::Fitted, C::InStock, C::InVan, C::Returned, C::Recycled, C::Burst, C::KeptBySite}},
    {C::Returned, u"returned", false, {C::InStock, C::Recycled}},
    {C::Recycled, u"recycled", false, {}},
    {C::Burst, u"burst", false, {C::Returned, C::Recycled}},
    {C::KeptBySite,
     u"kept-by-site",
     true,
     {C::Fitted, C::InStock, C::InVan, C::Returned, C::Recycled, C::Burst}},
    {C::Unused, u"unused", false, {C::Fitted, C::InStock, C::InVan, C::Returned, C::Burst, C::KeptBySite}},
}};

const Row& rowOf(Custody custody)
{
    return kRows.at(static_cast<size_t>(custody));
}

} // namespace

QString wordOf(Custody custody)
{
    return QString::fromUtf16(rowOf(custody).word);
}

std::optional<Custody> custodyFromWord(const QString& word)
{
    const auto row = std::ranges::find_if(kRows, [&](const Row& r) { return word == QStringView(r.word); });
    return row == kRows.end() ? std::nullopt : std::optional(row->custody);
}

bool canMove(Custody from, Custody to)
{
    return std::ranges::find(rowOf(from).next, to) != rowOf(from).next.end();
}

bool canBeginAs(Custody custody)
{
    return rowOf(custody).begins;
}

} // namespace coldarc::lamps
