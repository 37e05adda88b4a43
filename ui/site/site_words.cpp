#include "ui/site/site_words.h"

#include <QCoreApplication>
#include <QDateTime>

#include <algorithm>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr auto kMomentForm = u"yyyy-MM-dd HH:mm";

QString tr(const char* text)
{
    return QCoreApplication::translate("site", text);
}

QString nameOfPoint(const site::SiteDocument& document, const QString& id)
{
    const site::IsolationPoint* point = document.point(PointId(id));
    return point ? point->name : id;
}

QString nameOfProjector(const site::SiteDocument& document, const QString& id)
{
    const site::Projector* projector = document.projector(ProjectorId(id));
    const site::Screen* screen = projector ? document.screen(projector->screen) : nullptr;
    if (!screen)
        return id;
    return projector->label.isEmpty() ? screen->name : u"%1, %2"_s.arg(screen->name, projector->label);
}

QString lamphouseWords(const site::SiteDocument& document, const QString& id)
{
    return nameOfLamphouse(document, LamphouseId(id));
}

QString nameOfRole(const site::SiteDocument& document, const catalogue::Catalogue& catalogue,
                   const QString& lamphouse, const QString& role)
{
    const site::Lamphouse* house = document.lamphouse(LamphouseId(lamphouse));
    const site::Projector* projector = house ? document.projector(house->projector) : nullptr;
    const catalogue::ProjectorModel* model = projector ? catalogue.model(projector->model) : nullptr;
    const auto found = model ? model->role(catalogue::RoleId(role)) : std::nullopt;
    return found ? found->name : role;
}

} // namespace

QString nameOfModel(const catalogue::Catalogue& catalogue, const ModelId& id)
{
    const catalogue::ProjectorModel* model = catalogue.model(id);
    return model ? u"%1 %2"_s.arg(model->maker, model->name) : id.text();
}

QString nameOfLamphouse(const site::SiteDocument& document, const LamphouseId& id)
{
    const QString place = site::placeOf(document, id);
    return place.isEmpty() ? id.text() : place;
}

QString wordsFor(site::AbsenceProver prover)
{
    switch (prover) {
    case site::AbsenceProver::Engineer:
        return tr("whoever leads the swap");
    case site::AbsenceProver::Qualified:
        return tr("whoever is authorised to prove it");
    case site::AbsenceProver::Electrician:
        return tr("an electrician only");
    }
    Q_UNREACHABLE();
}

QString wordsFor(const site::Problem& problem, const site::SiteDocument& document,
                 const catalogue::Catalogue& catalogue)
{
    using Kind = site::Problem::Kind;
    switch (problem.kind) {
    case Kind::DoubledId:
        return tr("Two parts of the site have the same id, %1.").arg(problem.about);
    case Kind::UnknownScreen:
        return tr("%1 stands at a screen that is not there.").arg(nameOfProjector(document, problem.about));
    case Kind::UnknownProjector:
        return tr("A lamphouse belongs to a projector that is not there.");
    case Kind::UnknownLamphouse:
        return tr("%1 feeds a lamphouse that is not there.").arg(nameOfPoint(document, problem.about));
    case Kind::DoubledFeed:
        return tr("%1 feeds %2 twice.")
            .arg(nameOfPoint(document, problem.about), lamphouseWords(document, problem.other));
    case Kind::FeedsNothing:
        return tr("%1 feeds nothing.").arg(nameOfPoint(document, problem.about));
    case Kind::NoPoint:
        return tr("%1: no breaker is known that feeds it.").arg(lamphouseWords(document, problem.about));
    case Kind::NoLamphouse:
        return tr("%1 has no lamphouse.").arg(nameOfProjector(document, problem.about));
    case Kind::LampFittedTwice:
        return tr("One lamp is said to be in two lamphouses.");
    case Kind::UnknownModel:
        return tr("%1 is a model that the catalogue does not know: %2.")
            .arg(nameOfProjector(document, problem.about), problem.other);
    case Kind::NotAModelLamphouse:
        return tr("%1: its model has no lamphouse of the name \u201c%2\u201d.")
            .arg(lamphouseWords(document, problem.about), problem.other);
    case Kind::DoubledLabel:
        return tr("%1 has two lamphouses \u201c%2\u201d.")
            .arg(nameOfProjector(document, problem.about), problem.other);
    case Kind::MissingLamphouse:
        return tr("%1: the lamphouse \u201c%2\u201d of its model is missing.")
            .arg(nameOfProjector(document, problem.about), problem.other);
    case Kind::UnknownRole:
        return tr("%1: its model knows no supply \u201c%2\u201d.")
            .arg(lamphouseWords(document, problem.about), problem.other);
    case Kind::DoubledRole:
        return tr("%1: two breakers are known for its %2. Change the wrong one to the right one: then they "
                  "are one.")
            .arg(lamphouseWords(document, problem.about),
                 nameOfRole(document, catalogue, problem.about, problem.other));
    case Kind::UncoveredRole:
        return tr("%1: no breaker is known for its %2.")
            .arg(lamphouseWords(document, problem.about),
                 nameOfRole(document, catalogue, problem.about, problem.other));
    }
    Q_UNREACHABLE();
}

QString wordsFor(const site::BadRow& row)
{
    using Why = site::BadRow::Why;
    const QString place =
        row.column.isEmpty() ? tr("Line %1").arg(row.line) : tr("Line %1, %2").arg(row.line).arg(row.column);
    switch (row.why) {
    case Why::Empty:
        return tr("There is no line of data.");
    case Why::MissingColumn:
        return tr("%1: this column is needed.").arg(place);
    case Why::UnknownColumn:
        return tr("%1: no such column is known.").arg(place);
    case Why::DoubledColumn:
        return tr("%1: this column is there twice.").arg(place);
    case Why::OpenQuote:
        return tr("%1: a quoted cell does not end.").arg(place);
    case Why::TooManyCells:
        return tr("%1: more cells than the header has.").arg(place);
    case Why::EmptyCell:
        return tr("%1: empty.").arg(place);
    case Why::NotYesOrNo:
        return tr("%1: neither yes nor no.").arg(place);
    case Why::NotHours:
        return tr("%1: not a number of hours from 0 to 168.").arg(place);
    case Why::Contradiction:
        return tr("%1: it says otherwise than an earlier line, or than the site so far.").arg(place);
    case Why::Repetition:
        return tr("%1: this lamphouse hangs on this breaker already.").arg(place);
    }
    Q_UNREACHABLE();
}

std::optional<WallTime> momentFromText(const QString& text, const QTimeZone& zone)
{
    QDateTime moment = QDateTime::fromString(text.trimmed(), QString::fromUtf16(kMomentForm));
    if (!moment.isValid())
        return std::nullopt;
    moment.setTimeZone(zone);
    return WallTime(std::chrono::milliseconds(moment.toMSecsSinceEpoch()));
}

QString momentText(WallTime moment, const QTimeZone& zone)
{
    return QDateTime::fromMSecsSinceEpoch(msOf(moment), zone).toString(QString::fromUtf16(kMomentForm));
}

} // namespace coldarc::ui
