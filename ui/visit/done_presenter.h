#pragma once

#include "ui/visit/done_view.h"
#include "ui/visit/picture_shelf.h"
#include "ui/visit/supervisor_said.h"
#include "ui/visit/visit_desk.h"

namespace coldarc::ui {

/// The logbook of one visit as lines that a person would say, and what is added to it or corrected in it. A
/// correction is a new entry: what was withdrawn stays, struck through.
class DonePresenter final : public QObject {
    Q_OBJECT

public:
    /// Borrows the desk, which must outlive the presenter.
    explicit DonePresenter(VisitDesk& desk, QObject* parent = nullptr);

    [[nodiscard]] const DoneView& view() const { return m_view; }
    /// Borrows the shelf. Without one no picture can be kept.
    void setShelf(PictureShelf* shelf) { m_shelf = shelf; }
    /// Every review of the visit that counts, the latest last.
    /// @param altered  how many are not as they were written, and do not count.
    void setReviews(const QList<SupervisorSaid>& reviews, int altered = 0);
    /// The bytes of a picture of these lines, by its hash in hexadecimal; empty if it cannot be read.
    [[nodiscard]] QByteArray picture(const QString& hash) const;

    /// @param swap  the one in hand: notes and pictures are its.
    void open(int swap);
    void choose(qint64 entry);
    void beginWithdraw();
    /// A note; an addendum where the visit is closed.
    void beginWriting();
    void beginPicture();
    void leaveForm();
    void setDraft(const QString& text);
    /// The form's main action.
    void done();
    /// Whoever presses signs what waits for their key in a visit that is over.
    void sign();
    /// A picture as it was pasted, dropped or taken.
    void givePicture(const QByteArray& bytes);
    void givePictureFile(const QString& path);

    /// These entries as plain text, in their order; all of them where none are named.
    [[nodiscard]] QString textOf(const QList<qint64>& entries) const;

Q_SIGNALS:
    void viewChanged(const coldarc::ui::DoneView& view);

private:
    void refresh();
    void begin(DoneForm::Kind kind);
    void settle(const VisitDesk::Told& told);
    [[nodiscard]] PersonId agrees(const visit::VisitState& state) const;
    [[nodiscard]] QList<DoneLine> linesOf(const visit::VisitState& state) const;
    [[nodiscard]] QList<DoneMark> marksOf(const visit::VisitState& state, qint64 entry,
                                          const QList<WantedSignature>& wanted) const;
    /// It was sent back, and nothing was added since.
    [[nodiscard]] bool isToAnswer() const;
    [[nodiscard]] QString reviewWords() const;
    [[nodiscard]] QString lastReviewWords() const;
    [[nodiscard]] QString subOf(const visit::VisitState& state) const;
    void wordChosen(DoneView& view, const visit::VisitState& state) const;
    void wordSigning(DoneView& view, const visit::VisitState& state) const;
    void wordAdding(DoneView& view, const visit::VisitState& state) const;
    [[nodiscard]] DoneForm formOf(const visit::VisitState& state) const;
    void wordWithdraw(DoneForm& form, const visit::VisitState& state) const;
    [[nodiscard]] QString whyNot(const visit::Refusal& refusal, const visit::VisitState& state) const;

    VisitDesk& m_desk;
    PictureShelf* m_shelf = nullptr;
    QList<SupervisorSaid> m_reviews;
    int m_alteredReviews = 0;
    DoneView m_view;
    bool m_isOpen = false;
    int m_swap = 0;
    qint64 m_chosen = -1;
    std::optional<DoneForm::Kind> m_form;
    QString m_draft;
    QStringList m_said;
};

} // namespace coldarc::ui
