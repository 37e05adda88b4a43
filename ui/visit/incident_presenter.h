#pragma once

#include "ui/visit/incident_view.h"
#include "ui/visit/visit_desk.h"

namespace coldarc::ui {

/// What went wrong: says what to do now, asks what has to be known, writes it down, and takes the answer
/// later.
class IncidentPresenter final : public QObject {
    Q_OBJECT

public:
    /// Borrows the desk, which must outlive the presenter.
    explicit IncidentPresenter(VisitDesk& desk, QObject* parent = nullptr);

    [[nodiscard]] const IncidentView& view() const { return m_view; }
    /// Shows the list, for this swap.
    void open(int swap);
    void choose(int kind);
    /// The short path of answering one that is open.
    void chooseOpen(qint64 entry);
    /// Back to the list.
    void leave();
    void done(const QList<CaptureAnswer>& answers);

Q_SIGNALS:
    void viewChanged(const coldarc::ui::IncidentView& view);
    void finished();

private:
    void refresh();
    [[nodiscard]] QList<CaptureView> asksFor(const visit::VisitState& state) const;
    [[nodiscard]] bool isAskedForLight(const visit::VisitState& state, machine::Index lamphouse) const;
    [[nodiscard]] PersonId agrees(const visit::VisitState& state) const;
    [[nodiscard]] visit::Happened happened(const visit::VisitState& state, const QJsonObject& said) const;

    VisitDesk& m_desk;
    IncidentView m_view;
    int m_swap = 0;
    int m_chosen = -1;
    qint64 m_answering = -1;
    QStringList m_said;
};

} // namespace coldarc::ui
