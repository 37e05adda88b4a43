#include "tests/architecture/source_text.h"

#include <QDir>
#include <QDirIterator>
#include <QFile>
#include <QFileInfo>

#include <algorithm>

namespace coldarc::test {
using namespace Qt::StringLiterals;

namespace {

/// What git ignores at the top of the tree, by .gitignore.
bool isMadeByTools(const QString& name)
{
    return name == u"build"_s || name.startsWith(u"build-"_s) || name == u"compile_commands.json"_s ||
           name.contains(u".coldarc"_s);
}

bool isLeftOut(const QString& path)
{
    const QString first = path.section(u'/', 0, 0);
    return first == u".git"_s || first == u".cache"_s || isMadeByTools(first);
}

bool isText(const QString& path)
{
    static const QStringList endings = {u".cpp"_s, u".h"_s,   u".cmake"_s, u".txt"_s,
                                        u".md"_s,  u".sql"_s, u".json"_s,  u".mjs"_s};
    const bool known = std::ranges::any_of(endings, [&](const QString& e) { return path.endsWith(e); });
    const bool isScript = !path.section(u'/', -1).contains(u'.') && !path.startsWith(u"resources/"_s);
    return (known || isScript) && !path.startsWith(u"resources/licences/"_s);
}

QString contentOf(const QString& fileName)
{
    QFile file(fileName);
    return file.open(QIODevice::ReadOnly) ? QString::fromUtf8(file.readAll()) : QString();
}

/// Walks one C++ text and blanks as it goes.
class Blanker {
public:
    Blanker(const QString& text, Strings strings)
        : m_text(text)
        , m_strings(strings)
    {
    }

    QString run()
    {
        while (m_at < m_text.size())
            step();
        return m_text;
    }

private:
    [[nodiscard]] bool startsWith(QStringView what) const
    {
        return QStringView(m_text).sliced(m_at).startsWith(what);
    }

    void step()
    {
        if (startsWith(u"//"))
            blankTo(endBefore(u"\n"_s));
        else if (startsWith(u"/*"))
            blankTo(endAfter(u"*/"_s, m_at + 2));
        else if (startsWith(u"R\"") && !followsAWord())
            rawString();
        else if (startsWith(u"\"") || (startsWith(u"'") && !followsAWord()))
            literal(m_text[m_at]);
        else
            ++m_at;
    }

    /// A quote after a letter or digit separates digits and an R after one ends a name, unless that letter is
    /// the prefix of the literal. (u8 before a character is not known here; nobody writes it.)
    [[nodiscard]] bool followsAWord() const
    {
        if (m_at == 0)
            return false;
        const QChar before = m_text[m_at - 1];
        const bool isPrefix = before == u'u' || before == u'U' || before == u'L';
        const bool standsAlone = m_at < 2 || !m_text[m_at - 2].isLetterOrNumber();
        return (before.isLetterOrNumber() || before == u'_') && !(isPrefix && standsAlone);
    }

    void rawString()
    {
        const qsizetype open = m_text.indexOf(u'(', m_at);
        const QString close =
            u")"_s + m_text.sliced(m_at + 2, std::max<qsizetype>(0, open - m_at - 2)) + u"\""_s;
        const qsizetype end = endAfter(close, open);
        m_at = open + 1;
        if (m_strings == Strings::Blanked)
            blankTo(end - close.size());
        m_at = end;
    }

    void literal(QChar quote)
    {
        const qsizetype start = ++m_at;
        while (m_at < m_text.size() && m_text[m_at] != quote && m_text[m_at] != u'\n')
            m_at += m_text[m_at] == u'\\' ? 2 : 1;
        const qsizetype end = std::min(m_at, m_text.size());
        if (m_strings == Strings::Blanked) {
            m_at = start;
            blankTo(end);
        }
        m_at = end + 1;
    }

    [[nodiscard]] qsizetype endBefore(const QString& what) const
    {
        const qsizetype found = m_text.indexOf(what, m_at);
        return found < 0 ? m_text.size() : found;
    }

    [[nodiscard]] qsizetype endAfter(const QString& what, qsizetype from) const
    {
        const qsizetype found = m_text.indexOf(what, from);
        return found < 0 ? m_text.size() : found + what.size();
    }

    void blankTo(qsizetype end)
    {
        for (; m_at < end; ++m_at) {
            if (m_text[m_at] != u'\n')
                m_text[m_at] = u' ';
        }
    }

    QString m_text;
    Strings m_strings;
    qsizetype m_at = 0;
};

} // namespace

std::vector<SourceFile> sourceTree(const QString& top)
{
    std::vector<SourceFile> files;
    const QDir root(top);
    QDirIterator walk(top, QDir::Files | QDir::Hidden | QDir::NoSymLinks, QDirIterator::Subdirectories);
    while (walk.hasNext()) {
        const QString path = root.relativeFilePath(walk.next());
        if (!isLeftOut(path) && isText(path))
            files.push_back({path, contentOf(walk.filePath())});
    }
    std::ranges::sort(files, {}, &SourceFile::path);
    return files;
}

QStringList topLevelOf(const QString& top)
{
    QStringList names;
    const auto entries = QDir(top).entryInfoList(QDir::AllEntries | QDir::NoDotAndDotDot, QDir::Name);
    for (const QFileInfo& entry : entries) {
        if (!isMadeByTools(entry.fileName()))
            names << entry.fileName();
    }
    return names;
}

QString codeOf(const QString& text, Strings strings)
{
    return Blanker(text, strings).run();
}

qsizetype lineOf(const QString& text, qsizetype place)
{
    return 1 + QStringView(text).first(place).count(u'\n');
}

bool isCpp(const QString& path)
{
    return path.endsWith(u".cpp"_s) || path.endsWith(u".h"_s);
}

} // namespace coldarc::test
