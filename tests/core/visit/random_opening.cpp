#include "tests/core/visit/random_opening.h"

#include "tests/core/visit/night.h"

using namespace Qt::StringLiterals;

namespace coldarc::test {

using namespace visit;

namespace {

class Opener {
private:
    int below(int count) { return static_cast<int>(m_random() % static_cast<unsigned>(count)); }
    bool oneIn(int count) { return below(count) == 0; }
    template<class List>
    auto& any(List& list)
    {
        return list[static_cast<typename List::size_type>(below(static_cast<int>(list.size())))];
    }

public:
    Opener(const RandomProcedures& made, std::mt19937& random)
        : m_made(made)
        , m_random(random)
    {
    }

    Opening open()
    {
        m_opening.visit = VisitId(u"visit-1"_s);
        m_opening.site.site.id = SiteId(u"made-site"_s);
        m_opening.site.site.name = u"Nowhere"_s;
        m_opening.site.site.profile.mayProveAbsence = site::AbsenceProver::Engineer;
        m_opening.weeklyHours = 70;
        m_opening.texts.append({Text::Kind::Gear, m_made.catalogue.gearDocument().text});
        const int projectors = 1 + below(2);
        for (int number = 1; number <= projectors; ++number)
            addProjector(number);
        if (projectors == 2 && oneIn(3))
            shareAPoint();
        if (oneIn(25))
            any(m_opening.site.points).isLockable = false;
        addPeople(1 + below(3));
        return m_opening;
    }

private:
    void addProjector(int number)
    {
        const procedure::Procedure& procedure = any(m_made.loading.procedures);
        const catalogue::ProjectorModel& model = *m_made.catalogue.model(procedure.model);
        const QString tail = u'-' + QString::number(number);
        site::SiteDocument& site = m_opening.site;
        site.screens.push_back({ScreenId(u"screen"_s + tail), u"Screen"_s + tail, 70.0, {}});
        const ProjectorId projector(u"projector"_s + tail);
        site.projectors.push_back({projector, model.id, site.screens.back().id, {}});
        const auto lamphouse = [&](const QString& label) {
            return LamphouseId(u"lamphouse"_s + tail + u'-' + label);
        };
        for (const QString& label : model.lamphouses) {
            const LampId old(u"old"_s + tail + u'-' + label);
            site.lamphouses.push_back({lamphouse(label), projector, label, old});
            if (oneIn(8))
                continue; // nobody knows what is in there
            m_opening.fittedIn.append(lamphouse(label));
            m_opening.fitted.append({old, any(model.lampTypes), u"OLD"_s + tail, 300.0 * below(8)});
        }
        for (const catalogue::IsolationRole& role : model.isolation) {
            site::IsolationPoint point;
            point.id = PointId(u"point"_s + tail + u'-' + role.id.text());
            point.panel = u"B"_s;
            point.circuit = QString::number(site.points.size() + 1);
            point.name = u"panel B, "_s + point.circuit;
            point.isLockable = true;
            for (const QString& label : role.lamphouses)
                point.feeds.push_back({lamphouse(label), role.id});
            site.points.push_back(point);
        }
        m_opening.swaps.append({SwapId(u"swap"_s + tail),
                                lamphouse(model.lamphouses.first()),
                                procedure.id,
                                {LampId(u"new"_s + tail), any(model.lampTypes), u"NEW"_s + tail, 0.0}});
        addTexts(model, procedure.id);
    }

    void addTexts(const catalogue::ProjectorModel& model, const ProcedureId& procedure)
    {
        const auto add = [&](Text::Kind kind, const QByteArray& bytes) {
            if (const Text text{kind, bytes}; !m_opening.texts.contains(text))
                m_opening.texts.append(text);
        };
        add(Text::Kind::Model, m_made.catalogue.document(model.id).text);
        for (const LampTypeId& type : model.lampTypes)
            add(Text::Kind::LampType, m_made.catalogue.document(type).text);
        add(Text::Kind::Procedure, m_made.loading.documents.value(procedure).text);
    }

    /// The last point of the site is the first one: one breaker for both projectors.
    void shareAPoint()
    {
        auto& points = m_opening.site.points;
        points.front().feeds.insert(points.front().feeds.end(), points.back().feeds.begin(),
                                    points.back().feeds.end());
        points.pop_back();
    }

    void addPeople(int count)
    {
        static const QStringList kNames{u"ada"_s, u"ben"_s, u"cai"_s};
        for (int index = 0; index < count; ++index) {
            PersonFacts person;
            person.id = PersonId(kNames[index]);
            person.name = kNames[index];
            person.mayLead = index == 0 || oneIn(2);
            person.role = person.mayLead ? people::Role::Engineer : people::Role::Trainee;
            person.mayProve = person.mayLead;
            person.mayAssist = !person.mayLead;
            person.maySupervise = index > 0 && oneIn(2);
            m_opening.people.append(person);
        }
    }

    const RandomProcedures& m_made;
    std::mt19937& m_random;
    Opening m_opening;
};

} // namespace

Opening randomOpening(const RandomProcedures& made, std::mt19937& random)
{
    return Opener(made, random).open();
}

} // namespace coldarc::test
