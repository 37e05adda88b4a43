#pragma once

#include <QHashFunctions>
#include <QString>

#include <compare>
#include <utility>

namespace coldarc {

/// A name that never changes and is never reused. Text inside: a UUID for what the program makes, a short
/// word for what a catalogue file names. Ids of different things do not mix, compare or convert.
template<class Tag>
class Id {
public:
    Id() = default; ///< names nothing
    explicit Id(QString text)
        : m_text(std::move(text))
    {
    }

    [[nodiscard]] const QString& text() const { return m_text; }
    [[nodiscard]] bool isEmpty() const { return m_text.isEmpty(); }

    friend bool operator==(const Id&, const Id&) = default;
    friend std::strong_ordering operator<=>(const Id& a, const Id& b)
    {
        return a.m_text.compare(b.m_text) <=> 0;
    }
    friend size_t qHash(const Id& id, size_t seed = 0) { return ::qHash(id.m_text, seed); }

private:
    QString m_text;
};

using VisitId = Id<struct VisitTag>;
using SwapId = Id<struct SwapTag>;
using PersonId = Id<struct PersonTag>;
using SiteId = Id<struct SiteTag>;
using ScreenId = Id<struct ScreenTag>;
using ProjectorId = Id<struct ProjectorTag>;
using LamphouseId = Id<struct LamphouseTag>;
using PointId = Id<struct PointTag>;
using LampId = Id<struct LampTag>;
using GearId = Id<struct GearTag>;
using ModelId = Id<struct ModelTag>;
using LampTypeId = Id<struct LampTypeTag>;
using ProcedureId = Id<struct ProcedureTag>;
using StepId = Id<struct StepTag>;

} // namespace coldarc
