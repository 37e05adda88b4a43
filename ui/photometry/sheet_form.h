#pragma once

#include "core/photometry/conditions.h"
#include "core/visit/sheet_entry.h"
#include "ui/photometry/sheet_view.h"

#include <QHash>
#include <QMap>

namespace coldarc::ui {

/// The conditions of a sheet as somebody types them. What is typed stays, right or wrong.
class SheetForm {
public:
    /// Shows these; what was typed before goes.
    void fill(const visit::ScreenConditions& said, photometry::LuminanceUnit unit);
    /// The dark screen stands in the unit that the meter is set to.
    void changeUnit(photometry::LuminanceUnit from, photometry::LuminanceUnit to);
    void set(const QString& id, const QString& text);
    [[nodiscard]] QString text(const QString& id) const { return m_texts.value(id); }

    /// What the texts say, less what is not understood; `faults` says which that is.
    /// @param unit  what the meter is set to: the dark screen is typed in it.
    [[nodiscard]] visit::ScreenConditions soFar(photometry::LuminanceUnit unit) const;
    /// What is wrong, by the id of the field.
    [[nodiscard]] QMap<QString, QString> faults(photometry::LuminanceUnit unit) const;
    /// @param litHint  what stands in the empty box of how long the lamp has burnt.
    [[nodiscard]] QList<SheetField> fields(photometry::LuminanceUnit unit, const QString& litHint) const;

private:
    struct Reading;
    [[nodiscard]] Reading reading(photometry::LuminanceUnit unit) const;

    QHash<QString, QString> m_texts;
};

/// "2026-03-02" or "2.3.2026"; nothing for what is no day.
[[nodiscard]] std::optional<photometry::Day> dayFrom(const QString& text);
[[nodiscard]] QString dayText(photometry::Day day);

} // namespace coldarc::ui
