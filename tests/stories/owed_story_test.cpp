#include "core/visit/light_of_visit.h"
#include "core/visit/open_visit.h"
#include "core/visit/owed_store.h"
#include "core/visit/settlement_store.h"
#include "tests/stories/booth.h"
#include "tests/support/testing.h"

namespace coldarc::test {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using machine::Effect;

/// What an engineer who comes to this site asks for, to do what its workspace says is owed there.
visit::WantedVisit wantedFor(const std::vector<visit::OwedStep>& owed, const visit::Opening& before)
{
    visit::WantedVisit wanted;
    wanted.visit = VisitId(u"friday"_s);
    wanted.reason = u"what is owed"_s;
    wanted.site = before.site;
    for (site::Lamphouse& lamphouse : wanted.site.lamphouses)
        lamphouse.fitted = before.swaps.first().newLamp.id;
    wanted.fitted = {{before.swaps.first().lamphouse, before.swaps.first().newLamp}};
    people::Person ada;
    ada.id = PersonId(u"ada"_s);
    ada.name = u"A. Okoro"_s;
    ada.role = people::Role::Engineer;
    people::Authorisation authorisation;
    authorisation.id = people::AuthorisationId(u"a1"_s);
    authorisation.person = authorisation.givenBy = ada.id;
    authorisation.from = people::Day{std::chrono::year(2026) / 1 / 1};
    authorisation.until = people::Day{std::chrono::year(2026) / 12 / 31};
    wanted.people.append({ada, {authorisation}});
    wanted.today = people::Day{std::chrono::year(2026) / 11 / 20};
    visit::WantedSwap swap{SwapId(u"friday-1"_s), owed.front().lamphouse, {}};
    for (const visit::OwedStep& step : owed)
        swap.owed.append({step.step, step.visit, step.since, step.lamp});
    wanted.swaps.append(swap);
    return wanted;
}

TEST(OwedStory, TheSecondPeakOwedOnTuesdayIsDoneOnFriday)
{
    store::Database workspace = store::Database::inMemory();
    visit::SettlementStore settlements(workspace);
    const visit::OwedStore owed(workspace);
    Booth tuesday;
    tuesday.goTo(Effect::Settle);
    tuesday.oweStep();
    ASSERT_TRUE(tuesday.isAt(Effect::PeakAgain));
    tuesday.oweStep();
    ASSERT_TRUE(tuesday.isAt(Effect::MeasureScreen));
    tuesday.oweStep();
    tuesday.goToTheEnd();
    tuesday.press();
    ASSERT_EQ(tuesday.signAndClose(), QStringList());
    const auto left =
        settlements.settle(visit::settlementOf(tuesday.logbook()).value(), tuesday.clock().now().wall);
    ASSERT_TRUE(left);

    const std::vector<visit::OwedStep> due = owed.open().value();
    ASSERT_EQ(due.size(), 3u);
    EXPECT_EQ(due[1].title, u"Check the peak again"_s);
    tuesday.clock().advance(3 * 24h);
    const auto opening = visit::openingFor(wantedFor(due, tuesday.night().opening()),
                                           {shippedCatalogue(), shippedProcedures()}, {});
    ASSERT_TRUE(opening);

    Booth friday(*opening, tuesday.clock());
    EXPECT_EQ(friday.bench().subtitle, u"what is owed"_s);
    EXPECT_TRUE(friday.isAt(Effect::Find));
    friday.press({{u"lamp"_s, u"Lit"_s}, {u"dowser"_s, u"Open"_s}});
    const auto settle = friday.state().ground->waits[0].settle;
    const auto before = friday.clock().now().sinceBoot;
    friday.goTo(Effect::PeakAgain);
    EXPECT_GE(friday.clock().now().sinceBoot - before, settle - 20s) << "nobody watched it settle before";
    friday.light().open(0);
    friday.light().changeForm();
    for (const QString& light : {u"40"_s, u"41.5"_s, u"41"_s}) {
        friday.clock().advance(20s);
        friday.light().enter(light);
    }
    EXPECT_EQ(visit::lightOf(friday.state(), friday.state().swaps[0].id).best, 41.5);
    friday.endLightStep();
    friday.goTo(Effect::MeasureScreen);
    friday.measureScreen();
    friday.goToTheEnd();
    friday.press();
    ASSERT_EQ(friday.signAndClose(), QStringList());

    EXPECT_EQ(friday.readAgain().end, u"done"_s);
    expectSame(friday.readAgain(), friday.state());
    EXPECT_FALSE(friday.night().hasIncident(visit::Incident::WillNotLight));
    EXPECT_EQ(friday.lamphouse().heat, machine::Heat::Lit) << "nobody put it out";
    ASSERT_TRUE(settlements.settle(visit::settlementOf(friday.logbook()).value(), friday.clock().now().wall));
    EXPECT_TRUE(owed.open().value().empty());
}

} // namespace
} // namespace coldarc::test
