#include "tests/app/killed_intake.h"

#include "core/record/intake_store.h"
#include "core/record/review_store.h"
#include "core/review/reviewing.h"
#include "core/store/journal.h"
#include "core/store/pictures.h"
#include "core/store/summaries.h"
#include "core/store/workspace_file.h"
#include "tests/app/many_records.h"

#include <QFile>
#include <QProcess>
#include <QTemporaryDir>

#include <map>
#include <random>
#include <set>

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

constexpr int kAgain = 5;                 ///< records that are taken once more after a kill
constexpr int kMostMicroseconds = 30'000; ///< some records: it comes at any moment of one

int between(std::mt19937& chance, int least, int most)
{
    return std::uniform_int_distribution<int>(least, most)(chance);
}

/// What has to stand of a record in the end.
struct Wanted {
    int number = 0;
    Hash head;
    std::size_t entries = 0;
    std::size_t signatures = 0;
    Hash picture;
    Hash review; ///< its id
};

class Intakes {
public:
    Intakes(QString program, int records, Acknowledges acknowledges)
        : m_program(std::move(program))
        , m_isEarly(acknowledges == Acknowledges::ControlBefore)
    {
        for (int number = 0; number < records; ++number) {
            const record::Record record = m_made.recordOf(number);
            QFile out(recordFileIn(m_folder.path(), number));
            if (!out.open(QIODevice::WriteOnly) || out.write(m_made.fileOf(number)) < 0)
                qFatal("no room for the records");
            m_wanted[record.visit.text()] = {number,
                                             record.chain.back(),
                                             record.entries.size(),
                                             record.signatures.size(),
                                             record.pictures.front().hash,
                                             record::idOf(record.reviews.front())};
        }
        store::OpenAnswer answer = open();
        if (answer.outcome != store::Opening::Created)
            qFatal("the workspace was not made");
        m_made.believeIn(*answer.database);
    }

    /// Takes on from where it is known to be; `lines` 0: to the end, and all of them.
    void run(int lines, int microseconds)
    {
        const int from = lines == 0 ? 0 : std::max(0, m_next - kAgain);
        QProcess process;
        process.start(m_program, {file(), m_folder.path(), m_made.engineer().text(), QString::number(from),
                                  QString::number(m_wanted.size()), QString::number(lines),
                                  QString::number(microseconds), m_isEarly ? u"early"_s : QString()});
        process.waitForFinished(-1);
        const QList<QByteArray> said = process.readAllStandardOutput().split('\n');
        if (said.first() != "up")
            qFatal("the program that takes records did not start");
        times.there = 0;
        for (const QByteArray& line : said.mid(1)) {
            if (!line.isEmpty())
                heard(line);
        }
        const bool isKilled = process.exitStatus() == QProcess::CrashExit;
        times.kills += isKilled ? 1 : 0;
        if (!isKilled && process.exitCode() != 0)
            trouble(u"the program ended with %1"_s.arg(process.exitCode()));
        check();
    }
    void checkEachWhole()
    {
        store::OpenAnswer answer = open();
        for (const auto& [visit, wanted] : m_wanted)
            checkWhole(*answer.database, VisitId(visit), wanted);
    }
    [[nodiscard]] bool isThrough() const { return m_next == static_cast<int>(m_wanted.size()); }

    KilledIntake times;

private:
    [[nodiscard]] QString file() const { return m_folder.filePath(u"taken.coldarc"_s); }
    [[nodiscard]] store::OpenAnswer open() const
    {
        return store::openWorkspace(file(), {u"invented workspace"_s, m_made.now().wall});
    }
    void trouble(const QString& what)
    {
        ++times.broken;
        if (times.firstTrouble.isEmpty())
            times.firstTrouble = what;
    }
    void heard(const QByteArray& line)
    {
        const int number = line.split(' ').first().toInt();
        const QByteArray verdict = line.mid(line.indexOf(' ') + 1);
        times.there += verdict == kThere ? 1 : 0;
        if (verdict != kTaken && verdict != kThere)
            trouble(u"record %1: %2"_s.arg(number).arg(QString::fromUtf8(verdict)));
        if (number >= m_next)
            ++times.acknowledged;
        m_next = std::max(m_next, number + 1);
    }
    /// By heads, lists and the records around the kill; every record is read in the end alone.
    void check()
    {
        store::OpenAnswer answer = open();
        if (answer.outcome != store::Opening::Opened)
            return trouble(u"opening: %1 %2"_s.arg(static_cast<int>(answer.outcome)).arg(answer.detail));
        const auto heads = store::Journal(*answer.database).heads();
        const auto summaries = store::Summaries(*answer.database).all();
        const auto received = record::IntakeStore(*answer.database).received();
        if (!heads || !summaries || !received)
            return trouble(u"it cannot be read"_s);
        std::map<QString, store::VisitSummary> listed;
        for (const store::VisitSummary& one : *summaries)
            listed[one.visit.text()] = one;
        std::set<int> there;
        for (const store::Head& head : *heads) {
            const auto wanted = m_wanted.find(head.visit.text());
            const auto line = listed.find(head.visit.text());
            const bool isWhole = wanted != m_wanted.end() && wanted->second.head == head.hash &&
                                 line != listed.end() && line->second.headHash == head.hash &&
                                 line->second.review == review::wordOf(review::Stand::Accepted) &&
                                 received->contains(head.visit);
            if (!isWhole) {
                trouble(u"visit %1 stands there by half"_s.arg(head.visit.text()));
                continue;
            }
            there.insert(wanted->second.number);
            if (wanted->second.number >= m_next - kAgain)
                checkWhole(*answer.database, head.visit, wanted->second);
        }
        if (listed.size() != heads->size() || received->size() != static_cast<qsizetype>(heads->size()))
            trouble(u"a list names a visit that is not there"_s);
        times.inHand += there.contains(m_next) ? 1 : 0;
        for (int number = 0; number < m_next; ++number)
            times.lost += there.contains(number) || m_lost.contains(number) ? 0 : lose(number);
    }
    void checkWhole(store::Database& database, const VisitId& visit, const Wanted& wanted)
    {
        const store::Journal journal(database);
        const auto entries = journal.entries(visit);
        const auto signatures = journal.signatures(visit);
        const auto reviews = record::ReviewStore(database).of(visit);
        if (!entries || entries->size() != wanted.entries || entries->back().hash != wanted.head ||
            !signatures || signatures->size() != wanted.signatures || !reviews ||
            reviews->whole.size() != 1 || reviews->whole.front().id != wanted.review ||
            !store::Pictures(database).read(wanted.picture))
            trouble(u"visit %1 is not whole"_s.arg(visit.text()));
    }
    /// Each counts once.
    int lose(int number)
    {
        m_lost.insert(number);
        return 1;
    }

    QString m_program;
    bool m_isEarly;
    ManyRecords m_made;
    QTemporaryDir m_folder;
    std::map<QString, Wanted> m_wanted; ///< by visit
    int m_next = 0;                     ///< the first record that was not acknowledged
    std::set<int> m_lost;
};

} // namespace

KilledIntake killIntake(const QString& program, int records, int kills, std::uint32_t seed,
                        Acknowledges acknowledges)
{
    std::mt19937 chance(seed);
    Intakes intakes(program, records, acknowledges);
    const int most = 2 * std::max(1, records / kills) - 1;
    while (!intakes.isThrough() && intakes.times.broken == 0)
        intakes.run(kAgain + between(chance, 1, most), between(chance, 0, kMostMicroseconds));
    intakes.run(0, 0);
    if (intakes.times.broken == 0)
        intakes.checkEachWhole();
    return intakes.times;
}

} // namespace coldarc::test
