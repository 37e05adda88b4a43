#include "ui/people/people_words.h"

#include <QCoreApplication>
#include <QDateTime>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

QString tr(const char* text)
{
    return QCoreApplication::translate("people", text);
}

} // namespace

QString wordFor(people::Role role)
{
    switch (role) {
    case people::Role::Engineer:
        return tr("engineer");
    case people::Role::Trainee:
        return tr("trainee");
    case people::Role::Supervisor:
        return tr("supervisor");
    case people::Role::Electrician:
        return tr("electrician");
    }
    Q_UNREACHABLE();
}

QString wordFor(people::Duty duty)
{
    switch (duty) {
    case people::Duty::LampSwap:
        return tr("swaps lamps");
    case people::Duty::ProveAbsence:
        return tr("proves absence of voltage");
    case people::Duty::Supervise:
        return tr("supervises");
    }
    Q_UNREACHABLE();
}

QString wordFor(people::GearRefusal refusal)
{
    switch (refusal) {
    case people::GearRefusal::Damaged:
        return tr("damaged");
    case people::GearRefusal::PastItsMonth:
        return tr("past its last month");
    case people::GearRefusal::WithdrawnAtInspection:
        return tr("withdrawn at an inspection");
    case people::GearRefusal::DatesContradict:
        return tr("its dates contradict each other");
    }
    Q_UNREACHABLE();
}

QString standingOf(const people::Authorisation& authorisation, people::Day today)
{
    if (authorisation.withdrawnOn && *authorisation.withdrawnOn <= today)
        return tr("withdrawn on %1").arg(people::isoText(*authorisation.withdrawnOn));
    if (today < authorisation.from)
        return tr("holds from %1").arg(people::isoText(authorisation.from));
    if (authorisation.until < today)
        return tr("ended on %1").arg(people::isoText(authorisation.until));
    return tr("holds until %1").arg(people::isoText(authorisation.until));
}

QString wordFor(people::Authority::Verdict verdict)
{
    switch (verdict) {
    case people::Authority::Verdict::Valid:
        return tr("authorised");
    case people::Authority::Verdict::UnderSupervision:
        return tr("only beside somebody authorised");
    case people::Authority::Verdict::Expired:
        return tr("the authorisation has ended");
    case people::Authority::Verdict::NotYet:
        return tr("the authorisation has not begun");
    case people::Authority::Verdict::Withdrawn:
        return tr("the authorisation was withdrawn");
    case people::Authority::Verdict::OtherModel:
        return tr("authorised for other models only");
    case people::Authority::Verdict::None:
        return tr("not authorised to swap lamps");
    case people::Authority::Verdict::Retired:
        return tr("no longer works here");
    case people::Authority::Verdict::RoleNever:
        return tr("nobody in this role may do this");
    }
    Q_UNREACHABLE();
}

QString inGroups(const QString& thumbprint)
{
    constexpr qsizetype kGroup = 4;
    QStringList groups;
    for (qsizetype at = 0; at < thumbprint.size(); at += kGroup)
        groups.append(thumbprint.mid(at, kGroup));
    return groups.join(u' ');
}

} // namespace coldarc::ui
