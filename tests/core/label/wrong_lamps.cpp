#include "tests/core/label/wrong_lamps.h"

#include "core/label/normalise.h"

#include <algorithm>
#include <array>
#include <random>

namespace coldarc::test {

using namespace Qt::StringLiterals;
using catalogue::LampType;
using label::Means;
using label::Reading;
using label::Source;

namespace {

constexpr double kWrongLamp = 0.3;
constexpr double kRightBoxWrongLamp = 0.5; // of wrong lamps; else the whole box is wrong
constexpr double kSister = 0.6;            // of wrong lamps: the type that is nearest by its code
constexpr double kTorn = 0.1;
constexpr double kOddPaper = 0.1;
constexpr double kWorn = 0.05;
constexpr double kSlip = 0.05;
constexpr double kAlike = 0.5;        // of slips
constexpr double kWrongChoice = 0.02; // between two types that stand beside each other

struct Truth {
    const LampType* planned = nullptr;
    const LampType* lamp = nullptr;
    QString lampSerial;
    const LampType* box = nullptr;
    QString boxSerial;
};

class Night {
public:
    Night(const QList<LampType>& lampTypes, std::mt19937& chance)
        : m_types(lampTypes)
        , m_chance(chance)
    {
        m_truth.planned = &any();
        m_truth.lamp = m_truth.planned;
        m_truth.lampSerial = serial();
        m_truth.box = m_truth.lamp;
        m_truth.boxSerial = m_truth.lampSerial;
        if (!happens(kWrongLamp))
            return;
        m_truth.lamp = happens(kSister) ? &sisterOf(*m_truth.planned) : &any();
        const bool rightBox = happens(kRightBoxWrongLamp);
        m_truth.box = rightBox ? m_truth.planned : m_truth.lamp;
        m_truth.boxSerial = rightBox ? serial() : m_truth.lampSerial;
    }

    [[nodiscard]] const Truth& truth() const { return m_truth; }

    [[nodiscard]] QList<Reading> read()
    {
        const Reading box = boxRead();
        const Reading marking = markingRead();
        return {box, paperRead(), marking, entryTyped(box, marking)};
    }

    /// The source is looked at once more; slips are made anew.
    [[nodiscard]] Reading readAgain(Source source, const QList<Reading>& before)
    {
        switch (source) {
        case Source::Box:
            return boxRead();
        case Source::Paper:
            return paperRead();
        case Source::OwnMarking:
            return markingRead();
        case Source::Entry:
            break;
        }
        return entryTyped(before[0], before[2]);
    }

    /// The marking is looked at once more, with the entry's type and its sisters side by side.
    [[nodiscard]] Reading markingChosen(const LampTypeId& entry, const QString& serial)
    {
        QList<LampTypeId> shown = label::sistersOf(entry, m_types);
        shown.prepend(entry);
        const bool isThere = shown.contains(m_truth.lamp->id);
        const LampTypeId& chosen =
            isThere && !happens(kWrongChoice) ? m_truth.lamp->id : shown.at(below(shown.size()));
        const auto type = std::ranges::find(m_types, chosen, &LampType::id);
        return {Source::OwnMarking, Means::Chosen, type->code, serial};
    }

private:
    [[nodiscard]] bool happens(double probability)
    {
        return std::uniform_real_distribution<double>(0, 1)(m_chance) < probability;
    }
    [[nodiscard]] qsizetype below(qsizetype limit)
    {
        return std::uniform_int_distribution<qsizetype>(0, limit - 1)(m_chance);
    }
    [[nodiscard]] const LampType& any() { return m_types.at(below(m_types.size())); }
    [[nodiscard]] QString serial() { return u"HB-%1"_s.arg(10'000 + below(90'000)); }

    [[nodiscard]] const LampType& sisterOf(const LampType& type) const
    {
        return *std::ranges::min_element(m_types, {}, [&](const LampType& other) {
            return other.id == type.id ? 1'000 : label::editDistance(other.code, type.code);
        });
    }

    // As people read and type: now and then one character is another, often one that looks alike.
    [[nodiscard]] QString typed(const QString& text)
    {
        static const QString kLetters = u"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"_s;
        if (text.isEmpty() || !happens(kSlip))
            return text;
        QString slip = text;
        const qsizetype at = below(text.size());
        QString alike;
        for (const QChar letter : kLetters)
            if (label::lookAlike(letter, text.at(at)))
                alike += letter;
        const QString& from = !alike.isEmpty() && happens(kAlike) ? alike : kLetters;
        slip[at] = from.at(below(from.size()));
        return slip;
    }

    [[nodiscard]] Reading boxRead()
    {
        if (happens(kTorn))
            return {Source::Box, Means::Typed, happens(0.5) ? QString() : typed(m_truth.box->code),
                    happens(0.5) ? QString() : typed(m_truth.boxSerial)};
        if (happens(0.5))
            return {Source::Box, Means::Scanned, m_truth.box->packageCodes.value(0, m_truth.box->code),
                    m_truth.boxSerial};
        return {Source::Box, Means::Typed, typed(m_truth.box->code), typed(m_truth.boxSerial)};
    }

    [[nodiscard]] Reading paperRead()
    {
        if (happens(kOddPaper))
            return {Source::Paper, Means::Typed, happens(0.5) ? QString() : sisterOf(*m_truth.box).code,
                    typed(m_truth.boxSerial)};
        return {Source::Paper, Means::Typed, typed(m_truth.box->code), typed(m_truth.boxSerial)};
    }

    [[nodiscard]] Reading markingRead()
    {
        return {Source::OwnMarking, Means::Typed, happens(kWorn) ? QString() : typed(m_truth.lamp->code),
                happens(kWorn) ? QString() : typed(m_truth.lampSerial)};
    }

    [[nodiscard]] Reading entryTyped(const Reading& box, const Reading& marking)
    {
        const qsizetype way = below(5);
        const bool offBox = way < 2 && !box.type.isEmpty();
        const bool offMarking = way == 2 && !marking.type.isEmpty();
        const QString type = offBox ? box.type : offMarking ? marking.type : m_truth.planned->code;
        const QString serial = box.serial.isEmpty() ? marking.serial : box.serial;
        return {Source::Entry, Means::Typed, typed(type), typed(serial)};
    }

    const QList<LampType>& m_types;
    std::mt19937& m_chance;
    Truth m_truth;
};

label::SerialPass passOf(Source source, const QList<Reading>& readings)
{
    label::SerialPass pass;
    pass.source = source;
    for (const Reading& reading : readings) {
        if (reading.source == source)
            pass.read = reading.serial;
        if (reading.source == Source::Entry)
            pass.entry = reading.serial;
    }
    pass.evidence = label::SerialPass::Evidence::Picture;
    pass.reason = u"cannot be read"_s;
    return pass;
}

QList<LampTypeId> idsOf(const QList<LampType>& types)
{
    QList<LampTypeId> ids;
    for (const LampType& type : types)
        ids.append(type.id);
    return ids;
}

bool sameRange(const LampType& one, const LampType& other)
{
    return one.leastAmperes == other.leastAmperes && one.mostAmperes == other.mostAmperes;
}

// Everything read, what differs read once more, every serial passed that can be.
label::Agreement played(Night& night, const QList<LampType>& types, std::optional<label::Wait>& first)
{
    const QList<LampTypeId> taken = idsOf(types);
    QList<Reading> readings = night.read();
    QList<label::SerialPass> passes;
    label::Agreement verdict = label::agreement(readings, passes, types, taken);
    for (const label::Wait& wait : verdict.waits) {
        if (!first && !wait.canBePassedWithReason())
            first = wait;
        readings[wait.source == Source::Box          ? 0
                 : wait.source == Source::Paper      ? 1
                 : wait.source == Source::OwnMarking ? 2
                                                     : 3] = night.readAgain(wait.source, readings);
    }
    verdict = label::agreement(readings, passes, types, taken);
    for (const label::Wait& wait : verdict.waits)
        if (wait.canBePassedWithReason())
            passes.append(passOf(wait.source, readings));
    verdict = label::agreement(readings, passes, types, taken);
    const auto isSister = [](const label::Wait& wait) {
        return wait.cause == label::Wait::Cause::SisterNotExcluded;
    };
    if (std::ranges::any_of(verdict.waits, isSister))
        readings[2] = night.markingChosen(*verdict.type, readings[2].serial);
    return label::agreement(readings, passes, types, taken);
}

} // namespace

Tally playWrongLamps(const QList<LampType>& lampTypes, int visits, unsigned seed)
{
    std::mt19937 chance(seed);
    Tally tally;
    for (tally.visits = 0; tally.visits < visits; ++tally.visits) {
        Night night(lampTypes, chance);
        std::optional<label::Wait> first;
        const label::Agreement verdict = played(night, lampTypes, first);
        const Truth& truth = night.truth();
        const bool isWrong = truth.lamp->id != truth.planned->id;
        const auto keyed =
            std::ranges::find_if(lampTypes, [&](const LampType& type) { return verdict.type == type.id; });
        const bool badRange = keyed != lampTypes.end() && !sameRange(*keyed, *truth.lamp);
        tally.wrong += isWrong;
        tally.wrongPassed += verdict.proved() == 2 && badRange;
        tally.wrongPassedWithoutMarking += verdict.closedBoxProved && badRange;
        if (!isWrong)
            ++(verdict.proved() == 2 ? tally.rightPassed : tally.rightHeld);
        else if (first)
            ++tally.caughtBy[{static_cast<int>(first->cause), static_cast<int>(first->source)}];
    }
    return tally;
}

} // namespace coldarc::test
