#pragma once

#include "core/catalogue/catalogue.h"
#include "core/site/site.h"

namespace coldarc::site {

/// Something about a site that must be put right before a visit may begin there.
struct Problem {
    enum class Kind : std::uint8_t {
        DoubledId,          ///< two screens, projectors, lamphouses or points with the id `about`
        UnknownScreen,      ///< projector `about` stands at `other`
        UnknownProjector,   ///< lamphouse `about` belongs to `other`
        UnknownLamphouse,   ///< point `about` feeds `other`
        DoubledFeed,        ///< point `about` feeds lamphouse `other` twice
        FeedsNothing,       ///< point `about`
        NoPoint,            ///< lamphouse `about` is energised by nothing that is known
        NoLamphouse,        ///< projector `about` has none
        LampFittedTwice,    ///< lamp `about`
        UnknownModel,       ///< projector `about` is a model `other` that the catalogue does not know
        NotAModelLamphouse, ///< lamphouse `about` has a label `other` that its model does not know
        DoubledLabel,       ///< projector `about` has two lamphouses `other`
        MissingLamphouse,   ///< projector `about` lacks the lamphouse `other` of its model
        UnknownRole,   ///< lamphouse `about` is fed in a role `other` that its model does not have for it
        DoubledRole,   ///< two points feed lamphouse `about` in role `other`
        UncoveredRole, ///< no point feeds lamphouse `about` in role `other`, which its model needs cut
    };
    Kind kind = Kind::DoubledId;
    QString about; ///< text of an id
    QString other; ///< text of an id or label; empty where the kind names only one thing

    friend bool operator==(const Problem&, const Problem&) = default;
};

/// Whether the parts of the site fit together; no list: they do.
[[nodiscard]] std::vector<Problem> problemsOf(const SiteDocument& document);

/// Whether the site fits the models that stand in it: each lamphouse is one of its model's, and each supply
/// that the model needs cut has a point here. Parts that do not fit together are passed over,
/// `problemsOf(document)` names them.
[[nodiscard]] std::vector<Problem> problemsOf(const SiteDocument& document,
                                              const catalogue::Catalogue& catalogue);

/// Points and lamphouses that hang together: whoever isolates one of these points may have to wait for any of
/// these lamphouses. Every point and every lamphouse of the site stands in exactly one group.
struct IsolationGroup {
    std::vector<PointId> points;         ///< in the order of the document
    std::vector<LamphouseId> lamphouses; ///< in the order of the document

    friend bool operator==(const IsolationGroup&, const IsolationGroup&) = default;
};

/// The connected parts of "point feeds lamphouse", in the order of their first lamphouse; groups without one
/// come last, in the order of their first point. Feeds of unknown lamphouses join nothing. Pre: ids differ.
[[nodiscard]] std::vector<IsolationGroup> isolationGroups(const SiteDocument& document);

} // namespace coldarc::site
