#pragma once

#include "core/photometry/meter_table.h"
#include "core/photometry/sheet.h"
#include "core/photometry/tolerance_set.h"
#include "ui/photometry/sheet_view.h"

#include <QIODevice>

#include <vector>

namespace coldarc::ui {

/// A meter's table on its way into a sheet: read, mapped, looked at. Nothing of it is anywhere else before
/// the whole of it is right.
class MeterImport {
public:
    /// The table's text, pasted.
    void give(const QString& text);
    /// The table's file. Pre: open for reading.
    void give(QIODevice& file);
    /// A file that could not even be opened.
    void refuse();
    /// @param id  of a field of the view's mapping.
    void map(const QString& id, const QString& answer);
    void setUnit(photometry::LuminanceUnit unit);
    /// It was taken: the box becomes empty.
    void taken(const QString& said);
    /// What is asked about it before it is taken; every answer is given anew for another table.
    void ask(const std::optional<SheetQuestion>& question) { m_question = question; }

    /// Every row with its place; nothing where there is no table, or a row is bad.
    /// @param lists  orders of the places that rows without one may be in.
    [[nodiscard]] std::optional<std::vector<photometry::MeterRow>>
    rows(photometry::Convention convention, const std::vector<std::vector<photometry::Place>>& lists) const;
    [[nodiscard]] photometry::LuminanceUnit unit() const { return m_mapping.unit; }
    [[nodiscard]] SheetImportView view(photometry::Convention convention,
                                       const std::vector<std::vector<photometry::Place>>& lists) const;

private:
    void take(const tl::expected<QString, photometry::TableFault>& text);

    std::optional<photometry::MeterTable> m_table;
    photometry::MeterMapping m_mapping;
    std::optional<SheetQuestion> m_question;
    QString m_said;
    int m_turn = 0;
};

} // namespace coldarc::ui
