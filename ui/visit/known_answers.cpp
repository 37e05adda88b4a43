#include "ui/visit/known_answers.h"

#include <QCoreApplication>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using machine::Effect;

constexpr qsizetype kMostOffered = 8; // one number key each, and one for something else

QString words(const char* text)
{
    return QCoreApplication::translate("steps", text);
}

QList<CaptureView::Option> contactsOf(const visit::VisitState& state)
{
    QList<CaptureView::Option> options;
    for (const site::Contact& contact : state.ground->opening.site.site.contacts) {
        const QString text =
            contact.role.isEmpty() ? contact.name : u"%1, %2"_s.arg(contact.name, contact.role);
        options.append({contact.name, text, {}});
    }
    return options;
}

QList<CaptureView::Option> typesFor(const visit::VisitState& state, const visit::SwapState& swap)
{
    QList<CaptureView::Option> options;
    for (const LampTypeId& id : state.ground->model(swap.lamphouse).lampTypes) {
        if (const catalogue::LampType* type = state.ground->catalogue.lampType(id))
            options.append({type->code, type->code, {}});
    }
    return options;
}

/// The breakers of each lamphouse of the site, those of this one among them wherever they stand in the list.
QList<CaptureView::Option> pointsAround(const visit::VisitState& state, const visit::SwapState& swap)
{
    const site::SiteDocument& site = state.ground->opening.site;
    const auto namesOf = [&](const LamphouseId& lamphouse) {
        QStringList names;
        for (const PointId& point : site.pointsFeeding(lamphouse))
            names.append(site.point(point)->name);
        return names.join(u"; "_s);
    };
    const QString here = namesOf(state.ground->lamphouses[swap.lamphouse]);
    QStringList known;
    for (const site::Lamphouse& lamphouse : site.lamphouses) {
        const QString names = namesOf(lamphouse.id);
        const bool isRoom = known.size() + (known.contains(here) ? 0 : 1) < kMostOffered;
        if (!names.isEmpty() && !known.contains(names) && (names == here || isRoom))
            known.append(names);
    }
    QList<CaptureView::Option> options;
    for (const QString& names : known)
        options.append({names, names, {}});
    return options;
}

bool tellsPeople(const procedure::Step& step)
{
    return step.effect == Effect::TellBefore || step.effect == Effect::TellAgain;
}

bool readsType(const procedure::Step& step)
{
    return step.effect == Effect::KeyController || step.stop == procedure::Stop::ReadyToStrike;
}

} // namespace

QString somethingElse()
{
    return u"(something else)"_s;
}

void offerKnown(QList<CaptureView>& captures, const procedure::Step& step, const visit::VisitState& state,
                const visit::SwapState& swap, const QSet<QString>& written)
{
    for (CaptureView& capture : captures) {
        if (capture.kind != CaptureView::Kind::Text || written.contains(capture.id))
            continue;
        QList<CaptureView::Option> known;
        if (capture.id == u"who" && tellsPeople(step))
            known = contactsOf(state);
        if (capture.id == u"point" && step.stop)
            known = pointsAround(state, swap);
        if (capture.id == u"type" && readsType(step))
            known = typesFor(state, swap);
        if (known.isEmpty())
            continue;
        capture.kind = CaptureView::Kind::Choice;
        capture.options = known.mid(0, kMostOffered);
        capture.options.append({somethingElse(), words("Something else"), {}});
    }
}

} // namespace coldarc::ui
