#pragma once

#include "app/demo_data.h"
#include "core/base/id_source.h"
#include "core/people/sealed_key.h"
#include "core/photometry/tolerance_set.h"
#include "core/store/database.h"
#include "core/visit/open_visit.h"

#include <functional>
#include <vector>

namespace coldarc::app {

/// How a demo workspace is made.
struct DemoRecipe {
    QString sampleFolder; ///< where sample-data lies
    visit::Shelf shelf;   ///< the shipped catalogue and procedures; borrowed
    Stamp now;            ///< the evening that the demo is set on; everything is dated from it
    quint32 seed = 1;     ///< the same seed, ids, keys and moment give the same logbooks, byte for byte
    IdSource& ids;        ///< borrowed
    std::function<people::SigningKey()> newKey = people::SigningKey::generate;
    people::GuessCost sealCost = people::kShippedCost; ///< tests seal cheaply
    std::vector<photometry::ToleranceSet> limits{};    ///< as shipped: what screens are held against
};

/// Fills a workspace that holds nothing yet with the invented chain of cinemas: sites with tonight's shows,
/// people with their keys, gear, lamps with weeks of counter readings, visits that were made, one that was
/// left open, and the nights that are planned. Every visit goes through the rules of core/visit, entry by
/// entry, and is signed by the people on it; no logbook is written by hand. Lamps and fits follow each visit
/// when it is closed: the one that is left open has not moved any yet.
///
/// All or nothing. NotFound or Malformed for what is wrong in sample-data, Refused when a rule says no to it.
[[nodiscard]] Result<void> makeDemoIn(store::Database& database, const DemoRecipe& recipe);

/// The same in a new workspace file. It gets its name when it is whole: what a broken-off making leaves is
/// `<file>.making`, and is replaced. Conflict if there is such a file already, or another program made it
/// meanwhile, which is waited for. Refused if that one is not done after two minutes.
/// Cost: a seal for each person and one for the office at the shipped cost, and some thousand statements in
/// one transaction.
[[nodiscard]] Result<void> makeDemo(const QString& workspaceFile, const DemoRecipe& recipe);

} // namespace coldarc::app
