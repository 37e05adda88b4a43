#include "core/store/schema.h"

#include <QDir>
#include <QFile>
#include <QMap>
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

/// The words of a statement's first line.
QStringList firstWords(const QString& statement)
{
    return statement.section(u'\n', 0, 0).simplified().split(u' ');
}

/// Whether the words begin with these, in capitals or not.
bool beginWith(const QStringList& words, const QStringList& these)
{
    return words.mid(0, these.size()).join(u' ').compare(these.join(u' '), Qt::CaseInsensitive) == 0;
}

bool isTrigger(const QString& statement)
{
    const QStringList words = firstWords(statement);
    return beginWith(words, {u"CREATE"_s, u"TRIGGER"_s}) ||
           beginWith(words, {u"CREATE"_s, u"TEMP"_s, u"TRIGGER"_s});
}

bool endsWith(const QString& line, const QString& statement)
{
    if (!line.endsWith(u';'))
        return false;
    return line.compare(u"END;"_s, Qt::CaseInsensitive) == 0 || !isTrigger(statement);
}

/// A trigger is made anew under its name, and falls with its table.
void follow(QMap<QString, QString>& guards, const QString& statement)
{
    const QStringList words = firstWords(statement);
    if (beginWith(words, {u"CREATE"_s, u"TRIGGER"_s}))
        guards.insert(words.value(2), statement.chopped(1)); // without the semicolon
    const QString dropped = words.value(2).remove(u';');
    if (beginWith(words, {u"DROP"_s, u"TRIGGER"_s}))
        guards.remove(dropped);
    if (!beginWith(words, {u"DROP"_s, u"TABLE"_s}))
        return;
    const QRegularExpression onTable(u"\\sON\\s+%1\\b"_s.arg(dropped),
                                     QRegularExpression::CaseInsensitiveOption);
    guards.removeIf([&](const auto& guard) {
        const QString& text = guard.value();
        return onTable.match(text.section(u'\n', 0, 0)).hasMatch();
    });
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

QStringList Schema::guards(int version) const
{
    QMap<QString, QString> guards;
    for (const SchemaStep& step : m_steps) {
        if (step.number > version)
            break;
        for (const QString& statement : statementsOf(step.sql).value_or(QStringList()))
            follow(guards, statement);
    }
    return guards.values();
}

const Schema& Schema::shipped()
{
    static const Schema kShipped(builtInSteps());
    return kShipped;
}

Result<QStringList> statementsOf(const QString& sql)
{
    QStringList statements;
    QString statement;
    for (QString line : sql.split(u'\n')) {
        const qsizetype comment = line.indexOf(u"--"_s, line.lastIndexOf(u'\'') + 1);
        line = line.left(comment).trimmed();
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
