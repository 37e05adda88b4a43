#pragma once

#include "ui/visit/book_in_view.h"
#include "ui/visit/threshold_view.h"
#include "ui/visit/visit_desk.h"

#include <QHash>

namespace coldarc::ui {

/// The book-in card of one swap: at the match of box and paper, and at the book-in itself. What each source
/// says becomes an entry of its own, and nothing is carried over from one to another.
class BookInPresenter final : public QObject {
    Q_OBJECT

public:
    /// Borrows the desk, which must outlive the presenter.
    explicit BookInPresenter(VisitDesk& desk, ThresholdBasis basis = {}, QObject* parent = nullptr);

    [[nodiscard]] const BookInView& view() const { return m_view; }
    /// Takes up the swap whose turn is a match or a book-in.
    void open(int swap);
    /// @param column  an id of the view's columns.
    void setType(const QString& column, const QString& text);
    void setSerial(const QString& column, const QString& text);
    /// Both fields of one source, read by a scanner.
    void scanned(const QString& column, const QString& type, const QString& serial);
    void setRest(const QList<CaptureAnswer>& answers);
    void setPass(const QList<CaptureAnswer>& answers) { m_pass = answers; }
    /// Lets the serial that differs pass, for the reason that was given.
    void passSerial();
    void personAct(const QString& id);
    /// Writes down what was typed, and does the step if it is matched.
    void done();

Q_SIGNALS:
    void viewChanged(const coldarc::ui::BookInView& view);
    void finished(); ///< the step is done

private:
    struct Typed {
        QString type;
        QString serial;
        label::Means means = label::Means::Typed;
    };
    [[nodiscard]] const procedure::Step* step(const visit::VisitState& state) const;
    [[nodiscard]] bool isBookIn() const { return m_isBookIn; }
    [[nodiscard]] QList<label::Source> sources() const;
    [[nodiscard]] label::Agreement agreement(const visit::VisitState& state,
                                             const QList<label::SerialPass>& further = {}) const;
    [[nodiscard]] BookInView viewOf(const visit::VisitState& state) const;
    [[nodiscard]] BookInColumn columnOf(label::Source source, const label::Agreement& agreement) const;
    [[nodiscard]] QList<CaptureView> restOf(const visit::VisitState& state) const;
    [[nodiscard]] std::optional<CaptureView> sisterAsk(const visit::VisitState& state) const;
    [[nodiscard]] std::optional<double> threshold() const;
    [[nodiscard]] QString answer(const QString& id) const;
    [[nodiscard]] QList<CaptureView> passAsks(const label::Agreement& agreement) const;
    [[nodiscard]] std::optional<label::Source> sourceToPass(const label::Agreement& agreement) const;
    bool tellReadings(const visit::VisitState& state);
    void refresh();

    VisitDesk& m_desk;
    ThresholdBasis m_basis;
    BookInView m_view;
    int m_swap = 0;
    bool m_isBookIn = false;
    QHash<label::Source, Typed> m_typed;
    QList<CaptureAnswer> m_rest;
    QList<CaptureAnswer> m_pass;
    QString m_suggested; ///< the threshold that the card was opened with
    PersonId m_countersigned;
    QStringList m_said;
    bool m_asksReason = false;
    bool m_wasCompared = false; ///< since the card was opened, and it did not agree
};

} // namespace coldarc::ui
