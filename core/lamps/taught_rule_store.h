#pragma once

#include "core/label/teaching.h"
#include "core/people/granting.h"
#include "core/store/database.h"

#include <optional>
#include <variant>
#include <vector>

namespace coldarc::lamps {

using TaughtRuleId = Id<struct TaughtRuleTag>;

/// One rule that was taught, with who and when.
struct TaughtRule {
    TaughtRuleId id;
    label::Teaching teaching;
    PersonId by;
    WallTime at{};
    struct Withdrawal {
        PersonId by;
        WallTime at{};
        friend bool operator==(const Withdrawal&, const Withdrawal&) = default;
    };
    std::optional<Withdrawal> withdrawn{};

    friend bool operator==(const TaughtRule&, const TaughtRule&) = default;
};

/// Whoever asked does not supervise; nothing was written.
struct NotASupervisor {
    friend bool operator==(const NotASupervisor&, const NotASupervisor&) = default;
};
struct RuleKept {
    friend bool operator==(const RuleKept&, const RuleKept&) = default;
};
/// No rule is to be made of the lesson; nothing was written.
struct LessonNotTaken {
    QList<label::TeachFault> faults; ///< all of them
    friend bool operator==(const LessonNotTaken&, const LessonNotTaken&) = default;
};
using TeachingAnswer = std::variant<RuleKept, NotASupervisor, LessonNotTaken>;

/// What supervisors taught of bar codes in one workspace, and the codes that nobody could read. Facts are
/// appended and never changed.
class TaughtRuleStore {
public:
    /// Codes on record that a rule is held against, the newest ones; older ones it is not. House figure, no
    /// source and not timed.
    static constexpr int kMostOnRecord = 2000;

    /// Borrows the database, which must outlive this. Schema: step 0011.
    explicit TaughtRuleStore(store::Database& database)
        : m_database(&database)
    {
    }

    /// Makes a rule of the lesson, by `label::teach` against the codes on record as they are now, and keeps
    /// it. Kept only by somebody who holds a valid authorisation to supervise that day: on the night an
    /// engineer types what no rule reads. Conflict if the id is taken.
    /// @param lampTypes  with the rules that were taught before.
    Result<TeachingAnswer> teach(const TaughtRuleId& id, const label::Lesson& lesson,
                                 const QList<catalogue::LampType>& lampTypes, const people::Holder& by,
                                 people::Day today, WallTime at);
    /// By a supervisor likewise. Conflict if there is no such rule, or it is withdrawn already.
    Result<TeachingAnswer> withdraw(const TaughtRuleId& rule, const people::Holder& by, people::Day today,
                                    WallTime at);
    /// Every rule, withdrawn ones too; oldest first.
    [[nodiscard]] Result<std::vector<TaughtRule>> all() const;
    /// What stands, oldest first, as `label::withTaught` takes it.
    [[nodiscard]] Result<QList<label::Teaching>> standing() const;

    /// A code that no rule could read is remembered for a supervisor, each once.
    Result<void> couldNotRead(const QString& scanned, WallTime at);
    /// Newest first, no more than `most`.
    [[nodiscard]] Result<QStringList> unread(int most) const;
    /// Codes that stand in logbooks, each once, newest first, of the newest `most` entries that hold some.
    [[nodiscard]] Result<QStringList> onRecord(int most) const;

private:
    store::Database* m_database;
};

} // namespace coldarc::lamps
