#include "ui/report/readings_table.h"

#include "core/base/json.h"
#include "core/base/table_text.h"
#include "ui/photometry/words_sheet.h"
#include "ui/visit/view_of_machine.h"
#include "ui/visit/words_entry.h"

#include <QCoreApplication>

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
        for (const visit::Entry& entry : entries)
            noteReplaced(entry.body);
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
    /// An entry says something else of the same reading now; of a screen only this place.
    struct Replaced {
        qint64 entry;
        std::optional<photometry::Place> place;
        friend bool operator==(const Replaced&, const Replaced&) = default;
    };

    void noteReplaced(const visit::Body& body)
    {
        if (const auto* light = std::get_if<visit::LightRead>(&body); light && light->replaces >= 0)
            m_replaced.append({light->replaces, std::nullopt});
        const auto* screen = std::get_if<visit::ScreenRead>(&body);
        for (const visit::PointRead& point : screen ? screen->points : QList<visit::PointRead>()) {
            if (point.replaces >= 0)
                m_replaced.append({point.replaces, point.place});
        }
    }

    [[nodiscard]] QString counts(qint64 number, const std::optional<photometry::Place>& place) const
    {
        if (m_state.withdrawn.contains(number))
            return words("no, withdrawn");
        return m_replaced.contains(Replaced{number, place}) ? words("no, corrected later") : words("yes");
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
            << counts(number, std::nullopt);
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
                << (point.colour ? figure(point.colour->y()) : QString()) << counts(number, point.place);
            m_rows.push_back(row);
        }
    }

    const visit::VisitState& m_state;
    const QList<visit::Entry>& m_entries;
    QList<Replaced> m_replaced;
    std::vector<QStringList> m_rows;
};

} // namespace

QByteArray readingsTable(const visit::VisitState& state, const QList<visit::Entry>& entries)
{
    return textOfTable(Lister(state, entries).list()).toUtf8();
}

} // namespace coldarc::ui
