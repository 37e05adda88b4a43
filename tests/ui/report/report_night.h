#pragma once

#include "core/alignment/test_lamp.h"
#include "core/photometry/tolerance_file.h"
#include "core/report/report.h"
#include "core/visit/light_of_visit.h"
#include "tests/core/photometry/good_sheet.h"
#include "tests/core/review/signed_as_wanted.h"
#include "tests/core/visit/night.h"
#include "ui/report/report_file.h"

#include <QBuffer>

namespace coldarc::test {

/// The names of an opening, each as long as a form takes and longer, in words and in one word.
inline visit::Opening withLongNames(visit::Opening opening)
{
    const QString word = QString(60, QChar(u'W'));
    const auto grown = [&](const QString& name, int times) {
        QStringList parts{name};
        for (int count = 0; count < times; ++count)
            parts.append(QStringLiteral("of the invented long house"));
        return parts.join(QChar(u' ')) + QChar(u' ') + word;
    };
    opening.site.site.name = grown(opening.site.site.name, 4);
    opening.site.site.town = grown(QStringLiteral("Town"), 2);
    opening.reason = grown(QStringLiteral("Because"), 12);
    for (site::Screen& screen : opening.site.screens)
        screen.name = grown(screen.name, 2);
    for (site::IsolationPoint& point : opening.site.points)
        point.name = grown(point.name, 2);
    for (visit::PersonFacts& person : opening.people)
        person.name = grown(person.name, 2);
    for (visit::LampFacts& lamp : opening.fitted)
        lamp.serial = QString(60, QChar(u'8'));
    return opening;
}

/// Does what the light run advises and types what a simulated meter shows, until the step has nothing left.
inline void readLight(Night& night, alignment::SimulatedLight& lamp, int swap = 0)
{
    const catalogue::ProjectorModel& model = night.state.ground->model(night.swap(swap).lamphouse);
    for (int count = 0; count < 200; ++count) {
        const visit::LightOfSwap now = visit::lightOf(night.state, night.swap(swap).id);
        const visit::NextStep next = night.next(swap);
        if (visit::isThrough(now, *next.step, model))
            break;
        for (const alignment::Move& move : now.advice().moves)
            lamp.turn(move);
        visit::LightRead read = visit::advisedReading(now, model, lamp.read());
        read.swap = night.swap(swap).id;
        read.step = next.step->id;
        night.clock.advance(std::chrono::seconds(9));
        const visit::Decision told = night.tell(read);
        ASSERT_TRUE(told) << wordsOf(told.error());
    }
    const visit::LightOfSwap now = visit::lightOf(night.state, night.swap(swap).id);
    const StepId step = night.next(swap).step->id;
    if (const auto knobs = visit::knobsToSet(now, visit::LightForm::Planned, *night.next(swap).step, model)) {
        for (const alignment::Move& move : now.advice().moves)
            lamp.turn(move);
        ASSERT_TRUE(night.tell(visit::LightSet{night.swap(swap).id, step, *knobs}));
    }
}

/// One swap with its light run and a screen that is read before and after, up to what is signed once all are
/// done.
inline void workFully(Night& night, int swap)
{
    using photometry::Place;
    const auto loading = photometry::loadToleranceSets(sourceFile("resources/photometry"));
    alignment::SimulatedLight lamp(
        alignment::testLampFor(visit::setupOf(night.state.ground->model(night.swap(swap).lamphouse))), 7);
    const auto readScreen = [&](double centre) {
        const StepId step = night.next(swap).step->id;
        visit::ScreenConditions said{night.swap(swap).id, step};
        said.conditions = photometry::test::goodConditions();
        EXPECT_TRUE(night.tell(said));
        visit::ScreenRead read{night.swap(swap).id, step};
        double light = centre;
        for (const Place place :
             {Place::Centre, Place::Left, Place::Right, Place::TopLeft, Place::BottomRight}) {
            read.points.append({place, light, photometry::Chromaticity::fromXy(0.314, 0.351)});
            light = std::round(centre * 8.4) / 10;
        }
        const visit::Decision told = night.tell(read);
        EXPECT_TRUE(told) << (told ? std::string() : wordsOf(told.error()));
    };
    while (!night.nextId(swap).isEmpty()) {
        const procedure::Step& step = *night.next(swap).step;
        const StepId id = step.id;
        const machine::Effect effect = step.effect;
        using machine::Effect;
        if (effect == Effect::Sign)
            break;
        night.clock.advance(std::chrono::minutes(step.minutes));
        if (effect == Effect::Peak || effect == Effect::PeakAgain)
            readLight(night, lamp, swap);
        if (effect == Effect::Settle)
            lamp.settle();
        if (id.text() == QStringLiteral("light-before"))
            readScreen(36.1);
        if (effect == Effect::MeasureScreen) {
            for (const photometry::ToleranceSet& set : loading.sets) {
                if (set.id.text() == QStringLiteral("digital-theatre")) {
                    EXPECT_TRUE(night.tell(visit::ScreenLimits{night.swap(swap).id, id, set}));
                }
            }
            night.clock.advance(std::chrono::minutes(25));
            readScreen(47.2);
        }
        night.holdWaits(swap);
        if (effect == Effect::MatchBox)
            night.readLabels(swap);
        if (effect == Effect::BookIn)
            night.readMarking(swap);
        const visit::Decision done = night.doStep(
            id.text(), [](QJsonObject&) {}, swap);
        EXPECT_TRUE(done) << (done ? std::string() : id.text().toStdString() + wordsOf(done.error()));
        if (!done)
            break;
    }
}

/// Every swap of a visit to an invented cinema, one behind the other.
/// @param begun  what else is told of it once it is opened.
inline Night fullNight(const visit::Opening& opening, const std::function<void(Night&)>& begun = {})
{
    Night night(opening);
    if (begun)
        begun(night);
    for (int swap = 0; swap < night.state.swaps.size(); ++swap)
        workFully(night, swap);
    for (int swap = 0; swap < night.state.swaps.size(); ++swap)
        night.doAll(swap);
    night.close();
    return night;
}

inline report::Report reportOfNight(const Night& night)
{
    return report::reportOf(night.entries, sha256("an invented head"), signedAsWanted(night)).value();
}

} // namespace coldarc::test
