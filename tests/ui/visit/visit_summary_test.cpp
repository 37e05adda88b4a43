#include "ui/visit/visit_summary.h"

#include "core/photometry/tolerance_file.h"
#include "tests/ui/visit/visit_at_work.h"
#include "ui/parts/text_label.h"
#include "ui/parts/theme.h"
#include "ui/visit/sign_off_page.h"

#include <QApplication>
#include <QRegularExpression>
#include <QTest>

#include <algorithm>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;
using namespace std::chrono_literals;
using test::Night;
using test::VisitAtWork;

QString saidOf(const SummarySection& section, const QString& what)
{
    for (const SummaryRow& row : section.rows) {
        if (row.what == what)
            return row.said;
    }
    return u"(no such row)"_s;
}

QList<SummarySection> summaryOf(const Night& night)
{
    QList<review::HeadSigned> signatures;
    for (const WantedSignature& one : visit::wantedSignatures(night.entries, night.state))
        signatures.append({one.entry, one.person, one.meaning, night.entries[one.entry].at.wall, true});
    return ui::summaryForSigning(night.seen(), night.entries, signatures, night.clock.now(),
                                 QTimeZone::utc());
}

TEST(VisitSummaryTest, TellsWhichLampCameOutAndWhichWentIn)
{
    visit::Opening opening = Night().opening();
    opening.fitted.first().counter = 900; // as its counter will say
    Night night(opening);
    night.clock.advance(45min); // before the first step: in all it takes as long as such work does
    night.doAll();

    const QList<SummarySection> sections = summaryOf(night);

    ASSERT_EQ(sections.size(), 2);
    EXPECT_TRUE(saidOf(sections[0], u"Lamp out"_s).contains(u"OLD000001"));
    EXPECT_TRUE(saidOf(sections[0], u"Lamp out"_s).contains(u"counter "));
    EXPECT_TRUE(saidOf(sections[0], u"Lamp in"_s).contains(u"NEW000001"));
    EXPECT_EQ(saidOf(sections[0], u"Alert at"_s), u"900 h"_s);
    EXPECT_TRUE(saidOf(sections[0], u"Left"_s).startsWith(u"lamp lit"));
    EXPECT_TRUE(saidOf(sections[0], u"Left"_s).endsWith(u"no lock hangs there"));
    EXPECT_EQ(sections.last().title, u"Out of the ordinary"_s);
    EXPECT_EQ(sections.last().rows, (QList<SummaryRow>{{QString(), u"Nothing."_s}}));
}

// What a supervisor is told of the visit, whoever signs has read, what its end brings included.
TEST(VisitSummaryTest, NamesWhatTheReviewWouldOfTheVisitAsItStands)
{
    visit::Opening opening = Night().opening();
    opening.fitted.front().counter = 1380;
    Night night(opening);
    night.doUntil(u"sign"_s);
    VisitAtWork work(night);
    SignOffPresenter presenter(work.desk());
    presenter.open();
    const auto said = [&presenter] {
        QStringList rows;
        for (const SummaryRow& row : presenter.view().summary.last().rows)
            rows.append(row.said);
        return rows;
    };
    const auto titled = [](const QStringList& rows, const QString& title) {
        return rows.filter(QRegularExpression(u'^' + title));
    };

    const QStringList unsignedYet = said();
    EXPECT_EQ(titled(unsignedYet, u"The counter shows less than the hours on record: read 900 h, "_s).size(),
              1)
        << unsignedYet.join(u'\n').toStdString();
    EXPECT_EQ(titled(unsignedYet, u"Work went on unsigned: A. Okoro, "_s).size(),
              wantedSignatures(work.entries(), work.state()).size());

    work.desk().setKept(wantedSignatures(work.entries(), work.state()));
    EXPECT_TRUE(titled(said(), u"Work went on unsigned"_s).isEmpty()) << "signed by now";
    EXPECT_EQ(titled(said(), u"Shorter than the work takes: "_s).size(), 1)
        << said().join(u'\n').toStdString();
}

// The report of a visit of twenty minutes said that it was short; whoever had signed it was not told.
TEST(VisitSummaryTest, ListsBeforeTheSignatureWhatTheReportListsAfterwards)
{
    visit::Opening opening = Night().opening();
    opening.fitted.front().counter = 1380;
    Night night(opening);
    night.doUntil(u"sign"_s);
    const QList<SummaryRow> before = summaryOf(night).last().rows;

    night.doAll();
    night.close();

    const QList<SummaryRow> after = summaryOf(night).last().rows;
    ASSERT_EQ(before.size(), after.size());
    for (qsizetype i = 0; i < before.size(); ++i) // but for the minutes that signing took
        EXPECT_EQ(before[i].said.section(u':', 0, 0), after[i].said.section(u':', 0, 0));
    EXPECT_TRUE(std::ranges::any_of(
        before, [](const SummaryRow& row) { return row.said.startsWith(u"Shorter than the work takes: "); }));
}

// The page said so above, and left the cursor in the name.
TEST(SignOffPageTest, WhoeverIsNoContactOfTheSiteIsAskedForTheirRoleInItsBox)
{
    visit::Opening opening = Night().opening();
    opening.site.site.contacts.push_back({u"C. Moor"_s, u"duty manager"_s, {}});
    Night night(opening);
    night.doUntil(u"sign"_s);
    VisitAtWork work(night);
    SignOffPresenter presenter(work.desk());
    presenter.open();
    presenter.done({}); // the lead signs
    SignOffPage page(work.clock());
    QObject::connect(&presenter, &SignOffPresenter::viewChanged, &page, &SignOffPage::setView);
    QObject::connect(&page, &SignOffPage::doneRequested, &presenter, &SignOffPresenter::done);
    page.show();
    QApplication::setActiveWindow(&page);
    page.setView(presenter.view());
    const auto type = [&](const QString& text) {
        QTest::keyClicks(QApplication::focusWidget(), text);
        night.clock.advance(1s);
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
    };
    const auto count = work.state().signatures.size();

    type(u"P. Lark"_s);

    EXPECT_EQ(work.state().signatures.size(), count);
    EXPECT_TRUE(page.findChild<QWidget*>(u"capture-role"_s)->isAncestorOf(QApplication::focusWidget()));
    type(u"usher"_s);
    ASSERT_EQ(work.state().signatures.size(), count + 1);
    EXPECT_EQ(work.state().signatures.last().name, u"P. Lark"_s);
    EXPECT_EQ(work.state().signatures.last().role, u"usher"_s);
}

TEST(VisitSummaryTest, AFollowUpNamesTheOneLampAndWhatWasDoneOfWhatWasOwed)
{
    Night night(test::followUpOf(Night(), {u"peak-again"_s, u"measure-screen"_s}));
    night.doUntil(u"measure-screen"_s);
    ASSERT_TRUE(night.tell(visit::Owed{night.swap().id, StepId(u"measure-screen"_s)}));

    const SummarySection section = summaryOf(night)[0];

    EXPECT_TRUE(saidOf(section, u"Lamp found"_s).contains(u"NEW000001"));
    EXPECT_EQ(saidOf(section, u"Lamp brought"_s), u"(no such row)"_s);
    EXPECT_EQ(saidOf(section, u"Lamp in"_s), u"(no such row)"_s);
    EXPECT_EQ(saidOf(section, u"Owed before, done now"_s), u"Check the peak again"_s);
    EXPECT_EQ(saidOf(section, u"Owed to a later visit"_s), u"Measure the screen"_s);
}

TEST(VisitSummaryTest, TheScreenStandsThereInOneLine)
{
    Night night;
    night.doUntil(u"measure-screen"_s);
    EXPECT_EQ(saidOf(summaryOf(night)[0], u"Screen"_s), u"(no such row)"_s);
    night.readCentre(0, 47.6);
    EXPECT_EQ(saidOf(summaryOf(night)[0], u"Screen"_s), u"centre 47.6\u00a0cd/m²"_s);

    visit::ScreenLimits limits{night.swap().id, StepId(u"measure-screen"_s)};
    for (const auto& set : photometry::loadToleranceSets(test::sourceFile("resources/photometry")).sets) {
        if (set.id.text() == u"digital-theatre")
            limits.set = set;
    }
    ASSERT_TRUE(night.tell(limits));
    EXPECT_EQ(saidOf(summaryOf(night)[0], u"Screen"_s),
              u"centre 47.6\u00a0cd/m²; not judged, Digital cinema, theatre (2008)"_s);
}

TEST(VisitSummaryTest, ALampThatWasOnlyBroughtDidNotGoIn)
{
    Night night;
    night.doUntil(u"unbox-new"_s);
    night.makeSafe();

    const SummarySection screen = summaryOf(night).first();

    EXPECT_TRUE(saidOf(screen, u"Lamp brought"_s).contains(u"NEW000001"));
    EXPECT_TRUE(saidOf(screen, u"Lamp found"_s).contains(u"OLD000001"));
    EXPECT_EQ(saidOf(screen, u"Lamp in"_s), u"(no such row)"_s);
    EXPECT_TRUE(saidOf(screen, u"Left"_s).contains(u"locked at "));
}

TEST(VisitSummaryTest, WhatWentWrongStandsThereWithItsAnswer)
{
    Night night;
    night.doUntil(u"find"_s);
    visit::Happened happened;
    happened.incident = visit::Incident::NoTimeLeft;
    happened.swap = night.swap().id;
    ASSERT_TRUE(night.tell(happened));

    const QList<SummarySection> sections = summaryOf(night);

    ASSERT_EQ(sections.size(), 3);
    EXPECT_EQ(sections[1].title, u"What went wrong"_s);
    EXPECT_TRUE(sections[1].rows.first().said.endsWith(u": not answered"));
    EXPECT_NE(sections.last().rows.first().said, u"Nothing."_s);
}

class SignOffSightTest : public testing::TestWithParam<QSize> {};

TEST_P(SignOffSightTest, NothingOfWhatIsSignedIsCutOff)
{
    Night night;
    night.doUntil(u"sign"_s);
    VisitAtWork work(night);
    SignOffPresenter presenter(work.desk());
    presenter.open();
    presenter.done({});

    SignOffPage page(work.clock());
    page.resize(GetParam());
    page.setView(presenter.view());
    page.show();
    QApplication::processEvents();

    const auto labels = page.findChildren<TextLabel*>();
    EXPECT_GT(labels.size(), 10);
    for (const TextLabel* label : labels)
        EXPECT_TRUE(!label->isVisible() || label->fits()) << label->text().toStdString();
}

INSTANTIATE_TEST_SUITE_P(OnBothScreens, SignOffSightTest,
                         testing::Values(QSize(1366, 768), QSize(1920, 1080)),
                         [](const auto& instance) { return "At" + std::to_string(instance.param.width()); });

} // namespace
} // namespace coldarc::ui
