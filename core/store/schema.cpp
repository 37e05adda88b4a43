#include "core/store/schema.h"

#include <QDir>
#include <QFile>
#include <QRegularExpression>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace coldarc::store {
namespace {

std::vector<SchemaStep> builtInSteps()
{
    std::vector<SchemaStep> steps;
    const QDir folder(u":/coldarc/schema"_s);
    for (const QString& name : folder.entryList({u"*.sql"_s}, QDir::Files, QDir::Name)) {
        QFile file(folder.filePath(name));
        const bool opened = file.open(QIODevice::ReadOnly);
        Q_ASSERT_X(opened, "store::Schema", "a step built into the program can always be read");
        steps.push_back({name.left(4).toInt(), name, QString::fromUtf8(file.readAll())});
    }
    return steps;
}

bool isTrigger(const QString& statement)
{
    static const QRegularExpression kTrigger(u"^CREATE\\s+(TEMP\\s+)?TRIGGER\\b"_s,
                                             QRegularExpression::CaseInsensitiveOption);
    return kTrigger.match(statement).hasMatch();
}

bool endsWith(const QString& line, const QString& statement)
{
    return isTrigger(statement) ? line.compare(u"END;"_s, Qt::CaseInsensitive) == 0 : line.endsWith(u';');
}

} // namespace

Schema::Schema(std::vector<SchemaStep> steps)
    : m_steps(std::move(steps))
{
    const auto falls = [](const SchemaStep& a, const SchemaStep& b) { return a.number >= b.number; };
    Q_ASSERT_X(!m_steps.empty() && m_steps.front().number > 0, "store::Schema",
               "a schema has steps, from 1 on");
    Q_ASSERT_X(std::ranges::adjacent_find(m_steps, falls) == m_steps.end(), "store::Schema",
               "the numbers rise");
}

const Schema& Schema::shipped()
{
    static const Schema kShipped(builtInSteps());
    return kShipped;
}

Result<QStringList> statementsOf(const QString& sql)
{
    static const QRegularExpression kTrailingComment(u"\\s*--[^']*$"_s);
    QStringList statements;
    QString statement;
    for (QString line : sql.split(u'\n')) {
        line = line.remove(kTrailingComment).trimmed();
        if (line.isEmpty())
            continue;
        statement += statement.isEmpty() ? line : u'\n' + line;
        if (endsWith(line, statement))
            statements.append(std::exchange(statement, {}));
    }
    if (!statement.isEmpty())
        return fail(Error::Kind::Malformed, u"a statement without an end: "_s + statement.left(80));
    return statements;
}

} // namespace coldarc::store
