#include "core/label/compare_fields.h"
#include "tests/support/testing.h"
#include "ui/visit/view_of_steps.h"
#include "ui/visit/words_demand.h"
#include "ui/visit/words_effect.h"
#include "ui/visit/words_exception.h"
#include "ui/visit/words_incident.h"
#include "ui/visit/words_label.h"
#include "ui/visit/words_why.h"

#include <QRegularExpression>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;

/// Plain: there is something, it is a sentence or a few words, and nothing in it is a programmer's.
void expectPlain(const QString& text)
{
    static const QRegularExpression kProgrammers(u"null|invalid|\\berror\\b|enum|\\bstate\\b|index|kNone|"
                                                 u"\\bunmet\\b|boolean|[A-Za-z]+::|_|\\w[a-z]+[A-Z]\\w*|"
                                                 "\\bid\\b|parameter|exception|%[0-9]"_s);
    EXPECT_GE(text.trimmed().size(), 3) << text.toStdString();
    const auto match = kProgrammers.match(text);
    EXPECT_FALSE(match.hasMatch()) << '"' << match.captured().toStdString()
                                   << "\" in: " << text.toStdString();
    // Cold takes away the heat, not the pressure: no text calls a lamp safe to touch.
    EXPECT_FALSE(text.contains(u"safe to touch", Qt::CaseInsensitive)) << text.toStdString();
}

TEST(WordsTest, EveryDemandSaysWhatOpensTheWay)
{
    for (int index = 0; index < machine::kDemands; ++index) {
        const auto demand = static_cast<machine::Demand>(index);
        expectPlain(shortWordsOf(demand));
        expectPlain(wayOf(demand));
        EXPECT_LE(shortWordsOf(demand).size(), 40) << shortWordsOf(demand).toStdString();
        EXPECT_TRUE(wayOf(demand).endsWith(u'.')) << wayOf(demand).toStdString();
        EXPECT_NE(shortWordsOf(demand), u"Dead"_s) << "a gate of two facts is never named alone";
    }
}

TEST(WordsTest, EveryEffectWaitAndEndHasWords)
{
    for (int index = 0; index < machine::kEffects; ++index) {
        expectPlain(orderOf(static_cast<machine::Effect>(index)));
        expectPlain(reasonOf(static_cast<machine::Effect>(index)));
    }
    for (int index = 0; index <= static_cast<int>(machine::Wait::Settle); ++index) {
        const auto wait = static_cast<machine::Wait>(index);
        for (const QString& text :
             {holdWordsOf(wait), shortHoldWordsOf(wait), endWordsOf(wait), countedWordsOf(wait)})
            expectPlain(text);
    }
    for (const machine::SafeEnd end :
         {machine::SafeEnd::AsItWas, machine::SafeEnd::AsItIs, machine::SafeEnd::OutOfUse})
        expectPlain(wordsOf(end));
    for (int index = 0; index <= static_cast<int>(machine::Gate::None); ++index)
        expectPlain(nameOf(static_cast<machine::Gate>(index)));
    for (int index = 0; index <= static_cast<int>(procedure::Phase::Sign); ++index)
        expectPlain(nameOf(static_cast<procedure::Phase>(index)));
}

TEST(WordsTest, EveryIncidentSaysWhatToDoNow)
{
    for (int index = 0; index < visit::kIncidents; ++index) {
        const auto incident = static_cast<visit::Incident>(index);
        expectPlain(nameOf(incident));
        EXPECT_GE(nowDo(incident).size(), 2) << nameOf(incident).toStdString();
        for (const QString& line : nowDo(incident)) {
            expectPlain(line);
            EXPECT_TRUE(line.endsWith(u'.')) << line.toStdString();
        }
    }
}

TEST(WordsTest, ABurstThatMayHaveSpiltMercuryIsCleanedUpInAnotherWay)
{
    const QStringList xenon = nowDo(visit::Incident::Burst, false);
    const QStringList mercury = nowDo(visit::Incident::Burst, true);

    EXPECT_FALSE(xenon.join(u' ').contains(u"mercury"));
    EXPECT_TRUE(mercury.join(u' ').contains(u"mercury"));
    EXPECT_FALSE(mercury.join(u' ').contains(u"brush and tongs"));
    EXPECT_EQ(mercury.last(), xenon.last()) << "either way it is inspected first";
    for (const QString& line : mercury)
        expectPlain(line);
    EXPECT_EQ(nowDo(visit::Incident::WrongLamp, true), nowDo(visit::Incident::WrongLamp, false));
}

TEST(WordsTest, EveryExceptionHasWords)
{
    for (int index = 0; index < kExceptions; ++index)
        expectPlain(wordsOf(static_cast<visit::Exception::Kind>(index)));
}

TEST(WordsTest, EveryReasonOfARefusalHasWords)
{
    for (int index = 0; index <= static_cast<int>(visit::Why::Kind::HadNoPart); ++index) {
        visit::Why why;
        why.kind = static_cast<visit::Why::Kind>(index);
        why.capture = u"tester"_s;
        expectPlain(wordsOf(why, {}, {}));
    }
}

TEST(WordsTest, AFigureThatMayBeEitherIsRefusedWithTheWayToWriteIt)
{
    visit::Why why;
    why.kind = visit::Why::Kind::FigureUnclear;
    why.capture = u"Lamp hours"_s;
    why.text = u"1.980"_s;

    EXPECT_EQ(wordsOf(why, {}, {}),
              u"Lamp hours: 1.980 is not plain: write 1980, with nothing between the thousands."_s);
}

TEST(WordsTest, AFigureThatIsReadBackOtherwiseIsToldAsItShouldBe)
{
    visit::Why why;
    why.kind = visit::Why::Kind::AnswerBad;
    why.capture = u"Alert read back"_s;
    why.text = u"1850"_s;

    EXPECT_TRUE(wordsOf(why, {}, {}).startsWith(u"Alert read back: 1850 is to stand there."_s));
    expectPlain(wordsOf(why, {}, {}));
}

TEST(WordsTest, EveryWaitOfMatchedHasWordsAtEverySource)
{
    using Cause = label::Wait::Cause;
    for (int cause = 0; cause <= static_cast<int>(Cause::SerialDiffers); ++cause) {
        for (int source = 0; source <= static_cast<int>(label::Source::Entry); ++source) {
            const label::Wait wait{static_cast<Cause>(cause), static_cast<label::Source>(source), 1};
            expectPlain(wordsOf(wait));
            // A serial may be let pass; a type never, and no text offers it.
            const QString text = wordsOf(wait);
            EXPECT_EQ(text.contains(u"let it pass"), wait.canBePassedWithReason()) << text.toStdString();
        }
    }
}

TEST(WordsTest, ADifferenceIsToldCharacterByCharacter)
{
    const QString entry = u"HVQ30-40B"_s;
    const QString box = u"HVQ30-408"_s;

    EXPECT_EQ(wordsOf(label::compareFields(entry, box), entry, box),
              u"place 9: 8 here, B in the entry (easily mistaken)"_s);
    EXPECT_EQ(wordsOf(label::compareFields(u"AO1"_s, u"A01"_s), u"AO1"_s, u"A01"_s),
              u"place 2: the figure 0 here, the letter O in the entry (easily mistaken)"_s);
    EXPECT_EQ(wordsOf(label::compareFields(u"A12"_s, u"A1"_s), u"A12"_s, u"A1"_s),
              u"place 3: 2 of the entry is missing here"_s);
    EXPECT_EQ(
        wordsOf(label::compareFields(u"AAAAA"_s, u"BBBBB"_s), u"AAAAA"_s, u"BBBBB"_s),
        u"place 1: B here, A in the entry; place 2: B here, A in the entry; place 3: B here, A in the entry; "
        "and 2 more"_s);
}

TEST(WordsTest, WhatIsLeftReadsInMinutesAndSeconds)
{
    EXPECT_EQ(leftWords(std::chrono::seconds(401)), u"6 min 41 s"_s);
    EXPECT_EQ(leftWords(std::chrono::seconds(9)), u"9 s"_s);
    EXPECT_EQ(leftWords(std::chrono::milliseconds(59'001)), u"1 min 0 s"_s);
}

} // namespace
} // namespace coldarc::ui
