#pragma once

#include "app/record_intake.h"
#include "core/people/signing_key.h"
#include "core/store/journal.h"
#include "core/visit/state.h"

#include <map>
#include <optional>
#include <tuple>
#include <vector>

namespace coldarc::test {

/// What inputs are made with, which is the same for each of them.
struct InventedPapers {
    QByteArray opening;
    std::optional<visit::Entry> opened;              ///< what it says, if it can be read,
    visit::VisitState afterOpening{};                ///< and how the visit stands then
    std::map<QByteArray, people::SigningKey> keys{}; ///< by whose they are; some of those that inputs named
    /// What the office says of each of these keys, by person, name, role and day.
    std::map<std::tuple<PersonId, QString, people::Role, people::Day>, people::Certificate> certificates{};
};

/// A record file that an input makes, and what it was made of, where that was a record.
struct InventedFile {
    QByteArray bytes;
    std::optional<record::Record> record{};
};

/// A workspace that takes in whatever comes, and forgets it again. Keys and the opening, with which inputs
/// are made, are kept from one input to the next; of what is taken in nothing is.
class AnyIntake {
public:
    /// @param opening  the first entry of an invented visit.
    explicit AnyIntake(QByteArray opening);

    /// Takes in what an input says, for tests/fuzz and its seeds. False where the answer does not fit what
    /// stands in the workspace, or something that was taken is not there already when it comes again.
    ///
    /// The first byte says what the rest is; as a capital letter, that it all comes again in the end. 'f': a
    /// record file. 'm': a manifest, a NUL, entry lines. Anything else: entry lines, signed here by everybody
    /// of whom they ask it, with keys that a believed office vouches for; of several visits or times, a NUL
    /// between them. A line that begins with a tab is a review: entry, verdict, reviewer, name, hours after
    /// that entry and text, a tab before each. The entry line "@" is the opening.
    bool takesSafely(const QByteArray& bytes);
    /// Of the last input: how many entries were taken before it was forgotten.
    [[nodiscard]] int entriesTaken() const { return m_entriesTaken; }
    /// Of the last input: how many reviews were taken.
    [[nodiscard]] int reviewsTaken() const { return m_reviewsTaken; }

private:
    bool takes(const InventedFile& file, std::vector<QByteArray>& takenFiles);
    /// Whether a record that was taken is told as there already.
    [[nodiscard]] bool isKnown(const QByteArray& file);
    /// Pre: `taken` is the answer to this file, and its verdict is Take.
    [[nodiscard]] bool isThere(const InventedFile& file, const record::TakenRecord& taken);

    InventedPapers m_papers;
    store::Database m_database;
    app::RecordIntake m_intake;
    std::vector<store::Head> m_heads{}; ///< what stands there, once it was looked at
    int m_entriesTaken = 0;
    int m_reviewsTaken = 0;
};

} // namespace coldarc::test
