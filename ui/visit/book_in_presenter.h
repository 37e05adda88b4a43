#pragma once

#include "core/visit/lamp_doubts.h"
#include "ui/label/label_picture.h"
#include "ui/visit/book_in_view.h"
#include "ui/visit/card_reads.h"
#include "ui/visit/lamp_records.h"
#include "ui/visit/lamps_at_hand.h"
#include "ui/visit/picture_shelf.h"
#include "ui/visit/threshold_view.h"
#include "ui/visit/visit_desk.h"

#include <QHash>

namespace coldarc::ui {

/// The book-in card of one swap: at the match of box and paper, and at the book-in itself. What each source
/// says becomes an entry of its own, and nothing is carried over from one to another.
///
/// A code that was scanned, or picked on a picture, goes to the source that is asked for next, or to the one
/// that was pressed; never into the entry, and never into a box that happens to have the focus.
class BookInPresenter final : public QObject {
    Q_OBJECT

public:
    /// Borrows the desk, which must outlive the presenter.
    explicit BookInPresenter(VisitDesk& desk, ThresholdBasis basis = {}, QObject* parent = nullptr);

    [[nodiscard]] const BookInView& view() const { return m_view; }
    /// Borrowed. Without one memory says nothing, and only the visit's own lamps are at hand.
    void setRecords(const LampRecords& records) { m_records = &records; }
    /// Borrowed. Without one no picture is kept.
    void setShelf(PictureShelf& shelf) { m_shelf = &shelf; }
    /// Takes up the swap whose turn is a match or a book-in. A card that was left is taken up as it was left,
    /// unless the logbook says something else of the lamp since.
    void open(int swap);
    /// @param column  an id of the view's columns.
    void setType(const QString& column, const QString& text);
    void setSerial(const QString& column, const QString& text);
    /// What a scanner sent.
    void scan(const QString& scanned);
    /// A code of a picture, which is then its evidence.
    void picked(const QString& scanned, const LabelPicture& picture);
    /// A code on a picture that no rule reads is kept for a supervisor.
    void couldNotRead(const QString& scanned);
    /// A picture on which no code could be read, as evidence of the source that is asked for.
    void keepPicture(const LabelPicture& picture);
    /// Takes a wrong picture off, and with it what its codes said.
    void takePictureOff(const QString& column);
    /// Goes on as pressed, without the pictures that could not be kept.
    void goOnWithoutPicture();
    /// The next code goes there, whatever is asked for.
    void takeCodesFor(const QString& column);
    /// The entry, said by choosing. @param id  of the view's lamps at hand.
    void chooseLamp(const QString& id);
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
    [[nodiscard]] const procedure::Step* step(const visit::VisitState& state) const;
    [[nodiscard]] bool isBookIn() const { return m_reads.isBookIn(); }
    [[nodiscard]] std::optional<label::Source> asked() const;
    [[nodiscard]] bool isNeeded(label::Source source) const;
    /// Whether somebody says that a code stands on two sources, having been told that it was read already.
    enum class Elsewhere {
        IsNotSaid,
        IsSaid,
    };
    void takeCode(const QString& scanned, const LabelPicture* picture, Elsewhere elsewhere);
    void gatherRecords(const visit::VisitState& state);
    void gatherPictures();
    [[nodiscard]] QList<label::Doubt> doubts(const visit::VisitState& state) const;
    [[nodiscard]] QList<label::Doubt> openDoubts(const visit::VisitState& state) const;
    [[nodiscard]] bool asksBeforeGoingOn(const visit::VisitState& state);
    [[nodiscard]] CaptureView doubtAsk() const;
    void tellStep(const visit::VisitState& state, const procedure::Step& now);
    [[nodiscard]] label::Agreement agreement(const visit::VisitState& state,
                                             const QList<label::SerialPass>& further = {}) const;
    [[nodiscard]] BookInView viewOf(const visit::VisitState& state) const;
    [[nodiscard]] BookInColumn columnOf(label::Source source, const label::Agreement& agreement,
                                        const visit::VisitState& state) const;
    [[nodiscard]] QList<CaptureView> restOf(const visit::VisitState& state) const;
    [[nodiscard]] bool asksForSister(const label::Agreement& agreement) const;
    [[nodiscard]] std::optional<double> threshold() const;
    [[nodiscard]] QString answer(const QString& id) const;
    [[nodiscard]] bool keepPictureOf(const label::SourceRead& read);
    bool tellReadings(const visit::VisitState& state);
    [[nodiscard]] QList<label::SourceRead> toldReads(const visit::VisitState& state) const;
    void refresh();

    VisitDesk& m_desk;
    ThresholdBasis m_basis;
    BookInView m_view;
    int m_swap = 0;
    /// What the card that is on the page stands on.
    struct Ground {
        int swap;
        StepId step;
        QList<label::SourceRead> told;

        friend bool operator==(const Ground&, const Ground&) = default;
    };
    [[nodiscard]] std::optional<Ground> groundOf(const visit::VisitState& state) const;
    std::optional<Ground> m_ground; ///< none: no card was left
    const LampRecords* m_records = nullptr;
    PictureShelf* m_shelf = nullptr;
    visit::OnRecord m_onRecord;
    LampsAtHand m_atHand;
    CardReads m_reads;
    QHash<QByteArray, QByteArray> m_unkept; ///< pictures of this card that are not on the shelf yet, by hash
    std::optional<label::Source> m_pressed; ///< where the next code was told to go
    /// A code that was read off another source already, until a press says that it stands here as well.
    struct Held {
        label::Source source;
        QString scanned;
        std::optional<LabelPicture> picture;
    };
    std::optional<Held> m_held;
    QString m_scanSays;
    bool m_doubtsScanner = false;
    QList<CaptureAnswer> m_rest;
    QList<CaptureAnswer> m_pass;
    QString m_suggested; ///< the threshold that the card was opened with
    PersonId m_countersigned;
    QStringList m_said;
    bool m_asksReason = false;
    bool m_asksDoubts = false;
    QList<label::Doubt> m_asked; ///< the doubts that the answer is asked to
    bool m_areLampsUnread = false;
    bool m_couldNotKeep = false;   ///< a picture, at the last press
    bool m_askedForSecond = false; ///< a second source, where one was typed alone
    bool m_wasCompared = false;    ///< since the card was opened, and it did not agree
};

} // namespace coldarc::ui
