#include "core/store/database.h"

#include <QLockFile>
#include <QRegularExpression>
#include <QSqlDatabase>
#include <QSqlError>
#include <QSqlQuery>
#include <QSqlRecord>
#include <QUrl>

#include <algorithm>
#include <atomic>
#include <unordered_map>

using namespace Qt::StringLiterals;

namespace coldarc::store {
namespace {

/// Primary and extended result codes; source: SQLite's documentation, "Result and Error Codes".
namespace code {
constexpr int kBusy = 5;
constexpr int kLocked = 6;
constexpr int kCorrupt = 11;
constexpr int kConstraint = 19;
constexpr int kMismatch = 20;
constexpr int kNotADatabase = 26;
constexpr int kForeignKey = 787;
constexpr int kPrimaryKey = 1555;
constexpr int kTrigger = 1811;
constexpr int kUnique = 2067;
constexpr int kRowid = 2579;
} // namespace code

Error::Kind kindOf(int extended)
{
    switch (extended) {
    case code::kForeignKey:
    case code::kPrimaryKey:
    case code::kTrigger:
    case code::kUnique:
    case code::kRowid:
        return Error::Kind::Conflict;
    default:
        break;
    }
    switch (extended & 0xff) {
    case code::kConstraint:
    case code::kMismatch:
    case code::kCorrupt:
    case code::kNotADatabase:
        return Error::Kind::Malformed;
    case code::kBusy:
    case code::kLocked:
        return Error::Kind::Busy;
    default:
        return Error::Kind::Storage;
    }
}

/// `detail` is "SQLite <code>: <its text>: <the statement's first line>".
Error errorOf(const QSqlError& error, const QString& sql)
{
    const int native = error.nativeErrorCode().toInt();
    return {kindOf(native),
            u"SQLite %1: %2: %3"_s.arg(native).arg(error.databaseText(), sql.section(u'\n', 0, 0).left(100))};
}

/// Each name once, in the order of the text.
QStringList placeholdersOf(const QString& sql)
{
    static const QRegularExpression kPlaceholder(u":[a-z][a-z0-9_]*"_s);
    QStringList names;
    for (auto found = kPlaceholder.globalMatch(sql); found.hasNext();)
        names.append(found.next().captured());
    names.removeDuplicates();
    return names;
}

/// Qt would bind a null QString or QByteArray as NULL; here absence is said with sqlNull().
void bind(QSqlQuery& query, const QString& name, const QVariant& value)
{
    if (value.userType() == QMetaType::QString && static_cast<const QString*>(value.constData())->isNull())
        query.bindValue(name, u""_s);
    else if (value.userType() == QMetaType::QByteArray &&
             static_cast<const QByteArray*>(value.constData())->isNull())
        query.bindValue(name, QByteArray(""));
    else
        query.bindValue(name, value);
}

/// Texts that change the shape or the settings of the database are prepared anew each time.
bool isKept(const QString& sql)
{
    static const QStringList kKept = {u"SELECT"_s, u"INSERT"_s, u"UPDATE"_s,   u"DELETE"_s,    u"WITH"_s,
                                      u"BEGIN"_s,  u"COMMIT"_s, u"ROLLBACK"_s, u"SAVEPOINT"_s, u"RELEASE"_s};
    return std::ranges::any_of(kKept, [&](const QString& word) { return sql.startsWith(word); });
}

QString optionsOf(Access access)
{
    switch (access) {
    case Access::Write:
    case Access::Build:
        return u"QSQLITE_BUSY_TIMEOUT=5000"_s;
    case Access::Read:
        return u"QSQLITE_BUSY_TIMEOUT=5000;QSQLITE_OPEN_READONLY"_s;
    case Access::Frozen:
        return u"QSQLITE_OPEN_URI;QSQLITE_OPEN_READONLY"_s;
    }
    return {};
}

QString nameOf(const QString& file, Access access)
{
    if (access != Access::Frozen)
        return file;
    return QString::fromUtf8(QUrl::fromLocalFile(file).toEncoded()) + u"?immutable=1"_s;
}

QStringList settingsOf(Access access)
{
    QStringList settings = {u"PRAGMA trusted_schema = OFF"_s, u"PRAGMA foreign_keys = ON"_s,
                            u"PRAGMA recursive_triggers = ON"_s};
    if (access == Access::Write)
        settings += {u"PRAGMA journal_mode = WAL"_s, u"PRAGMA synchronous = FULL"_s};
    if (access == Access::Build)
        settings += {u"PRAGMA journal_mode = DELETE"_s, u"PRAGMA synchronous = FULL"_s};
    return settings;
}

struct Statement {
    QSqlQuery query;
    QStringList placeholders;
    std::shared_ptr<const QStringList> columns;
};

std::vector<Row> rowsOf(Statement& statement)
{
    std::vector<Row> rows;
    const auto columns = statement.columns;
    while (statement.query.next()) {
        QVariantList values;
        values.reserve(columns->size());
        for (int column = 0; column < columns->size(); ++column)
            values.append(statement.query.value(column));
        rows.emplace_back(columns, std::move(values));
    }
    return rows;
}

std::shared_ptr<const QStringList> columnsOf(const QSqlQuery& query)
{
    QStringList names;
    const QSqlRecord record = query.record();
    for (int column = 0; column < record.count(); ++column)
        names.append(record.fieldName(column));
    return std::make_shared<const QStringList>(std::move(names));
}

} // namespace

/// Everything of Qt Sql. The prepared statements are members, and are cleared before the connection is
/// removed.
struct Database::Inside {
    QString connection;
    QString file;
    Access access = Access::Write;
    int depth = 0; ///< of transactions
    /// SQLite undoes a whole transaction by itself when the disk fails; what follows must not run outside it.
    bool undone = false;
    std::unordered_map<QString, Statement> kept;
    std::unique_ptr<QLockFile> lock;

    Inside() = default;
    Inside(const Inside&) = delete;
    Inside& operator=(const Inside&) = delete;
    ~Inside()
    {
        kept.clear();
        QSqlDatabase::database(connection, false).close();
        QSqlDatabase::removeDatabase(connection);
    }

    Result<void> open()
    {
        static std::atomic<int> made = 0;
        connection = u"coldarc-store-%1"_s.arg(++made);
        QSqlDatabase database = QSqlDatabase::addDatabase(u"QSQLITE"_s, connection);
        database.setConnectOptions(optionsOf(access));
        database.setDatabaseName(nameOf(file.isEmpty() ? u":memory:"_s : file, access));
        if (!database.open())
            return tl::unexpected(errorOf(database.lastError(), u"open "_s + file));
        for (const QString& setting : settingsOf(access)) {
            if (auto set = run(setting, {}); !set)
                return tl::unexpected(set.error());
        }
        return checkLog();
    }

    /// A file system without shared memory or locks lets SQLite keep the rollback journal without a word.
    Result<void> checkLog()
    {
        if (access != Access::Write || file.isEmpty())
            return {};
        const auto mode = run(u"PRAGMA journal_mode"_s, {});
        if (!mode)
            return tl::unexpected(mode.error());
        if (mode->rows.at(0).text(u"journal_mode") != u"wal")
            return fail(Error::Kind::Storage, u"this file system cannot hold a write-ahead log"_s);
        return {};
    }

    Result<Answer> run(const QString& sql, const Bindings& bindings)
    {
        if (const auto found = kept.find(sql); found != kept.end())
            return execute(sql, found->second, bindings);
        auto prepared = prepare(sql);
        if (!prepared)
            return tl::unexpected(prepared.error());
        if (!isKept(sql))
            return execute(sql, *prepared, bindings);
        return execute(sql, kept.emplace(sql, std::move(*prepared)).first->second, bindings);
    }

    Result<Statement> prepare(const QString& sql) const
    {
        Statement statement{QSqlQuery(QSqlDatabase::database(connection, false)), placeholdersOf(sql),
                            nullptr};
        statement.query.setForwardOnly(true);
        if (!statement.query.prepare(sql))
            return tl::unexpected(errorOf(statement.query.lastError(), sql));
        return statement;
    }

    static Result<Answer> execute(const QString& sql, Statement& statement, const Bindings& bindings)
    {
        Q_ASSERT_X(bindings.size() == statement.placeholders.size(), "store::Database::run",
                   "each placeholder is bound once");
        for (const auto& [name, value] : bindings) {
            Q_ASSERT_X(statement.placeholders.contains(name), "store::Database::run", "no such placeholder");
            bind(statement.query, name, value);
        }
        if (!statement.query.exec()) {
            const Error error = errorOf(statement.query.lastError(), sql);
            statement.query.finish();
            return tl::unexpected(error);
        }
        Answer answer;
        if (statement.query.isSelect()) {
            if (!statement.columns)
                statement.columns = columnsOf(statement.query);
            answer.rows = rowsOf(statement);
            if (const QSqlError error = statement.query.lastError(); error.isValid()) {
                statement.query.finish();
                return tl::unexpected(errorOf(error, sql));
            }
        } else {
            answer.changed = statement.query.numRowsAffected();
        }
        statement.query.finish();
        return answer;
    }
};

Database::Database(std::unique_ptr<Inside> inside)
    : m_inside(std::move(inside))
{
}
Database::Database(Database&&) noexcept = default;
Database& Database::operator=(Database&&) noexcept = default;
Database::~Database() = default;

Result<Database> Database::connect(const QString& file, Access access)
{
    auto inside = std::make_unique<Inside>();
    inside->file = file;
    inside->access = access;
    if (auto opened = inside->open(); !opened)
        return tl::unexpected(opened.error());
    return Database(std::move(inside));
}

Database Database::inMemory(const Schema& schema)
{
    auto database = connect({}, Access::Write);
    Q_ASSERT_X(database, "store::Database::inMemory", "memory can always be opened");
    const auto migrated = database->migrate(schema);
    Q_ASSERT_X(migrated, "store::Database::inMemory",
               qPrintable(migrated ? QString() : migrated.error().detail));
    return std::move(*database);
}

Result<Answer> Database::run(const QString& sql, const Bindings& bindings)
{
    if (m_inside->undone)
        return fail(Error::Kind::Storage, u"an earlier error has undone this transaction"_s);
    auto answer = m_inside->run(sql, bindings);
    m_inside->undone = m_inside->depth > 0 && !answer && answer.error().kind == Error::Kind::Storage;
    return answer;
}

Result<void> Database::begin()
{
    const auto begun = run(m_inside->depth == 0 ? u"BEGIN IMMEDIATE"_s : u"SAVEPOINT inner_work"_s);
    if (!begun)
        return tl::unexpected(begun.error());
    ++m_inside->depth;
    return {};
}

Result<void> Database::commit()
{
    const auto committed = run(m_inside->depth == 1 ? u"COMMIT"_s : u"RELEASE inner_work"_s);
    if (!committed) {
        rollBack();
        return tl::unexpected(committed.error());
    }
    --m_inside->depth;
    return {};
}

void Database::rollBack()
{
    // Where SQLite has undone it already there is nothing left to roll back, and its complaint says nothing
    // new.
    if (--m_inside->depth == 0) {
        std::ignore = m_inside->run(u"ROLLBACK"_s, {});
        m_inside->undone = false;
    } else if (!m_inside->undone) {
        std::ignore = m_inside->run(u"ROLLBACK TO inner_work"_s, {});
        std::ignore = m_inside->run(u"RELEASE inner_work"_s, {});
    }
}

Result<int> Database::version()
{
    const auto answer = run(u"PRAGMA user_version"_s);
    if (!answer)
        return tl::unexpected(answer.error());
    return static_cast<int>(answer->rows.at(0).whole(u"user_version"));
}

Result<void> Database::migrate(const Schema& schema)
{
    const auto from = version();
    if (!from)
        return tl::unexpected(from.error());
    return transaction([&]() -> Result<void> {
        for (const SchemaStep& step : schema.steps()) {
            if (step.number <= *from)
                continue;
            const auto statements = statementsOf(step.sql);
            if (!statements)
                return fail(statements.error().kind, step.name + u": "_s + statements.error().detail);
            for (const QString& statement : *statements) {
                // Not kept: a step runs once.
                auto once = m_inside->prepare(statement);
                const auto done = once ? Inside::execute(statement, *once, {}) : tl::unexpected(once.error());
                if (!done)
                    return fail(done.error().kind, step.name + u": "_s + done.error().detail);
            }
            if (auto set = run(u"PRAGMA user_version = %1"_s.arg(step.number)); !set)
                return tl::unexpected(set.error());
        }
        return {};
    });
}

bool Database::isReadOnly() const
{
    return m_inside->access == Access::Read || m_inside->access == Access::Frozen;
}

QString Database::file() const
{
    return m_inside->file;
}

void Database::hold(std::unique_ptr<QLockFile> lock)
{
    m_inside->lock = std::move(lock);
}

int sqliteCodeOf(const Error& error)
{
    static const QRegularExpression kCode(u"\\bSQLite (\\d+):"_s);
    return kCode.match(error.detail).captured(1).toInt() & 0xff;
}

} // namespace coldarc::store
