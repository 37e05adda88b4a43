#include "tests/core/visit/random_procedure.h"

#include "core/procedure/proof.h"
#include "tests/core/visit/night.h"

#include <QDir>
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QTemporaryDir>

#include <algorithm>
#include <functional>
#include <numeric>
#include <set>
#include <vector>

using namespace Qt::StringLiterals;

namespace coldarc::test {
namespace {

using catalogue::Cover;
using catalogue::ProjectorModel;
using procedure::Phase;
using procedure::Stop;

/// Chance, always in the same order.
class Chance {
public:
    explicit Chance(std::uint32_t seed)
        : m_random(seed)
    {
    }
    int below(int count) { return static_cast<int>(m_random() % static_cast<unsigned>(count)); }
    bool oneIn(int count) { return below(count) == 0; }
    template<class List>
    auto any(const List& list)
    {
        return list[below(static_cast<int>(list.size()))];
    }
    template<class List>
    void shuffle(List& list)
    {
        for (qsizetype index = list.size() - 1; index > 0; --index)
            list.swapItemsAt(index, below(static_cast<int>(index + 1)));
    }

private:
    std::mt19937 m_random;
};

// ---- The projector
// -----------------------------------------------------------------------------------------

QStringList someOf(QStringList list, int most, Chance& chance)
{
    chance.shuffle(list);
    return list.first(1 + chance.below(std::min(most, static_cast<int>(list.size()))));
}

/// One or two points that feed every lamphouse, or one for each, or one of them with a second for the first.
void wire(ProjectorModel& model, Chance& chance)
{
    using catalogue::RoleId;
    const auto feed = [&](const QString& id, const QStringList& lamphouses) {
        model.isolation.append({RoleId(id), u"Point "_s + id,
                                static_cast<catalogue::DeviceKind>(chance.below(3)), true, lamphouses});
    };
    const bool isApart = model.lamphouses.size() > 1 && chance.oneIn(3);
    if (isApart) {
        for (const QString& label : model.lamphouses)
            feed(u"feed-"_s + label, {label});
    } else {
        feed(u"feed"_s, model.lamphouses);
    }
    if (chance.oneIn(2)) // where each has a point of its own, a shared second one cannot be proved
        feed(u"aux"_s,
             !isApart && chance.oneIn(2) ? model.lamphouses : QStringList{model.lamphouses.first()});
}

void placeTestPoints(ProjectorModel& model, Chance& chance)
{
    QList<Cover> covers{Cover::None, Cover::Guard};
    if (model.hasHousing)
        covers.append(Cover::Housing);
    const auto add = [&](Cover cover) {
        const QString id = u"test-"_s + QString::number(model.testPoints.size() + 1);
        model.testPoints.append({catalogue::TestPointId(id), u"Studs "_s + id, cover});
    };
    add(model.hasHousing && chance.oneIn(2) ? Cover::Housing : Cover::None);
    for (int more = chance.below(3); more > 0; --more)
        add(chance.any(covers));
}

ProjectorModel randomModel(const QString& number, Chance& chance)
{
    using std::chrono::seconds;
    ProjectorModel model;
    model.id = ModelId(u"made-"_s + number);
    model.maker = u"Nobody's"_s;
    model.name = u"Made "_s + number;
    model.lamphouses = chance.oneIn(3) ? QStringList{u"left"_s, u"right"_s} : QStringList{u"main"_s};
    model.coolFan = seconds(catalogue::kLeastCoolFan.count() + chance.below(900));
    model.coolUnforced = model.coolFan + seconds(chance.below(3000));
    model.bleed = seconds(1 + chance.below(600));
    model.settle = seconds(1 + chance.below(1800));
    model.strikePause = seconds(1 + chance.below(200));
    model.strikeLimit = 1 + chance.below(5);
    model.hasHousing = !chance.oneIn(3);
    model.hasDowser = !chance.oneIn(4);
    wire(model, chance);
    placeTestPoints(model, chance);
    QStringList types;
    for (const catalogue::LampType& type : shippedCatalogue().lampTypes())
        types.append(type.id.text());
    const QStringList taken = someOf(types, 3, chance);
    for (const QString& type : taken)
        model.lampTypes.append(LampTypeId(type));
    if (model.lamphouses.size() == 1 && !chance.oneIn(3)) {
        catalogue::Adaptor adaptor;
        adaptor.end = static_cast<catalogue::LampEnd>(chance.below(2));
        for (const QString& type : someOf(taken, 3, chance))
            adaptor.lampTypes.append(LampTypeId(type));
        model.adaptor = adaptor;
    }
    model.fasteners.append({u"cover"_s, 1 + chance.below(9)});
    QStringList axes{u"along"_s, u"across"_s, u"up"_s};
    for (const QString& axis : someOf(axes, 3, chance))
        model.axes.append({*catalogue::axisFromWord(axis), 0.25 * (1 + chance.below(4))});
    return model;
}

// ---- Captures
// ----------------------------------------------------------------------------------------------

QJsonObject offered(const QString& text, const QString& means)
{
    return {{u"text"_s, text}, {u"means"_s, means}};
}

/// A chosen capture; the first word is the one that lets the step pass.
QJsonObject chosen(const QString& id, const QStringList& means, const QString& kind = u"choice"_s)
{
    QJsonArray choices;
    for (qsizetype index = 0; index < means.size(); ++index)
        choices.append(offered(u"%1 %2"_s.arg(means[index]).arg(index + 1), means[index]));
    return {{u"id"_s, id}, {u"kind"_s, kind}, {u"label"_s, u"What of "_s + id}, {u"choices"_s, choices}};
}

QJsonObject typed(const QString& id, const QString& kind)
{
    return {{u"id"_s, id}, {u"kind"_s, kind}, {u"label"_s, u"What of "_s + id}};
}

/// A capture of a stop: typed, or chosen from so many.
QJsonObject answered(const QString& id, int choices)
{
    if (choices == 0)
        return typed(id, u"answer"_s);
    QStringList means(choices, u"bad"_s);
    means.first() = u"good"_s;
    return chosen(id, means, u"answer"_s);
}

// ---- Steps
// -------------------------------------------------------------------------------------------------

/// A step before it has its place.
struct Draft {
    QString id;
    Phase phase = Phase::Arrive;
    QString effect;
    QJsonArray captures;
    QJsonObject more;  ///< further keys
    QStringList after; ///< ids of steps that have to be done before; those that are not there count as done
};

class Author {
public:
    Author(const ProjectorModel& model, Chance& chance)
        : m_model(model)
        , m_chance(chance)
    {
        arrive();
        makeColdAndDead();
        open();
        exchange();
        shut();
        bookIn();
        light();
        end();
    }

    [[nodiscard]] QList<Draft>& drafts() { return m_drafts; }

    /// One thing that has to come first does not any more.
    void loosen()
    {
        QList<Draft*> bound;
        for (Draft& draft : m_drafts) {
            if (!draft.after.isEmpty())
                bound.append(&draft);
        }
        Draft* draft = m_chance.any(bound);
        draft->after.removeAt(m_chance.below(static_cast<int>(draft->after.size())));
    }

    /// Phase by phase, each step after those that have to come before, else as it comes.
    [[nodiscard]] QJsonObject document(const QString& id)
    {
        QList<Draft> ordered;
        for (Phase phase = Phase::Arrive; phase <= Phase::Sign;
             phase = static_cast<Phase>(static_cast<int>(phase) + 1))
            order(phase, ordered);
        QJsonArray steps;
        bool isInGear = false;
        for (const Draft& draft : ordered) {
            steps.append(stepOf(draft, isInGear));
            isInGear = draft.effect == u"gear-on" || (isInGear && draft.effect != u"gear-off");
        }
        return {{u"kind"_s, u"procedure"_s},
                {u"note"_s, u"Made at random for a test."_s},
                {u"id"_s, id},
                {u"model"_s, m_model.id.text()},
                {u"title"_s, u"Exchange in a "_s + m_model.name},
                {u"steps"_s, steps}};
    }

private:
    Draft& add(const QString& id, Phase phase, const QString& effect, const QStringList& after = {})
    {
        m_drafts.append({id, phase, effect, {}, {}, after});
        return m_drafts.last();
    }

    void order(Phase phase, QList<Draft>& ordered)
    {
        QList<Draft> left;
        for (const Draft& draft : m_drafts) {
            if (draft.phase == phase)
                left.append(draft);
        }
        while (!left.isEmpty()) {
            QList<qsizetype> ready;
            for (qsizetype index = 0; index < left.size(); ++index) {
                const auto waitsFor = [&](const Draft& other) {
                    return left[index].after.contains(other.id);
                };
                if (std::none_of(left.begin(), left.end(), waitsFor))
                    ready.append(index);
            }
            ordered.append(left.takeAt(m_chance.any(ready)));
        }
    }

    QJsonObject stepOf(const Draft& draft, bool isInGear)
    {
        QJsonObject step = draft.more;
        step.insert(u"id"_s, draft.id);
        step.insert(u"phase"_s, wordOf(draft.phase));
        step.insert(u"effect"_s, draft.effect);
        step.insert(u"title"_s, u"Do "_s + draft.id);
        step.insert(u"why"_s, u"Because it is tried."_s);
        step.insert(u"minutes"_s, m_chance.below(6));
        if (m_chance.oneIn(6))
            step.insert(u"danger"_s, QJsonObject{{u"word"_s, u"warning"_s}, {u"text"_s, u"It may hurt."_s}});
        if (m_chance.oneIn(4))
            step.insert(u"tools"_s, QJsonArray{u"screwdriver"_s});
        QJsonArray captures = draft.captures;
        if (!draft.more.contains(u"stop"_s) && m_chance.oneIn(3))
            captures.append(furtherCapture(isInGear));
        if (!captures.isEmpty())
            step.insert(u"captures"_s, captures);
        return step;
    }

    /// Something that no rule reads.
    QJsonObject furtherCapture(bool isInGear)
    {
        static const QStringList kTyped{u"text"_s, u"number"_s, u"counter"_s, u"reading"_s};
        switch (m_chance.below(isInGear ? 3 : 4)) {
        case 0:
            return chosen(u"further"_s, {u"note"_s, u"note"_s});
        case 1: {
            QJsonObject capture = chosen(u"further"_s, {u"good"_s, u"bad"_s, u"note"_s});
            capture.insert(u"optional"_s, m_chance.oneIn(2));
            return capture;
        }
        case 2: {
            QJsonObject capture = typed(u"further"_s, u"picture"_s);
            capture.insert(u"optional"_s, m_chance.oneIn(2));
            return capture;
        }
        default:
            return typed(u"further"_s, m_chance.any(kTyped));
        }
    }

    /// Looks that nobody has to make, some of them for some lamps only.
    void lookAround(Phase phase, int most, const QStringList& after = {})
    {
        for (int count = m_chance.below(most + 1); count > 0; --count) {
            Draft& look = add(u"look-%1"_s.arg(++m_looks), phase, u"look"_s, after);
            look.captures.append(chosen(u"seen"_s, m_chance.oneIn(2) ? QStringList{u"note"_s, u"note"_s}
                                                                     : QStringList{u"good"_s, u"bad"_s}));
            if (m_chance.oneIn(4))
                look.more.insert(u"when"_s, condition());
            if ((phase == Phase::Light || phase == Phase::Prove) && m_chance.oneIn(2))
                look.more.insert(u"may_follow"_s, true);
        }
    }

    QJsonObject condition()
    {
        const QString lamp = m_chance.oneIn(2) ? u"old"_s : u"new"_s;
        switch (m_chance.below(m_model.adaptor ? 3 : 2)) {
        case 0:
            return {{lamp, QJsonObject{{u"types"_s, QJsonArray{m_chance.any(m_model.lampTypes).text()}}}}};
        case 1:
            return {{lamp, QJsonObject{{u"fill"_s, m_chance.oneIn(2) ? u"xenon"_s : u"mercury-xenon"_s}}}};
        default:
            return {{lamp, QJsonObject{{u"adaptor"_s, m_chance.oneIn(2)}}}};
        }
    }

    [[nodiscard]] bool isPair() const { return m_model.lamphouses.size() > 1; }
    /// A point feeds both lamphouses.
    [[nodiscard]] bool isShared() const
    {
        return std::any_of(m_model.isolation.begin(), m_model.isolation.end(),
                           [](const auto& role) { return role.lamphouses.size() > 1; });
    }

    void find(const QString& id, bool isOther)
    {
        Draft& step = add(id, Phase::Arrive, u"find"_s);
        step.captures = {chosen(u"lamp"_s, {u"lit"_s, u"off"_s}),
                         chosen(u"fan"_s, {u"runs"_s, u"still"_s}),
                         chosen(u"projector"_s, {u"on"_s, u"standby"_s, u"off"_s}),
                         chosen(u"extraction"_s, {u"runs"_s, u"still"_s}),
                         chosen(u"guard"_s, {u"shut"_s, u"open"_s}),
                         chosen(u"seat"_s, {u"clamped"_s, u"entered"_s, u"empty"_s}),
                         chosen(u"tag"_s, {u"none"_s, u"out-of-use"_s, u"foreign-lock"_s})};
        if (m_model.hasHousing)
            step.captures.append(chosen(u"housing"_s, {u"shut"_s, u"open"_s}));
        if (m_model.hasDowser)
            step.captures.append(chosen(u"dowser"_s, {u"shut"_s, u"open"_s}));
        for (const catalogue::IsolationRole& role : m_model.isolation)
            step.captures.append(chosen(u"point-"_s + role.id.text(), {u"on"_s, u"off"_s, u"locked"_s}));
        if (isOther)
            step.more.insert(u"other_lamphouse"_s, true);
    }

    void arrive()
    {
        lookAround(Phase::Arrive, 3);
        find(u"find"_s, false);
        if (isPair())
            find(u"find-other"_s, true);
        Draft& match = add(u"match-box"_s, Phase::Arrive, u"match-box"_s);
        match.more.insert(u"lamp"_s, u"new"_s);
        if (m_chance.oneIn(2))
            match.captures = {typed(u"box-type"_s, u"type"_s), typed(u"box-serial"_s, u"serial"_s),
                              typed(u"paper-type"_s, u"type"_s), typed(u"paper-serial"_s, u"serial"_s)};
        add(u"count-opening"_s, Phase::Arrive, u"count-opening"_s);
    }

    /// The points that make one group with the swap's own lamphouse.
    [[nodiscard]] QStringList ownPoints() const
    {
        QStringList points;
        const QString own = m_model.lamphouses.first();
        for (const catalogue::IsolationRole& role : m_model.isolation) {
            if (isShared() || role.lamphouses.contains(own))
                points.append(role.id.text());
        }
        return points;
    }

    void makeColdAndDead()
    {
        const Phase phase = Phase::ColdAndDead;
        m_points = ownPoints();
        lookAround(phase, 1);
        add(u"tell-before"_s, phase, u"tell-before"_s);
        add(u"lamp-off"_s, phase, u"lamp-off"_s).captures.append(chosen(u"fan"_s, {u"runs"_s, u"still"_s}));
        QStringList dark{u"lamp-off"_s};
        if (isPair()) {
            Draft& other = add(u"lamp-off-other"_s, phase, u"lamp-off"_s);
            other.captures.append(chosen(u"fan"_s, {u"runs"_s, u"still"_s}));
            other.more.insert(u"other_lamphouse"_s, true);
            dark.append(other.id);
        }
        add(u"standby"_s, phase, u"standby"_s, dark);
        isolateAndLock(phase);
        add(u"relieve"_s, phase, u"relieve"_s, m_locked)
            .captures.append(chosen(u"began"_s, {u"good"_s, u"bad"_s}));
        add(u"try-start"_s, phase, u"try-start"_s, {u"relieve"_s}).captures = {
            chosen(u"supply"_s, {u"present"_s, u"not-seen"_s}),
            chosen(u"response"_s, {u"no-response"_s, u"started"_s}),
            chosen(u"controls"_s, {u"at-off"_s, u"not-at-off"_s})};
        for (const catalogue::TestPoint& point : m_model.testPoints) {
            if (point.cover == Cover::None)
                prove(point, phase, {u"try-start"_s});
        }
        stop(Stop::ColdAndDead, phase, u"try-start"_s,
             {u"point"_s, u"lock"_s, u"start"_s, u"charge"_s, u"stands"_s, u"tester"_s, u"others"_s,
              u"clear"_s});
        Draft& gear = add(u"gear-on"_s, phase, u"gear-on"_s, {u"stop-cold-and-dead"_s});
        for (const catalogue::GearKind& kind : shippedCatalogue().gear())
            gear.captures.append(chosen(kind.id.text(), {u"good"_s, u"bad"_s}));
        bindToGearOn();
    }

    /// Where something is typed it comes before the gear.
    void bindToGearOn()
    {
        for (Draft& draft : m_drafts) {
            const bool types =
                std::any_of(draft.captures.begin(), draft.captures.end(), [](const auto& capture) {
                    return !capture.toObject().contains(u"choices"_s) &&
                           capture.toObject().value(u"kind"_s) != u"picture"_s;
                });
            Draft& gear = m_drafts.last();
            if (types && draft.phase == gear.phase && draft.id != gear.id)
                gear.after.append(draft.id);
        }
    }

    void isolateAndLock(Phase phase)
    {
        QStringList off;
        for (const QString& point : m_points) {
            Draft& step = add(u"isolate-"_s + point, phase, u"isolate"_s, {u"standby"_s, u"tell-before"_s});
            step.captures = {chosen(u"which"_s, {u"named"_s, u"other-point"_s, u"none-of-ours"_s}),
                             chosen(u"state"_s, {u"off"_s, u"still-live"_s})};
            step.more.insert(u"point"_s, point);
            off.append(step.id);
        }
        for (const QString& point : m_points.size() > 1 ? m_points : QStringList()) {
            Draft& step = add(u"job-lock-"_s + point, phase, u"lock-on"_s, {u"isolate-"_s + point});
            step.captures.append(chosen(u"holds"_s, {u"holds"_s, u"gives-way"_s}));
            step.more.insert(u"point"_s, point);
            m_locked.append(step.id);
        }
        Draft& own = add(u"own-lock"_s, phase, u"lock-on"_s, off);
        own.captures.append(typed(u"lock"_s, u"text"_s));
        if (m_model.isolation.size() == 1 || m_chance.oneIn(3))
            own.captures.append(chosen(u"holds"_s, {u"holds"_s, u"gives-way"_s}));
        m_locked.append(own.id);
    }

    void prove(const catalogue::TestPoint& point, Phase phase, const QStringList& after)
    {
        Draft& step = add(u"prove-"_s + point.id.text(), phase, u"prove-absence"_s, after);
        step.captures = {chosen(u"supply"_s, {u"present"_s, u"not-seen"_s}),
                         chosen(u"before"_s, {u"proved"_s, u"not-proved"_s}),
                         chosen(u"reading"_s, {u"absent"_s, u"voltage"_s, u"unsteady"_s}, u"reading"_s),
                         chosen(u"after"_s, {u"proved"_s, u"not-proved"_s})};
        step.more.insert(u"test_point"_s, point.id.text());
        if (point.cover != Cover::Guard)
            m_proved.append(step.id);
    }

    void stop(Stop stop, Phase phase, const QString& after, QStringList pool)
    {
        Draft& step = add(u"stop-"_s + wordOf(stop), phase, u"look"_s, {after});
        step.more.insert(u"stop"_s, wordOf(stop));
        m_chance.shuffle(pool);
        const int lines = 5 + m_chance.below(static_cast<int>(pool.size()) - 4);
        for (const QString& id : pool.first(lines)) {
            if (stop == Stop::ReadyToOpen)
                step.captures.append(answered(id, 4));
            else
                step.captures.append(answered(id, m_chance.oneIn(2) ? 0 : 2 + m_chance.below(3)));
        }
    }

    void open()
    {
        const Phase phase = Phase::Open;
        lookAround(phase, 1);
        add(u"enter-zone"_s, phase, u"enter-zone"_s);
        QStringList before{u"enter-zone"_s, u"stop-ready-to-open"_s};
        if (m_model.hasHousing) {
            add(u"open-housing"_s, phase, u"open-housing"_s, {u"enter-zone"_s});
            before.append(u"open-housing"_s);
        }
        for (const catalogue::TestPoint& point : m_model.testPoints) {
            if (point.cover == Cover::Housing)
                prove(point, phase, {u"open-housing"_s});
        }
        stop(Stop::ReadyToOpen, phase, u"enter-zone"_s,
             {u"tester"_s, u"gear"_s, u"lock"_s, u"people"_s, u"box"_s, u"clear"_s, u"light"_s});
        add(u"expose-lamp"_s, phase, u"expose-lamp"_s, before + m_proved);
        for (const catalogue::TestPoint& point : m_model.testPoints) {
            if (point.cover == Cover::Guard)
                prove(point, phase, {u"expose-lamp"_s});
        }
    }

    Draft& handle(const QString& id, const QString& effect, const QString& lamp, const QStringList& after)
    {
        Draft& step = add(id, Phase::Swap, effect, after);
        step.more.insert(u"lamp"_s, lamp);
        return step;
    }

    void exchange()
    {
        lookAround(Phase::Swap, 2);
        for (int count = m_chance.below(3); count > 0; --count)
            add(u"work-%1"_s.arg(count), Phase::Swap, u"work-inside"_s);
        handle(u"lamp-out"_s, u"lamp-out"_s, u"old"_s, {});
        if (m_model.adaptor) {
            handle(u"adaptor-off"_s, u"adaptor-off"_s, u"old"_s, {u"lamp-out"_s})
                .more.insert(u"when"_s, QJsonObject{{u"old"_s, QJsonObject{{u"adaptor"_s, true}}}});
        }
        handle(u"box-old"_s, u"box-lamp"_s, u"old"_s, {u"lamp-out"_s, u"adaptor-off"_s});
        handle(u"unbox-new"_s, u"unbox"_s, u"new"_s, {u"box-old"_s}).captures = {
            chosen(u"marking"_s, {u"agrees"_s, u"type-differs"_s, u"serial-differs"_s}),
            chosen(u"bulb"_s, {u"whole"_s, u"marked"_s})};
        if (m_model.adaptor) {
            handle(u"adaptor-on"_s, u"adaptor-on"_s, u"new"_s, {u"unbox-new"_s})
                .more.insert(u"when"_s, QJsonObject{{u"new"_s, QJsonObject{{u"adaptor"_s, true}}}});
        }
        handle(u"lamp-in"_s, u"lamp-in"_s, u"new"_s, {u"unbox-new"_s, u"adaptor-on"_s});
        handle(u"clamp-lamp"_s, u"clamp-lamp"_s, u"new"_s, {u"lamp-in"_s}).captures = {
            chosen(u"polarity"_s, {u"right"_s, u"wrong"_s, u"not-seen"_s}),
            chosen(u"seating"_s, {u"right"_s, u"wrong"_s})};
    }

    void count(const QString& id, const QStringList& after)
    {
        Draft& step = add(id, Phase::Close, u"count"_s, after);
        for (const QString& what : someOf({u"tools"_s, u"fasteners"_s, u"result"_s}, 3, m_chance))
            step.captures.append(chosen(what, {u"same"_s, u"differs"_s}));
    }

    void shut()
    {
        const Phase phase = Phase::Close;
        lookAround(phase, 1);
        add(u"shut-guard"_s, phase, u"shut-guard"_s);
        QStringList isShut{u"shut-guard"_s};
        if (m_model.hasHousing) {
            add(u"shut-housing"_s, phase, u"shut-housing"_s, {u"shut-guard"_s});
            isShut.append(u"shut-housing"_s);
        }
        add(u"leave-zone"_s, phase, u"leave-zone"_s, {u"shut-guard"_s});
        add(u"gear-off"_s, phase, u"gear-off"_s, {u"leave-zone"_s});
        isShut.append(u"gear-off"_s);
        count(u"count-inside"_s, {});
        isShut.append(u"count-inside"_s);
        if (m_chance.oneIn(2)) {
            count(u"count-again"_s, isShut);
            isShut.append(u"count-again"_s);
        }
        stop(Stop::ReadyToStrike, phase, u"gear-off"_s,
             {u"shut"_s, u"count"_s, u"polarity"_s, u"old-lamp"_s, u"stands"_s, u"type"_s, u"seating"_s});
        add(u"own-lock-off"_s, phase, u"lock-off"_s, isShut + QStringList{u"stop-ready-to-strike"_s});
        m_free = {u"own-lock-off"_s};
        for (const QString& point : m_points.size() > 1 ? m_points : QStringList()) {
            add(u"job-lock-off-"_s + point, phase, u"job-lock-off"_s, {u"own-lock-off"_s})
                .more.insert(u"point"_s, point);
            m_free.append(u"job-lock-off-"_s + point);
        }
        QStringList restored;
        for (const catalogue::IsolationRole& role : m_model.isolation) { // the other one's may be found off
            const QString point = role.id.text();
            add(u"restore-"_s + point, phase, u"restore"_s, {u"own-lock-off"_s, u"job-lock-off-"_s + point})
                .more.insert(u"point"_s, point);
            restored.append(u"restore-"_s + point);
        }
        add(u"power-up"_s, phase, u"power-up"_s, restored);
    }

    Phase oneOf(const QList<Phase>& phases) { return m_chance.any(phases); }

    void bookIn()
    {
        Draft& step = add(u"book-in"_s, oneOf({Phase::BookIn, Phase::Light}), u"book-in"_s);
        step.captures.append(typed(u"threshold"_s, u"number"_s));
        if (m_chance.oneIn(2))
            step.captures.append(chosen(u"cause"_s, {u"note"_s, u"note"_s}));
        key(u"key-controller"_s, false);
        add(u"tell-again"_s, oneOf({Phase::Close, Phase::BookIn, Phase::Light}), u"tell-again"_s, m_free);
        add(u"extraction-on"_s, oneOf({Phase::Close, Phase::BookIn, Phase::Light}), u"extraction-on"_s);
        lookAround(Phase::BookIn, 1);
    }

    void key(const QString& id, bool isOther)
    {
        Draft& step = add(id, oneOf({Phase::BookIn, Phase::Light}), u"key-controller"_s);
        step.captures.append(chosen(u"agrees"_s, {u"agrees"_s, u"differs"_s}));
        if (isOther)
            step.more.insert(u"other_lamphouse"_s, true);
    }

    Draft& shine(const QString& id, const QString& effect, const QStringList& after)
    {
        return add(id, Phase::Light, effect, after);
    }

    void strike(const QString& tail, bool isOther)
    {
        const QString shuts = u"dowser-shut"_s + tail;
        const QString strikes = u"strike"_s + tail;
        const QString opens = u"dowser-open"_s + tail;
        if (m_model.hasDowser)
            add(shuts, oneOf({Phase::BookIn, Phase::Light}), u"dowser-shut"_s);
        shine(strikes, u"strike"_s,
              {shuts, u"key-controller"_s + tail, u"book-in"_s, u"tell-again"_s, u"extraction-on"_s})
            .captures.append(chosen(u"result"_s, {u"lit"_s, u"no-light"_s, u"burst"_s}));
        if (m_model.hasDowser)
            shine(opens, u"dowser-open"_s, {strikes});
        for (Draft& draft : m_drafts) {
            if (isOther && (draft.id == shuts || draft.id == strikes || draft.id == opens))
                draft.more.insert(u"other_lamphouse"_s, true);
        }
    }

    void mayFollow(Draft& step)
    {
        if (m_chance.oneIn(2))
            step.more.insert(u"may_follow"_s, true);
    }

    void light()
    {
        strike({}, false);
        if (isShared() && !m_chance.oneIn(3)) { // where nothing is shared, nobody is told of the other one
            key(u"key-controller-other"_s, true);
            strike(u"-other"_s, true);
        }
        const QStringList isLit{u"strike"_s, u"dowser-open"_s};
        for (const catalogue::AxisDrive& drive : m_model.axes) {
            Draft& peak = shine(u"peak-"_s + wordOf(drive.axis), u"peak"_s, isLit);
            peak.more.insert(u"axis"_s, wordOf(drive.axis));
            mayFollow(peak);
        }
        QStringList settled = isLit;
        if (!m_chance.oneIn(3)) {
            mayFollow(shine(u"settle"_s, u"settle"_s, {u"strike"_s}));
            settled.append(u"settle"_s);
        }
        if (!m_chance.oneIn(3))
            mayFollow(shine(u"peak-again"_s, u"peak-again"_s, settled));
        if (!m_chance.oneIn(3))
            mayFollow(add(u"measure-screen"_s, m_chance.oneIn(2) ? Phase::Light : Phase::Prove,
                          u"measure-screen"_s, settled));
        lookAround(Phase::Light, 1);
        lookAround(Phase::Prove, 2);
    }

    void end()
    {
        lookAround(Phase::Account, 1);
        Draft& goes = add(u"old-lamp-goes"_s, Phase::Account, u"look"_s);
        goes.more.insert(u"lamp"_s, u"old"_s);
        goes.captures.append(chosen(u"custody"_s, {u"returned"_s, u"recycled"_s, u"kept-by-site"_s}));
        add(u"sign"_s, Phase::Sign, u"sign"_s);
    }

    const ProjectorModel& m_model;
    Chance& m_chance;
    QList<Draft> m_drafts;
    QStringList m_points;
    QStringList m_locked;
    QStringList m_proved; ///< steps at test points outside the guard
    QStringList m_free;   ///< steps after which no lock hangs
    int m_looks = 0;
};

// ---- Faults
// ------------------------------------------------------------------------------------------------

/// Something that must not get through, and what the proof has to say of it. The words come from what the
/// step is there for: whatever needs it cannot be done when its turn comes, or the end is not as it has to
/// be.
struct Fault {
    const char* name;
    const char16_t* without; ///< what is left out: every step of this effect, or the step of this id
    QStringView flaw;        ///< one or more of them, parted by a bar
};
constexpr Fault kFaults[] = {
    {"no try-start", u"try-start", u"impossible order"},
    {"no lock", u"lock-on", u"impossible order"},
    {"no bleed-down", u"relieve", u"impossible order"},
    {"no absence proved", u"prove-absence", u"impossible order"},
    {"a test point forgotten", u"prove-test-2", u"test point not proved|impossible order"},
    {"breakers left on", u"isolate", u"impossible order"},
    {"nobody told", u"tell-before", u"impossible order"},
    {"no gear", u"gear-on", u"impossible order"},
    {"no count at opening", u"count-opening", u"no count at opening|impossible order"},
    {"not counted back", u"count", u"impossible order"},
    {"guard left open", u"shut-guard", u"impossible order"},
    {"nobody comes out", u"leave-zone", u"impossible order"},
    {"old lamp kept in hand", u"box-lamp", u"impossible order"},
    {"adaptor goes with the old lamp", u"adaptor-off", u"adaptor left on the old lamp|impossible order"},
    {"lamp not clamped", u"clamp-lamp", u"impossible order"},
    {"lock kept on", u"lock-off", u"impossible order"},
    {"box not matched", u"match-box", u"impossible order"},
    {"struck without book-in", u"book-in", u"impossible order"},
    {"struck without read-back", u"key-controller", u"impossible order"},
    {"not signed", u"sign", u"not signed at the end"},
};

/// Whether there was anything to leave out.
bool leaveOut(QList<Draft>& drafts, const Fault& fault)
{
    const QString wanted = QString::fromUtf16(fault.without);
    return drafts.removeIf([&](const Draft& draft) { return draft.effect == wanted || draft.id == wanted; }) >
           0;
}

void write(const QString& path, const QJsonObject& object)
{
    QFile file(path);
    EXPECT_TRUE(file.open(QIODevice::WriteOnly)) << path.toStdString();
    file.write(QJsonDocument(object).toJson());
}

/// What one file was made to be.
struct Made {
    ModelId model;
    const Fault* fault = nullptr;
    bool isLoose = false;
};

/// The words of the flaw that the proof found; the whole reason where the file could not even be read.
QString flawIn(const QString& reason)
{
    for (int flaw = 0; flaw <= static_cast<int>(procedure::Flaw::NotSigned); ++flaw) {
        const QString word = wordOf(static_cast<procedure::Flaw>(flaw));
        if (reason.startsWith(word))
            return word;
    }
    return reason;
}

} // namespace

std::size_t plantedKinds()
{
    return std::size(kFaults);
}

RandomProcedures makeProcedures(int count, std::uint32_t seed)
{
    Chance chance(seed);
    RandomProcedures result;
    const QTemporaryDir folder;
    EXPECT_TRUE(folder.isValid());
    const QDir models(folder.filePath(u"catalogue"_s));
    const QDir procedures(folder.filePath(u"procedures"_s));
    EXPECT_TRUE(models.mkpath(u"."_s) && procedures.mkpath(u"."_s));
    const QDir shipped(sourceFile("resources/catalogue"));
    for (const QString& name : shipped.entryList({u"lamp-*.json"_s, u"gear.json"_s}))
        EXPECT_TRUE(QFile::copy(shipped.filePath(name), models.filePath(name)));

    std::map<QString, Made> made;
    std::size_t turn = 0;
    for (int index = 0; index < count; ++index) {
        const QString number = QString::number(index).rightJustified(5, u'0');
        const ProjectorModel model = randomModel(number, chance);
        Author author(model, chance);
        Made file{model.id, nullptr, false};
        if (chance.oneIn(5)) {
            const Fault& fault = kFaults[turn % std::size(kFaults)]; // each waits for a file that it fits
            if (leaveOut(author.drafts(), fault)) {
                file.fault = &fault;
                ++turn;
                ++result.planted;
                ++result.faults[fault.name];
            }
        } else if (chance.oneIn(4)) {
            author.loosen();
            file.isLoose = true;
        }
        write(models.filePath(u"model-"_s + number + u".json"_s), toJson(model));
        write(procedures.filePath(number + u".json"_s), author.document(u"made-%1-swap"_s.arg(number)));
        made.emplace(number + u".json"_s, file);
    }
    result.made = made.size();

    const auto catalogueLoading = catalogue::loadCatalogue(models.path());
    for (const catalogue::FileRemark& complaint : catalogueLoading.complaints)
        result.wrong = u"%1 %2 %3"_s.arg(complaint.file, complaint.place, complaint.reason).toStdString();
    result.catalogue = catalogueLoading.catalogue;
    result.loading = procedure::loadProcedures(procedures.path(), result.catalogue);
    std::set<QString> refused;
    for (const catalogue::FileRemark& complaint : result.loading.complaints) {
        const QString flaw = flawIn(complaint.reason);
        const Made& file = made.at(complaint.file);
        if (refused.insert(complaint.file).second)
            ++result.flaws[flaw.toStdString()];
        const bool isExpected = file.fault ? file.fault->flaw.split(u'|').contains(flaw) : file.isLoose;
        if (!isExpected && result.wrong.empty())
            result.wrong = (file.fault ? std::string(file.fault->name) : "sound") + ": " +
                           u"%1 %2 %3"_s.arg(complaint.file, complaint.place, complaint.reason).toStdString();
    }
    for (const auto& [name, file] : made) {
        if (file.fault && !refused.contains(name) && result.wrong.empty())
            result.wrong = std::string(file.fault->name) + " was let through: " + name.toStdString();
    }
    return result;
}

} // namespace coldarc::test
