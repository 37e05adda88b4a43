#include "ui/lamps/lamps_presenter.h"

#include "core/base/typed_hours.h"
#include "ui/parts/not_written.h"
#include "ui/parts/quantities.h"

#include <QLocale>

#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

QString wordsFor(const lamps::BadStockRow& row)
{
    using Cause = lamps::BadStockRow::Cause;
    const auto line = [&](const QString& why) {
        return LampsPresenter::tr("Line %1: %2").arg(row.line).arg(why);
    };
    switch (row.cause) {
    case Cause::NotThreeFields:
        return line(LampsPresenter::tr("not three cells: %1").arg(row.text));
    case Cause::TypeNotInCatalogue:
        return line(LampsPresenter::tr("the catalogue does not know this type: %1").arg(row.text));
    case Cause::TypeNamesSeveral:
        return line(LampsPresenter::tr("the type could be several: %1").arg(row.text));
    case Cause::SerialMissing:
        return line(LampsPresenter::tr("the serial is missing: %1").arg(row.text));
    case Cause::NoSuchCustody:
        return line(LampsPresenter::tr("neither on-order, in-stock, in-van nor boxed: %1").arg(row.text));
    case Cause::CustodyNotForATable:
        return line(LampsPresenter::tr("a lamp that is fitted, kept or used up does not come by a table: %1")
                        .arg(row.text));
    case Cause::TwiceInTheTable:
        return line(LampsPresenter::tr("this lamp stands further up already: %1").arg(row.text));
    case Cause::KnownAlready:
        return line(LampsPresenter::tr("this lamp is known already: %1").arg(row.text));
    }
    Q_UNREACHABLE();
}

LampsPresenter::LampsPresenter(lamps::LampStore& lamps, const catalogue::Catalogue& catalogue,
                               LampPlaces places, const Clock& clock, IdSource& ids, QObject* parent)
    : QObject(parent)
    , m_lamps(lamps)
    , m_catalogue(catalogue)
    , m_places(std::move(places))
    , m_clock(clock)
    , m_ids(ids)
{
}

void LampsPresenter::setWho(const PersonId& who)
{
    m_who = who;
    refresh();
}

void LampsPresenter::setInHand(std::function<lamps::InHand()> inHand)
{
    m_inHand = std::move(inHand);
}

QString LampsPresenter::nameOf(const lamps::Lamp& lamp) const
{
    const catalogue::LampType* type = m_catalogue.lampType(lamp.type);
    const QString name = type ? type->code : lamp.type.text();
    return lamp.serial.isEmpty() ? name : u"%1, %2"_s.arg(name, lamp.serial);
}

CardLine LampsPresenter::lineOf(const lamps::LampInCustody& lamp, const QString& act,
                                const QString& where) const
{
    const catalogue::LampType* type = m_catalogue.lampType(lamp.lamp.type);
    QStringList sub;
    if (!where.isEmpty())
        sub << where;
    if (type)
        sub << u"%1 %2"_s.arg(type->maker, type->name);
    sub << (lamp.lamp.hours ? hoursText(lamp.lamp.hours->hours(), QLocale()) : tr("hours unknown"));
    const bool isHeld = m_hand.has(lamp.lamp.id);
    if (isHeld)
        sub << tr("an unfinished visit has it in hand");
    return {lamp.lamp.id.text(), nameOf(lamp.lamp), sub.join(u" \u00b7 "_s), isHeld ? QString() : act};
}

QString LampsPresenter::whereOf(const lamps::LampInCustody& lamp) const
{
    using lamps::Custody;
    switch (lamp.custody) {
    case Custody::OnOrder:
        return tr("on order");
    case Custody::InVan:
        return tr("in the van of %1").arg(m_places.person(lamp.holder));
    case Custody::KeptBySite:
        return tr("kept by %1").arg(m_places.site(lamp.site));
    case Custody::Unused:
        return tr("brought for a swap that did not need it");
    case Custody::Burst:
        return tr("burst, in pieces");
    case Custody::Boxed:
        return !lamp.site.isEmpty()     ? tr("at %1").arg(m_places.site(lamp.site))
               : !lamp.holder.isEmpty() ? tr("in the van of %1").arg(m_places.person(lamp.holder))
                                        : QString();
    default:
        return {};
    }
}

/// Wherever else a lamp waits for something to become of it: none is out of sight for good.
void LampsPresenter::fillAway(LampsView& view) const
{
    using lamps::Custody;
    for (const auto& [custody, act] :
         {std::pair(Custody::OnOrder, tr("It came: into the store")),
          std::pair(Custody::InVan, tr("Into the store")), std::pair(Custody::KeptBySite, tr("Into the van")),
          std::pair(Custody::Unused, tr("Into the van")), std::pair(Custody::Burst, tr("Recycled"))}) {
        const auto lamps = m_lamps.in(custody);
        for (const lamps::LampInCustody& lamp : lamps ? *lamps : std::vector<lamps::LampInCustody>()) {
            if (custody != Custody::InVan || lamp.holder != m_who)
                view.away.append(lineOf(lamp, act, whereOf(lamp)));
        }
    }
}

void LampsPresenter::fill(LampsView& view)
{
    m_hand = m_inHand();
    view.van.clear();
    view.stock.clear();
    view.boxed.clear();
    if (const auto van = m_lamps.vanStock(m_who)) {
        for (const lamps::LampInCustody& lamp : *van)
            view.van.append(lineOf(lamp, tr("Into the store")));
    }
    if (const auto stock = m_lamps.in(lamps::Custody::InStock)) {
        for (const lamps::LampInCustody& lamp : *stock)
            view.stock.append(lineOf(lamp, tr("Into the van")));
    }
    if (const auto boxed = m_lamps.in(lamps::Custody::Boxed)) {
        for (const lamps::LampInCustody& lamp : *boxed) {
            view.boxed.append(lineOf(lamp, tr("Returned"), whereOf(lamp)));
            view.boxed.last().otherAct = view.boxed.last().act.isEmpty() ? QString() : tr("Recycled");
        }
    }
    view.away.clear();
    fillAway(view);
    view.noVan =
        view.van.isEmpty() ? tr("No lamp is in your van. Add them one by one, or paste a table.") : QString();
    view.type.label = tr("Type, as printed on the box");
    view.type.options.clear();
    for (const catalogue::LampType& type : m_catalogue.lampTypes())
        view.type.options.append({type.id.text(), type.code});
    view.serial.label = tr("Serial");
    view.hours.label = tr("Hours that it has burnt");
    view.hours.unit = tr("h");
    view.hours.hint = tr("new: 0; empty: nobody knows");
    view.hours.value = u"0"_s;
    view.custody.label = tr("Where");
    view.custody.options = {{lamps::wordOf(lamps::Custody::InVan), tr("in my van")},
                            {lamps::wordOf(lamps::Custody::InStock), tr("in the store")}};
    view.custody.chosen = lamps::wordOf(lamps::Custody::InVan);
    view.paste.title = tr("From a table");
    view.paste.explains =
        tr("One lamp a line: type, serial, custody, parted by tabs or semicolons, without a header. "
           "Custody is on-order, in-stock, in-van or boxed. All of it is taken, or nothing.");
    view.paste.hint = u"HVQ21-40A;HV00123;in-van"_s;
    view.paste.act = tr("Add these lamps");
}

void LampsPresenter::refresh()
{
    LampsView view = m_view;
    fill(view);
    show(view);
}

void LampsPresenter::add(const QString& type, const QString& serial, const QString& hours,
                         const QString& custody)
{
    LampsView view = m_view;
    const auto where = lamps::custodyFromWord(custody);
    view.type.error = type.isEmpty() ? tr("Choose one.") : QString();
    view.serial.error =
        serial.trimmed().isEmpty() ? tr("It is needed: it tells the lamp from its twins.") : QString();
    view.custody.error = where ? QString() : tr("Choose one.");
    const QString wrong = hours.trimmed().isEmpty() ? QString() : howToWriteHours(hours);
    view.hours.error = wrong.isEmpty() ? QString() : tr("Not a figure of hours: %1.").arg(wrong);
    view.message.clear();
    show(view);
    if (type.isEmpty() || !view.serial.error.isEmpty() || !view.hours.error.isEmpty() || !where)
        return;
    lamps::Lamp lamp{LampId(m_ids.next()), LampTypeId(type), serial.trimmed(), {}};
    if (const auto burnt = hoursFrom(hours))
        lamp.hours = lamps::LampHours::fromHours(*burnt);
    lamps::CustodyMove move;
    move.id = lamps::MoveId(m_ids.next());
    move.lamp = lamp.id;
    move.custody = *where;
    if (*where == lamps::Custody::InVan)
        move.holder = m_who;
    move.at = m_clock.now().wall;
    const auto added = m_lamps.add(lamp, move);
    settle(added, tr("Added: %1.").arg(serial.trimmed()));
    if (added && std::holds_alternative<lamps::Moved>(*added)) {
        LampsView emptied = m_view;
        ++emptied.emptied;
        show(emptied);
    }
}

void LampsPresenter::act(const QString& id)
{
    const auto lamp = m_lamps.lamp(LampId(id));
    if (!lamp)
        return settle(tl::unexpected(lamp.error()), {});
    lamps::CustodyMove move = moveOf(lamp->lamp.id);
    QString done;
    switch (lamp->custody) {
    case lamps::Custody::OnOrder:
    case lamps::Custody::InVan:
        move.custody = lamps::Custody::InStock;
        done = tr("%1: moved into the store.");
        break;
    case lamps::Custody::Burst:
        move.custody = lamps::Custody::Recycled;
        done = tr("%1: recycled, by someone trained.");
        break;
    case lamps::Custody::KeptBySite:
    case lamps::Custody::Unused:
    case lamps::Custody::InStock:
        move.custody = lamps::Custody::InVan;
        move.holder = m_who;
        done = tr("%1: moved into your van.");
        break;
    default:
        move.custody = lamps::Custody::Returned;
        done = tr("%1: returned to its maker or dealer.");
        break;
    }
    moved(lamp->lamp, move, done);
}

void LampsPresenter::moved(const lamps::Lamp& lamp, const lamps::CustodyMove& move, const QString& done)
{
    if (m_inHand().has(lamp.id)) { // a visit was opened since the page was looked at
        LampsView view = m_view;
        view.message =
            tr("%1: an unfinished visit has it in hand, and alone says what becomes of it. Nothing was "
               "changed.")
                .arg(nameOf(lamp));
        fill(view);
        return show(view);
    }
    settle(m_lamps.move(move), done.arg(nameOf(lamp)));
}

void LampsPresenter::recycle(const QString& id)
{
    const auto lamp = m_lamps.lamp(LampId(id));
    if (!lamp)
        return settle(tl::unexpected(lamp.error()), {});
    lamps::CustodyMove move = moveOf(lamp->lamp.id);
    move.custody = lamps::Custody::Recycled;
    moved(lamp->lamp, move, tr("%1: recycled, by someone trained."));
}

lamps::CustodyMove LampsPresenter::moveOf(const LampId& lamp) const
{
    lamps::CustodyMove move;
    move.id = lamps::MoveId(m_ids.next());
    move.lamp = lamp;
    move.at = m_clock.now().wall;
    return move;
}

void LampsPresenter::paste(const QString& table)
{
    LampsView view = m_view;
    view.message.clear(); // what became of an earlier press
    view.paste.outcome.clear();
    view.paste.bad.clear();
    const auto import = m_lamps.importStock(lamps::readStockTable(table, m_catalogue.lampTypes()), m_who,
                                            m_clock.now().wall, m_ids);
    if (!import) {
        view.paste.outcome = notWritten(import.error(), tr("Nothing was added."));
        return show(view);
    }
    if (!import->bad.isEmpty()) {
        view.paste.outcome = tr("Nothing was added. These lines have to be put right:");
        for (const lamps::BadStockRow& row : import->bad)
            view.paste.bad << wordsFor(row);
        return show(view);
    }
    view.paste.outcome = import->imported == 0   ? tr("There was no line in it.")
                         : import->imported == 1 ? tr("1 lamp was added.")
                                                 : tr("%1 lamps were added.").arg(import->imported);
    ++view.paste.taken;
    fill(view);
    show(view);
    Q_EMIT lampsChanged();
}

void LampsPresenter::settle(const Result<lamps::MoveAnswer>& outcome, const QString& done)
{
    LampsView view = m_view;
    view.paste.outcome.clear();
    view.paste.bad.clear();
    const bool isDone = outcome && std::holds_alternative<lamps::Moved>(*outcome);
    if (isDone) {
        view.message = done;
    } else if (outcome) {
        view.message = tr("The lamp is somewhere else by now. Nothing was changed; look again.");
    } else {
        view.message = outcome.error().kind == Error::Kind::Conflict
                           ? tr("A lamp of this type and serial is known already. Nothing was added.")
                           : notWritten(outcome.error(), tr("Nothing was changed."));
    }
    fill(view);
    show(view);
    if (isDone)
        Q_EMIT lampsChanged();
}

void LampsPresenter::show(LampsView view)
{
    if (view == m_view)
        return;
    m_view = std::move(view);
    Q_EMIT viewChanged(m_view);
}

} // namespace coldarc::ui
