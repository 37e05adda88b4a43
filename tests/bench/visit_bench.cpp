// Figures of core/visit: how far random commands reach, and what it costs to open a visit, beside the least
// that anything could cost that reads the same bytes.

#include "core/store/database.h"
#include "core/store/journal.h"
#include "core/store/summaries.h"
#include "core/visit/logbook.h"
#include "tests/bench/times.h"
#include "tests/core/visit/night.h"
#include "tests/core/visit/random_nights.h"

#include <QCoreApplication>
#include <QCryptographicHash>
#include <QJsonDocument>

#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

using namespace Qt::StringLiterals;
using namespace coldarc;
using namespace coldarc::visit;

namespace {

constexpr std::size_t kCommands = 1'000'000;
constexpr int kProcedures = 400;
constexpr qsizetype kEntries = 500;
constexpr int kRounds = 41;

void must(bool done, const char* what)
{
    if (!done) {
        std::fprintf(stderr, "visit_bench: %s failed\n", what);
        std::exit(1);
    }
}

template<class Deed>
double cost(Deed deed)
{
    const double begun = bench::threadMs();
    deed();
    return bench::threadMs() - begun;
}

/// Two swaps in one night, with light readings up to the number of entries wanted.
test::Night longNight()
{
    test::Night night(u"larkmoor-teal"_s, test::Night::Crew::Alone, {}, {}, 2);
    night.doUntil(u"sign"_s, 0);
    night.doUntil(u"peak-along"_s, 1);
    for (int turn = 0; night.entries.size() < kEntries - 20; ++turn)
        must(night
                 .tell(LightRead{night.swap(1).id, StepId(u"peak-along"_s), u"along"_s, 0.5 * (turn % 20),
                                 40.0 + turn % 7})
                 .has_value(),
             "a light reading");
    night.doUntil(u"sign"_s, 1);
    while (night.entries.size() < kEntries)
        must(night.tell(Noted{{}, u"still there"_s}).has_value(), "a note");
    return night;
}

/// The same procedures, seed and million as in tests/long, where the limits are asserted; takes minutes.
void printRandom()
{
    const test::RandomProcedures made = test::makeProcedures(kProcedures, 1910);
    must(made.wrong.empty() && made.proved() > 0, made.wrong.c_str());
    const test::RandomNights run = test::runRandomNights(kCommands, 1147, made);
    must(run.broken.empty(), run.broken.c_str());
    std::printf("visit.random_accepted_pct %.1f %%\n",
                100.0 * static_cast<double>(run.accepted) / static_cast<double>(run.asked));
    std::printf("visit.random_rarest_effect %zu entries\n", run.rarestEffect());
}

/// Reading a visit from its journal, every entry checked against the chain and folded, against hashing and
/// parsing the same bytes; the median of the ratios of turns taken one after the other.
void printOpening()
{
    const test::Night night = longNight();
    store::Database database = store::Database::inMemory();
    store::Journal journal(database);
    store::Summaries summaries(database);
    const VisitId visit(u"visit-1"_s);
    std::vector<QByteArray> bytes;
    for (qsizetype index = 0; index < night.entries.size(); ++index) {
        bytes.push_back(bytesOf(night.entries[index]));
        must(journal.append(visit, store::Sequence(index), bytes.back()).has_value(), "append");
    }
    std::vector<double> ratios;
    for (int round = 0; round < kRounds; ++round) {
        const double opened = cost([&] {
            const auto logbook = Logbook::read(journal, summaries, visit);
            must(logbook && logbook->entries().size() == kEntries && !logbook->state().isReadOnly, "reading");
        });
        const double least = cost([&] {
            qsizetype keys = 0;
            for (const QByteArray& entry : bytes) {
                keys += QCryptographicHash::hash(entry, QCryptographicHash::Sha256).size();
                keys += QJsonDocument::fromJson(entry).object().size();
            }
            must(keys > 0, "parsing");
        });
        ratios.push_back(opened / least);
    }
    std::printf("visit.open_ratio %.2f x\n", bench::median(ratios));
}

} // namespace

int main(int count, char** arguments)
{
    const QCoreApplication application(count, arguments);
    const std::string wanted = count > 1 ? arguments[1] : "";
    const auto isWanted = [&](const char* name) {
        return std::string(name).find(wanted) != std::string::npos;
    };
    if (isWanted("visit.random_accepted_pct") || isWanted("visit.random_rarest_effect"))
        printRandom();
    if (isWanted("visit.open_ratio"))
        printOpening();
    return 0;
}
