#pragma once

#include "core/base/result.h"
#include "core/store/answer.h"
#include "core/store/schema.h"

#include <QString>

#include <memory>
#include <type_traits>

class QLockFile;

namespace coldarc::store {

/// How a database file is opened.
enum class Access {
    Write,  ///< the workspace in use: write-ahead log, every commit durable before it is acknowledged
    Build,  ///< a new file that nobody else knows yet: rollback journal, so that one file holds everything
    Read,   ///< somebody else may be writing
    Frozen, ///< nobody is writing: SQLite takes no lock and leaves no file beside it
};

/// One open connection to a workspace file.
///
/// Other rooms keep the SQL text of their tables in their own `<thing>_store.cpp` and run it here; the types
/// of Qt Sql stay inside. Belongs to the thread that made it. Every connection has foreign_keys,
/// recursive_triggers (a replacing INSERT meets the DELETE guards) and, for writing, WAL with
/// synchronous=FULL; busy for 5 s before it gives up.
class Database {
public:
    /// Connects without looking at what the file holds; `openWorkspace` looks first, use that.
    [[nodiscard]] static Result<Database> connect(const QString& file, Access access);
    /// A workspace that lives in memory only, with every step of the schema: for practice and for tests.
    [[nodiscard]] static Database inMemory(const Schema& schema = Schema::shipped());

    Database(Database&&) noexcept;
    Database& operator=(Database&&) noexcept;
    ~Database();

    /// Runs one statement. Its placeholders and `bindings` must name the same things.
    ///
    /// Conflict: a key, foreign key or append-only guard refused (SQLite 787, 1555, 2067, 1811).
    /// Malformed: a CHECK, NOT NULL or column kind refused, or the file is damaged.
    /// Refused: another process holds the file. Storage: everything else, a full disk included.
    /// After an error the statement has changed nothing.
    /// Cost: each text is prepared once and kept, since preparing costs several times what an insert does; so
    /// the text is a constant of the code and values are bound, never written into it.
    Result<Answer> run(const QString& sql, const Bindings& bindings = {});

    /// Runs `work`, a callable that returns a Result: all of it is durable when this returns a value, none of
    /// it was done when this returns an error (the work's own, or of the commit). A transaction inside a
    /// transaction is part of the outer one, and is undone alone when it alone fails.
    template<class Work>
    std::invoke_result_t<Work&> transaction(Work&& work)
    {
        if (auto begun = begin(); !begun)
            return tl::unexpected(begun.error());
        auto outcome = work();
        if (!outcome) {
            rollBack();
            return outcome;
        }
        if (auto committed = commit(); !committed)
            return tl::unexpected(committed.error());
        return outcome;
    }

    /// The number of the last schema step in the file (user_version).
    [[nodiscard]] Result<int> version();
    /// Runs the steps above the file's version, all in one transaction.
    Result<void> migrate(const Schema& schema);

    [[nodiscard]] bool isReadOnly() const;
    /// Empty for one in memory.
    [[nodiscard]] QString file() const;
    /// Keeps the lock that shows other instances that this file is in use, until the connection is closed.
    void hold(std::unique_ptr<QLockFile> lock);

private:
    struct Inside;
    explicit Database(std::unique_ptr<Inside> inside);
    Result<void> begin();
    Result<void> commit();
    void rollBack();

    std::unique_ptr<Inside> m_inside;
};

/// SQLite's primary result code that an error of a Database carries in its detail, e.g. 13 for a full disk; 0
/// if none.
[[nodiscard]] int sqliteCodeOf(const Error& error);

} // namespace coldarc::store
