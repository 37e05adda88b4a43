#include "ui/report/readings_table.h"

#include "core/base/json.h"
#include "core/base/table_text.h"
#include "core/visit/light_of_visit.h"
#include "core/visit/sheet_of_visit.h"
#include "ui/photometry/words_sheet.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/words_entry.h"

#include <QCoreApplication>

#include <algorithm>
#include <map>
#include <utility>
#include <vector>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

QString words(const char* text)
{
    return QCoreApplication::translate("readings", text);
}

/// A figure that reads back as the same one.
QString figure(double value)
{
    return QString::number(value, 'g', 15);
}

class Lister {
public:
    Lister(const visit::VisitState& state, const QList<visit::Entry>& entries)
        : m_state(state)
        , m_entries(entries)
    {
    }

    std::vector<QStringList> list()
    {
        m_rows = {{words("entry"), words("time (UTC)"), words("person"), words("screen"), words("step"),
                   words("kind"), words("place or axis"), words("knob (turns)"), words("reading"),
                   words("unit of the reading"), words("luminance (cd/m²)"), words("CIE x"), words("CIE y"),
                   words("counts")}};
        for (qint64 number = 0; number < m_entries.size(); ++number) {
            const visit::Body& body = m_entries[number].body;
            if (const auto* light = std::get_if<visit::LightRead>(&body))
                addLight(number, *light);
            else if (const auto* screen = std::get_if<visit::ScreenRead>(&body))
                addScreen(number, *screen);
        }
        return std::move(m_rows);
    }

private:
    /// What counts of one swap, rebuilt as the pages and the report have it.
    struct Part {
        visit::LightOfSwap light;
        visit::SheetOfSwap before;
        visit::SheetOfSwap after;
    };
    [[nodiscard]] const Part& part(const SwapId& swap)
    {
        auto found = m_parts.find(swap.text());
        if (found == m_parts.end()) {
            Part made{visit::lightOf(m_state, swap), visit::sheetOf(m_state, swap, visit::SheetTime::Arrival),
                      visit::sheetOf(m_state, swap, visit::SheetTime::After)};
            found = m_parts.emplace(swap.text(), std::move(made)).first;
        }
        return found->second;
    }

    [[nodiscard]] QString counts(qint64 number, const visit::LightRead& read)
    {
        const qint64 reading = read.replaces < 0 ? number : read.replaces;
        if (m_state.withdrawn.contains(number) || m_state.withdrawn.contains(reading))
            return words("no, withdrawn");
        const std::vector<visit::LightPoint>& points = part(read.swap).light.points;
        const auto point = std::ranges::find(points, reading, &visit::LightPoint::entry);
        if (point == points.end())
            return words("no, before the lamp was struck anew");
        if ((point->correctedBy < 0 ? point->entry : point->correctedBy) != number)
            return words("no, corrected later");
        return point->isLeftOut ? words("no, a slip beside the others") : words("yes");
    }

    [[nodiscard]] QString counts(qint64 number, const visit::ScreenRead& read, photometry::Place place)
    {
        if (m_state.withdrawn.contains(number))
            return words("no, withdrawn");
        const Part& swap = part(read.swap);
        const visit::SheetOfSwap& sheet = read.time == visit::SheetTime::Arrival ? swap.before : swap.after;
        if (number <= sheet.since)
            return words("no, before the lamp was struck anew");
        const auto isIt = [&](const visit::SheetPoint& one) {
            return one.read.place == place && one.entry == number;
        };
        if (std::ranges::any_of(sheet.points, isIt))
            return words("yes");
        return std::ranges::any_of(sheet.elsewhere, isIt)
                   ? words("no, at other points than the limits ask for")
                   : words("no, corrected later");
    }

    [[nodiscard]] QStringList begin(qint64 number, const SwapId& swap, const StepId& step) const
    {
        const visit::Entry& entry = m_entries[number];
        const visit::SwapState* of = m_state.swap(swap);
        return {QString::number(number), isoUtc(entry.at.wall), nameOfPerson(m_state, entry.by),
                of ? placeOf(m_state, of->lamphouse) : swap.text(), step.text()};
    }

    void addLight(qint64 number, const visit::LightRead& read)
    {
        QStringList row = begin(number, read.swap, read.step);
        row << words("light run") << read.axis << (read.turns ? figure(*read.turns) : QString())
            << figure(read.value) << words("as the meter showed it") << QString() << QString() << QString()
            << counts(number, read);
        m_rows.push_back(row);
    }

    void addScreen(qint64 number, const visit::ScreenRead& read)
    {
        for (const visit::PointRead& point : read.points) {
            const auto light = photometry::Luminance::from(point.value, read.unit);
            QStringList row = begin(number, read.swap, read.step);
            row << (read.time == visit::SheetTime::Arrival ? words("screen on arrival")
                                                           : words("screen afterwards"))
                << nameOf(point.place) << QString() << figure(point.value) << nameOf(read.unit)
                << (light ? figure(light->cdPerM2()) : QString())
                << (point.colour ? figure(point.colour->x()) : QString())
                << (point.colour ? figure(point.colour->y()) : QString())
                << counts(number, read, point.place);
            m_rows.push_back(row);
        }
    }

    const visit::VisitState& m_state;
    const QList<visit::Entry>& m_entries;
    std::map<QString, Part> m_parts; ///< by swap
    std::vector<QStringList> m_rows;
};

} // namespace

QByteArray readingsTable(const visit::VisitState& state, const QList<visit::Entry>& entries)
{
    return textOfTable(Lister(state, entries).list()).toUtf8();
}

} // namespace coldarc::ui
