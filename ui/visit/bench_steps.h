#pragma once

#include "ui/visit/bench_view.h"

#include <QAbstractListModel>
#include <QListView>

namespace coldarc::ui {

/// The steps of the swap in hand, one row each.
class StepListModel final : public QAbstractListModel {
    Q_OBJECT

public:
    enum Role {
        PhaseRole = Qt::UserRole, ///< the phase, on the first step of it; empty on the others
        StandRole,                ///< StepRow::Stand as a number
        AsideRole,
    };
    using QAbstractListModel::QAbstractListModel;

    /// True when the steps themselves changed, not only what stands beside them.
    bool show(QList<StepRow> rows);
    /// The row of the step in hand, or -1.
    [[nodiscard]] int rowNow() const;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;

private:
    QList<StepRow> m_rows;
};

/// Draws them: a tick for what is done, a pointer and a bar of the accent for now, a ring for what is ahead.
/// Long titles wrap. The step in hand is kept in sight.
class StepList final : public QListView {
    Q_OBJECT

public:
    explicit StepList(QWidget* parent = nullptr);

    void setSteps(const QList<StepRow>& rows);

protected:
    void resizeEvent(QResizeEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

private:
    void showNow();
    void fadeFoot();

    StepListModel* m_model;
};

} // namespace coldarc::ui
