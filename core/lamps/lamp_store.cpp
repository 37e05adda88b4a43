#include "core/lamps/lamp_store.h"

#include "core/label/normalise.h"

#include <algorithm>
#include <iterator>

using namespace Qt::StringLiterals;

namespace coldarc::lamps {

namespace {

using store::Bindings;
using store::Row;

template<class T>
QVariant hoursOrNull(const std::optional<T>& hours)
{
    return hours ? QVariant(hours->hours()) : store::sqlNull();
}

template<class T>
std::optional<T> hoursIn(const Row& row, QStringView column)
{
    return row.isNull(column) ? std::nullopt : std::optional(T::fromHours(row.number(column)));
}

template<class T>
std::optional<T> idIn(const Row& row, QStringView column)
{
    return row.isNull(column) ? std::nullopt : std::optional(T(row.text(column)));
}

template<class T>
QVariant textOrNull(const std::optional<T>& id)
{
    return id ? QVariant(id->text()) : store::sqlNull();
}

Result<void> withoutAnswer(const Result<store::Answer>& answer)
{
    if (!answer)
        return tl::unexpected(answer.error());
    return {};
}

template<class T, class Make>
Result<std::vector<T>> listOf(const Result<store::Answer>& answer, Make make)
{
    if (!answer)
        return tl::unexpected(answer.error());
    std::vector<T> list;
    std::ranges::transform(answer->rows, std::back_inserter(list), make);
    return list;
}

/// Whether a statement that only asks found anything.
Result<bool> foundAny(const Result<store::Answer>& answer)
{
    if (!answer)
        return tl::unexpected(answer.error());
    return !answer->rows.empty();
}

LampInCustody lampIn(const Row& row)
{
    return {{LampId(row.text(u"lamp_id")), LampTypeId(row.text(u"lamp_type_id")), row.text(u"serial"),
             hoursIn<LampHours>(row, u"run_h")},
            custodyFromWord(row.text(u"custody")).value_or(Custody::InStock),
            PersonId(row.text(u"holder_id")),
            SiteId(row.text(u"site_id"))};
}

CustodyMove moveIn(const Row& row)
{
    return {MoveId(row.text(u"move_id")),
            LampId(row.text(u"lamp_id")),
            custodyFromWord(row.text(u"custody")).value_or(Custody::InStock),
            PersonId(row.text(u"holder_id")),
            SiteId(row.text(u"site_id")),
            wallOf(row.whole(u"moved_at_ms")),
            idIn<MoveId>(row, u"corrects_id")};
}

Fit fitIn(const Row& row)
{
    Fit fit{FitId(row.text(u"fit_id")),
            LampId(row.text(u"lamp_id")),
            LamphouseId(row.text(u"lamphouse_id")),
            hoursIn<CounterHours>(row, u"counter_in_h"),
            wallOf(row.whole(u"fitted_at_ms")),
            std::nullopt};
    if (row.isNull(u"removed_at_ms"))
        return fit;
    Fit::End end{hoursIn<CounterHours>(row, u"counter_out_h"), wallOf(row.whole(u"removed_at_ms")),
                 causeFromWord(row.text(u"cause")).value_or(Cause::Other), std::nullopt,
                 hoursIn<LampHours>(row, u"run_h")};
    if (!row.isNull(u"reset_last_before_h"))
        end.reset = CounterReset{CounterHours::fromHours(row.number(u"reset_last_before_h")),
                                 CounterHours::fromHours(row.number(u"reset_first_after_h"))};
    fit.end = end;
    return fit;
}

CounterReading readingIn(const Row& row)
{
    return {CounterReadingId(row.text(u"reading_id")), LamphouseId(row.text(u"lamphouse_id")),
            CounterHours::fromHours(row.number(u"counter_h")), wallOf(row.whole(u"read_at_ms")),
            idIn<CounterReadingId>(row, u"corrects_id")};
}

// Nothing where a part of it is not known.
std::optional<std::variant<LampHours, CounterQuestion>> ranIn(const Fit& fit, const Removal& removal)
{
    if (!fit.counterIn || !removal.counterOut)
        return std::nullopt;
    Counters counters{*fit.counterIn, *removal.counterOut, removal.reset, std::nullopt};
    if (removal.against == Removal::Against::WallClock && removal.to >= fit.from)
        counters.stay = removal.to - fit.from;
    return hoursRun(counters);
}

MoveNotAllowed notAllowed(const std::vector<CustodyMove>& past, Custody to)
{
    MoveNotAllowed answer{std::nullopt, to};
    if (!past.empty())
        answer.from = past.back().custody;
    return answer;
}

bool isOfASeat(Custody custody)
{
    return custody == Custody::Fitted;
}

} // namespace

std::vector<CounterPoint> counterPoints(const std::vector<CounterReading>& readings)
{
    using Weeks = std::chrono::duration<double, std::chrono::weeks::period>;
    std::vector<CounterPoint> points;
    for (const CounterReading& reading : readings)
        points.push_back({Weeks(reading.at.time_since_epoch()).count(), reading.hours.hours()});
    return points;
}

Result<void> LampStore::insertLamp(const Lamp& lamp, WallTime at)
{
    const auto added = m_database->run(
        u"INSERT INTO lamp (lamp_id, lamp_type_id, hours_before_h, entered_at_ms) VALUES (:lamp, :type, :hours, :at)"_s,
        {{u":lamp"_s, lamp.id.text()},
         {u":type"_s, lamp.type.text()},
         {u":hours"_s, hoursOrNull(lamp.hours)},
         {u":at"_s, msOf(at)}});
    if (!added)
        return tl::unexpected(added.error());
    return readSerial(lamp.id, lamp.serial, at);
}

Result<void> LampStore::readSerial(const LampId& lamp, const QString& serial, WallTime at)
{
    return withoutAnswer(m_database->run(
        u"INSERT INTO lamp_serial (lamp_id, serial, serial_key, read_at_ms) VALUES (:lamp, :serial, :key, :at)"_s,
        {{u":lamp"_s, lamp.text()},
         {u":serial"_s, serial},
         {u":key"_s, label::normalise(serial)},
         {u":at"_s, msOf(at)}}));
}

Result<void> LampStore::insertMove(const CustodyMove& move)
{
    return withoutAnswer(m_database->run(
        u"INSERT INTO custody_move (move_id, lamp_id, custody, holder_id, site_id, moved_at_ms, corrects_id) "
        "VALUES (:move, :lamp, :custody, :holder, :site, :at, :corrects)"_s,
        {{u":move"_s, move.id.text()},
         {u":lamp"_s, move.lamp.text()},
         {u":custody"_s, wordOf(move.custody)},
         {u":holder"_s, move.holder.text()},
         {u":site"_s, move.site.text()},
         {u":at"_s, msOf(move.at)},
         {u":corrects"_s, textOrNull(move.corrects)}}));
}

Result<void> LampStore::insertFit(const Fit& fit)
{
    return withoutAnswer(
        m_database->run(u"INSERT INTO fit (fit_id, lamp_id, lamphouse_id, counter_in_h, fitted_at_ms) "
                        "VALUES (:fit, :lamp, :lamphouse, :counter, :at)"_s,
                        {{u":fit"_s, fit.id.text()},
                         {u":lamp"_s, fit.lamp.text()},
                         {u":lamphouse"_s, fit.lamphouse.text()},
                         {u":counter"_s, hoursOrNull(fit.counterIn)},
                         {u":at"_s, msOf(fit.from)}}));
}

Result<MoveAnswer> LampStore::add(const Lamp& lamp, const CustodyMove& first)
{
    if (isOfASeat(first.custody) || !canBeginAs(first.custody))
        return MoveNotAllowed{std::nullopt, first.custody};
    return m_database->transaction([&]() -> Result<MoveAnswer> {
        if (auto added = insertLamp(lamp, first.at); !added)
            return tl::unexpected(added.error());
        CustodyMove move = first;
        move.lamp = lamp.id;
        move.corrects.reset();
        if (auto moved = insertMove(move); !moved)
            return tl::unexpected(moved.error());
        return Moved{};
    });
}

Result<void> LampStore::addFitted(const Lamp& lamp, const Fit& fit, const MoveId& move)
{
    return m_database->transaction([&]() -> Result<void> {
        if (auto added = insertLamp(lamp, fit.from); !added)
            return added;
        if (auto moved = insertMove({move, lamp.id, Custody::Fitted, {}, {}, fit.from}); !moved)
            return moved;
        Fit found = fit;
        found.lamp = lamp.id;
        return insertFit(found);
    });
}

Result<MoveAnswer> LampStore::move(const CustodyMove& move)
{
    return m_database->transaction([&]() -> Result<MoveAnswer> {
        auto past = moves(move.lamp);
        if (!past)
            return tl::unexpected(past.error());
        if (past->empty() || (move.corrects && *move.corrects != past->back().id))
            return fail(Error::Kind::Conflict,
                        u"custody move %1: not the last one of its lamp"_s.arg(move.id.text()));
        const Custody last = past->back().custody;
        if (move.corrects)
            past->pop_back();
        const bool allowed =
            past->empty() ? canBeginAs(move.custody) : canMove(past->back().custody, move.custody);
        if (!allowed || isOfASeat(move.custody) || isOfASeat(last))
            return notAllowed(*past, move.custody);
        if (auto moved = insertMove(move); !moved)
            return tl::unexpected(moved.error());
        return Moved{};
    });
}

Result<MoveAnswer> LampStore::beginFit(const Fit& fit, const MoveId& move)
{
    return m_database->transaction([&]() -> Result<MoveAnswer> {
        const auto now = lamp(fit.lamp);
        if (!now)
            return tl::unexpected(now.error());
        if (!canMove(now->custody, Custody::Fitted))
            return MoveNotAllowed{now->custody, Custody::Fitted};
        if (auto begun = insertFit(fit); !begun)
            return tl::unexpected(begun.error());
        if (auto moved = insertMove({move, fit.lamp, Custody::Fitted, {}, {}, fit.from}); !moved)
            return tl::unexpected(moved.error());
        return Moved{};
    });
}

Result<void> LampStore::endOnly(const Removal& removal, const std::optional<LampHours>& run)
{
    const auto resetTo = [&](CounterHours CounterReset::*part) {
        return removal.reset ? QVariant(((*removal.reset).*part).hours()) : store::sqlNull();
    };
    return withoutAnswer(m_database->run(
        u"INSERT INTO fit_end (fit_id, counter_out_h, removed_at_ms, cause, reset_last_before_h, "
        "reset_first_after_h, run_h) VALUES (:fit, :counter, :at, :cause, :before, :after, :run)"_s,
        {{u":fit"_s, removal.fit.text()},
         {u":counter"_s, hoursOrNull(removal.counterOut)},
         {u":at"_s, msOf(removal.to)},
         {u":cause"_s, wordOf(removal.cause)},
         {u":before"_s, resetTo(&CounterReset::lastBefore)},
         {u":after"_s, resetTo(&CounterReset::firstAfter)},
         {u":run"_s, hoursOrNull(run)}}));
}

Result<RemovalAnswer> LampStore::endFit(const Removal& removal, const CustodyMove& move)
{
    return m_database->transaction([&]() -> Result<RemovalAnswer> {
        const auto fits =
            fitsOf(u"SELECT fit.*, fit_end.* FROM fit LEFT JOIN fit_end ON fit_end.fit_id = fit.fit_id "
                   "WHERE fit.fit_id = :id"_s,
                   {{u":id"_s, removal.fit.text()}});
        if (!fits)
            return tl::unexpected(fits.error());
        if (fits->empty())
            return fail(Error::Kind::NotFound, u"no fit %1"_s.arg(removal.fit.text()));
        const Fit& fit = fits->front();
        if (!canMove(Custody::Fitted, move.custody))
            return MoveNotAllowed{Custody::Fitted, move.custody};
        const auto ran = ranIn(fit, removal);
        if (ran && std::holds_alternative<CounterQuestion>(*ran))
            return std::get<CounterQuestion>(*ran);
        const auto run = ran ? std::optional(std::get<LampHours>(*ran)) : std::nullopt;

        if (auto ended = endOnly(removal, run); !ended)
            return tl::unexpected(ended.error());
        CustodyMove out = move;
        out.lamp = fit.lamp;
        out.corrects.reset();
        if (auto moved = insertMove(out); !moved)
            return tl::unexpected(moved.error());
        return Removed{run};
    });
}

Result<void> LampStore::addReading(const CounterReading& reading)
{
    return withoutAnswer(m_database->run(
        u"INSERT INTO counter_reading (reading_id, lamphouse_id, counter_h, read_at_ms, corrects_id) "
        "VALUES (:reading, :lamphouse, :hours, :at, :corrects)"_s,
        {{u":reading"_s, reading.id.text()},
         {u":lamphouse"_s, reading.lamphouse.text()},
         {u":hours"_s, reading.hours.hours()},
         {u":at"_s, msOf(reading.at)},
         {u":corrects"_s, textOrNull(reading.corrects)}}));
}

Result<std::optional<LampId>> LampStore::ofTypeWithSerial(const LampTypeId& type, const QString& serial) const
{
    const QString key = label::normalise(serial);
    if (key.isEmpty())
        return std::nullopt;
    const auto found =
        m_database->run(u"SELECT lamp_id FROM lamp_now WHERE lamp_type_id = :type AND serial_key = :key"_s,
                        {{u":type"_s, type.text()}, {u":key"_s, key}});
    if (!found)
        return tl::unexpected(found.error());
    return found->rows.empty() ? std::nullopt : std::optional(LampId(found->rows.front().text(u"lamp_id")));
}

Result<StockImport> LampStore::importStock(const StockTable& table, const PersonId& holder, WallTime at,
                                           IdSource& ids)
{
    return m_database->transaction([&]() -> Result<StockImport> {
        StockImport import{0, table.bad};
        for (const StockRow& row : table.rows) {
            const auto known = ofTypeWithSerial(row.type, row.serial);
            if (!known)
                return tl::unexpected(known.error());
            if (*known)
                import.bad.append({row.line, BadStockRow::Cause::KnownAlready, row.serial});
        }
        std::ranges::sort(import.bad, {}, &BadStockRow::line);
        if (!import.bad.isEmpty())
            return import;
        for (const StockRow& row : table.rows) {
            const Lamp lamp{LampId(ids.next()), row.type, row.serial,
                            row.custody == Custody::Boxed ? std::nullopt : std::optional(LampHours())};
            const PersonId person = row.custody == Custody::InVan ? holder : PersonId();
            const auto added = add(lamp, {MoveId(ids.next()), lamp.id, row.custody, person, {}, at});
            if (!added)
                return tl::unexpected(added.error());
            ++import.imported;
        }
        return import;
    });
}

Result<std::vector<LampInCustody>> LampStore::lampsOf(const QString& sql,
                                                      const store::Bindings& bindings) const
{
    return listOf<LampInCustody>(m_database->run(sql, bindings), lampIn);
}

Result<std::vector<Fit>> LampStore::fitsOf(const QString& sql, const store::Bindings& bindings) const
{
    return listOf<Fit>(m_database->run(sql, bindings), fitIn);
}

Result<LampInCustody> LampStore::lamp(const LampId& id) const
{
    const auto found = lampsOf(u"SELECT * FROM lamp_now WHERE lamp_id = :lamp"_s, {{u":lamp"_s, id.text()}});
    if (!found)
        return tl::unexpected(found.error());
    if (found->empty())
        return fail(Error::Kind::NotFound, u"no lamp %1"_s.arg(id.text()));
    return found->front();
}

Result<std::vector<LampInCustody>> LampStore::in(Custody custody) const
{
    return lampsOf(u"SELECT * FROM lamp_now WHERE custody = :custody ORDER BY lamp_type_id, serial"_s,
                   {{u":custody"_s, wordOf(custody)}});
}

Result<std::vector<LampInCustody>> LampStore::vanStock(const PersonId& holder) const
{
    return lampsOf(u"SELECT * FROM lamp_now WHERE custody = 'in-van' AND holder_id = :holder "
                   "ORDER BY lamp_type_id, serial"_s,
                   {{u":holder"_s, holder.text()}});
}

Result<std::vector<LampInCustody>> LampStore::withSerial(const QString& part, int most) const
{
    return lampsOf(u"SELECT lamp_now.* FROM lamp_now JOIN lamp USING (lamp_id) "
                   "WHERE instr(lamp_now.serial_key, :part) > 0 "
                   "ORDER BY lamp.entered_at_ms DESC, lamp_id LIMIT :most"_s,
                   {{u":part"_s, label::normalise(part)}, {u":most"_s, most}});
}

Result<std::vector<CustodyMove>> LampStore::moves(const LampId& lamp) const
{
    return listOf<CustodyMove>(
        m_database->run(
            u"SELECT * FROM custody_move WHERE lamp_id = :lamp AND NOT EXISTS (SELECT 1 FROM custody_move "
            "AS correction WHERE correction.corrects_id = custody_move.move_id) ORDER BY custody_move_id"_s,
            {{u":lamp"_s, lamp.text()}}),
        moveIn);
}

Result<std::vector<Fit>> LampStore::fitsOf(const LampId& lamp) const
{
    return fitsOf(u"SELECT fit.*, fit_end.* FROM fit LEFT JOIN fit_end ON fit_end.fit_id = fit.fit_id "
                  "WHERE fit.lamp_id = :id ORDER BY fit.fit_number"_s,
                  {{u":id"_s, lamp.text()}});
}

Result<std::vector<Fit>> LampStore::fitsIn(const LamphouseId& lamphouse) const
{
    return fitsOf(u"SELECT fit.*, fit_end.* FROM fit LEFT JOIN fit_end ON fit_end.fit_id = fit.fit_id "
                  "WHERE fit.lamphouse_id = :id ORDER BY fit.fit_number"_s,
                  {{u":id"_s, lamphouse.text()}});
}

Result<std::optional<Fit>> LampStore::runningIn(const LamphouseId& lamphouse) const
{
    const auto fits = fitsIn(lamphouse);
    if (!fits)
        return tl::unexpected(fits.error());
    const auto running = std::ranges::find_if(*fits, [](const Fit& fit) { return !fit.end; });
    return running == fits->end() ? std::nullopt : std::optional(*running);
}

Result<bool> LampStore::has(const MoveId& move) const
{
    return foundAny(m_database->run(u"SELECT move_id FROM custody_move WHERE move_id = :move"_s,
                                    {{u":move"_s, move.text()}}));
}

Result<bool> LampStore::has(const CounterReadingId& reading) const
{
    return foundAny(m_database->run(u"SELECT reading_id FROM counter_reading WHERE reading_id = :reading"_s,
                                    {{u":reading"_s, reading.text()}}));
}

Result<std::vector<CounterReading>> LampStore::readings(const LamphouseId& lamphouse) const
{
    return listOf<CounterReading>(
        m_database->run(
            u"SELECT * FROM counter_reading WHERE lamphouse_id = :lamphouse AND NOT EXISTS (SELECT 1 FROM "
            "counter_reading AS correction WHERE correction.corrects_id = counter_reading.reading_id) "
            "ORDER BY read_at_ms, counter_reading_id"_s,
            {{u":lamphouse"_s, lamphouse.text()}}),
        readingIn);
}

} // namespace coldarc::lamps
