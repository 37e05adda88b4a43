#pragma once

#include "core/catalogue/catalogue.h"
#include "core/procedure/procedure_file.h"

#include <QString>

#include <cstddef>
#include <cstdint>
#include <map>
#include <random>
#include <string>

namespace coldarc::test {

/// Invented projectors and the steps of a swap in each, made at random, then loaded and proved like any other
/// file.
struct RandomProcedures {
    catalogue::Catalogue
        catalogue; ///< the shipped lamp types and gear, and one model for each procedure made
    procedure::ProcedureLoading loading; ///< the proved ones
    std::size_t made = 0;
    std::size_t planted = 0;                   ///< made with a fault of `kFaults` in it
    std::map<std::string, std::size_t> flaws;  ///< of those that were refused: how often, by the flaw's words
    std::map<std::string, std::size_t> faults; ///< planted, by name
    /// The first file that came out wrong, empty if none did: a planted fault that was let through or refused
    /// for another flaw, a sound one that could not be read, or a model that was refused.
    std::string wrong;

    [[nodiscard]] std::size_t proved() const { return static_cast<std::size_t>(loading.procedures.size()); }
};

/// Makes so many models with a procedure each. Waits, isolation points and what they feed, housing or a
/// single door, dowser, adaptor, test points and their covers, axes, lamp types: at random. Steps in a random
/// order of those that the work allows, now and then in one that it does not allow; further looks, captures
/// and conditions as it comes; some may follow. One in five has a fault planted. Everything is written into
/// files of a temporary folder and read by the loaders that the program uses. The same for the same seed.
[[nodiscard]] RandomProcedures makeProcedures(int count, std::uint32_t seed);

/// How many kinds of fault are planted.
[[nodiscard]] std::size_t plantedKinds();

} // namespace coldarc::test
