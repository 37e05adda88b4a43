#include "core/label/compare_fields.h"

#include "core/label/normalise.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace coldarc::label {

namespace {

using Kind = Segment::Kind;

constexpr std::array<std::u16string_view, 7> kLookAlikes{u"0OQD", u"1IL", u"2Z", u"5S", u"6G", u"8B", u"UV"};

// Fewest edits first; of equally few, the fewest that no look-alike or swap explains.
struct Cost {
    int edits = 0;
    int unexplained = 0;

    friend auto operator<=>(const Cost&, const Cost&) = default;
};

struct Move {
    Cost cost;
    Kind kind = Kind::Same;
};

size_t unitsOfA(Kind kind)
{
    return kind == Kind::Swapped ? 2 : kind == Kind::Extra ? 0 : 1;
}

size_t unitsOfB(Kind kind)
{
    return kind == Kind::Swapped ? 2 : kind == Kind::Missing ? 0 : 1;
}

/// The table of best moves that end at (i, j): i characters of a and j of b are behind.
class Alignment {
public:
    Alignment(const QString& a, const QString& b)
        : m_a(a)
        , m_b(b)
        , m_columns(static_cast<size_t>(b.size()) + 1)
        , m_moves((static_cast<size_t>(a.size()) + 1) * m_columns)
    {
        for (size_t i = 0; i < rows(); ++i)
            for (size_t j = 0; j < m_columns; ++j)
                if (i + j > 0)
                    at(i, j) = best(i, j);
    }

    [[nodiscard]] int distance() const { return at(rows() - 1, m_columns - 1).cost.edits; }

    /// The moves from the beginning to the end.
    [[nodiscard]] std::vector<Kind> path() const
    {
        std::vector<Kind> kinds;
        size_t i = rows() - 1;
        size_t j = m_columns - 1;
        while (i + j > 0) {
            const Kind kind = at(i, j).kind;
            kinds.push_back(kind);
            i -= unitsOfA(kind);
            j -= unitsOfB(kind);
        }
        std::reverse(kinds.begin(), kinds.end());
        return kinds;
    }

private:
    [[nodiscard]] size_t rows() const { return m_moves.size() / m_columns; }
    [[nodiscard]] Move& at(size_t i, size_t j) { return m_moves[i * m_columns + j]; }
    [[nodiscard]] const Move& at(size_t i, size_t j) const { return m_moves[i * m_columns + j]; }
    [[nodiscard]] QChar a(size_t i) const { return m_a.at(static_cast<qsizetype>(i)); }
    [[nodiscard]] QChar b(size_t j) const { return m_b.at(static_cast<qsizetype>(j)); }

    [[nodiscard]] Move after(size_t i, size_t j, Kind kind, Cost step) const
    {
        const Cost before = at(i - unitsOfA(kind), j - unitsOfB(kind)).cost;
        return {{before.edits + step.edits, before.unexplained + step.unexplained}, kind};
    }

    [[nodiscard]] Move onePair(size_t i, size_t j) const
    {
        if (a(i - 1) == b(j - 1))
            return after(i, j, Kind::Same, {0, 0});
        return after(i, j, Kind::Differs, {1, lookAlike(a(i - 1), b(j - 1)) ? 0 : 1});
    }

    [[nodiscard]] bool endsSwapped(size_t i, size_t j) const
    {
        return i > 1 && j > 1 && a(i - 1) == b(j - 2) && a(i - 2) == b(j - 1);
    }

    [[nodiscard]] Move best(size_t i, size_t j) const
    {
        std::vector<Move> ways;
        if (i > 0 && j > 0)
            ways.push_back(onePair(i, j));
        if (endsSwapped(i, j))
            ways.push_back(after(i, j, Kind::Swapped, {1, 0}));
        if (i > 0)
            ways.push_back(after(i, j, Kind::Missing, {1, 1}));
        if (j > 0)
            ways.push_back(after(i, j, Kind::Extra, {1, 1}));
        return *std::min_element(ways.begin(), ways.end(),
                                 [](const Move& one, const Move& other) { return one.cost < other.cost; });
    }

    QString m_a;
    QString m_b;
    size_t m_columns;
    std::vector<Move> m_moves;
};

// The stretch of the original from the first to the last of `count` characters that normalising left.
Span original(const NormalText& text, size_t first, size_t count)
{
    const qsizetype from = first < text.at.size() ? text.at[first] : text.originalLength;
    return {from, count == 0 ? 0 : text.at[first + count - 1] + 1 - from};
}

Span joined(Span first, Span next)
{
    return {first.at, next.at + next.length - first.at};
}

} // namespace

bool lookAlike(QChar one, QChar other)
{
    const char16_t first = one.toUpper().unicode();
    const char16_t second = other.toUpper().unicode();
    return first != second && std::ranges::any_of(kLookAlikes, [&](std::u16string_view group) {
               return group.find(first) != group.npos && group.find(second) != group.npos;
           });
}

Difference compareFields(const QString& a, const QString& b)
{
    const NormalText left = normalText(a);
    const NormalText right = normalText(b);
    const Alignment alignment(left.text, right.text);

    Difference result;
    result.distance = alignment.distance();
    size_t i = 0;
    size_t j = 0;
    for (const Kind kind : alignment.path()) {
        Segment segment{kind, original(left, i, unitsOfA(kind)), original(right, j, unitsOfB(kind)), false};
        if (kind == Kind::Differs)
            segment.alike =
                lookAlike(left.text.at(static_cast<qsizetype>(i)), right.text.at(static_cast<qsizetype>(j)));
        i += unitsOfA(kind);
        j += unitsOfB(kind);
        const bool goesOn =
            kind == Kind::Same && !result.segments.empty() && result.segments.back().kind == Kind::Same;
        if (!goesOn) {
            result.segments.push_back(segment);
            continue;
        }
        Segment& last = result.segments.back();
        last.a = joined(last.a, segment.a);
        last.b = joined(last.b, segment.b);
    }
    return result;
}

int editDistance(const QString& a, const QString& b)
{
    return Alignment(normalise(a), normalise(b)).distance();
}

} // namespace coldarc::label
