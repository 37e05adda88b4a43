#pragma once

#include "ui/visit/turn_of_bench.h"
#include "ui/visit/visit_desk.h"

#include <QHash>
#include <QSet>

namespace coldarc::ui {

/// Makes what the bench shows of a visit, and turns what is pressed there into entries. It has no widget;
/// whoever shows it calls `refresh` four times a second, so that waits run.
class BenchPresenter final : public QObject {
    Q_OBJECT

public:
    /// Borrows the desk, which must outlive the presenter.
    explicit BenchPresenter(VisitDesk& desk, QObject* parent = nullptr);

    [[nodiscard]] const BenchView& view() const { return m_view; }
    [[nodiscard]] int swapInHand() const { return m_swap; }
    /// "PRACTICE"; empty on real work.
    void setBand(const QString& band);

    /// Looks again. The view changes only if something that it shows did.
    void refresh();
    /// The main action was pressed, with these answers.
    void done(const QList<CaptureAnswer>& answers);
    /// An answer changed. Where the last open one needs no press of its own, the step is done by it.
    void keepAnswers(const QList<CaptureAnswer>& answers);
    void chooseSwap(int index);
    /// A row of `card.acts` was pressed.
    void personAct(const QString& id);
    void makeSafe(const QString& reason);
    void followStrip();
    void dismissStrip();

Q_SIGNALS:
    void viewChanged(const coldarc::ui::BenchView& view);
    /// The step in hand has a page of its own.
    void bookInWanted();
    void signOffWanted();
    /// No step of the swap in hand leads on.
    void makeSafeWanted();
    /// Somebody has something to do on the page of who is here.
    void peopleWanted(const coldarc::PersonId& person);

private:
    struct Moment; ///< the visit as seen now, and whose turn it is

    [[nodiscard]] machine::Index presser(const visit::VisitState& state) const;
    [[nodiscard]] BenchView viewOf(const Moment& moment);
    [[nodiscard]] StepCard cardOf(const Moment& moment) const;
    void wordStep(StepCard& card, const Moment& moment) const;
    void wordHold(StepCard& card, const Moment& moment) const;
    void wordSafeStep(StepCard& card, const Moment& moment) const;
    void wordLook(StepCard& card, const Moment& moment) const;
    void wordFanQuestion(StepCard& card, const Moment& moment) const;
    void wordGear(StepCard& card, const Moment& moment) const;
    [[nodiscard]] QString gearKey(const Moment& moment) const;
    void wordEnd(StepCard& card, const Moment& moment) const;
    void addAnswers(StepCard& card) const;
    [[nodiscard]] QList<PersonAct> actsOf(const Moment& moment) const;
    [[nodiscard]] QList<PersonAct> ownActsOf(const Moment& moment, machine::Index person) const;
    [[nodiscard]] SwapRow rowOf(const visit::VisitState& state, int index) const;
    void callWhenOver(const visit::VisitState& state);
    void bringUp(const QString& key);

    void doStep(const Moment& moment, const PersonId& by, const QList<CaptureAnswer>& answers);
    void doSafeStep(const Moment& moment, const PersonId& by, const QList<CaptureAnswer>& answers);
    void doOwn(const Moment& moment, const PersonId& person, machine::Effect effect,
               const QList<CaptureAnswer>& answers);
    void look(const Moment& moment, const QList<CaptureAnswer>& answers);
    void answerFan(const Moment& moment, const QList<CaptureAnswer>& answers);
    void settle(const VisitDesk::Told& told);
    void openItsPage();
    [[nodiscard]] bool isWritten(QList<CaptureAnswer> answers);

    VisitDesk& m_desk;
    BenchView m_view;
    QString m_band;
    int m_swap = 0;
    QString m_key;                                 ///< of the turn that is up
    QString m_pressed;                             ///< of the turn that the last press was for
    Stamp m_upSince;                               ///< when it came up
    QHash<QString, QList<CaptureAnswer>> m_drafts; ///< answers not yet told, by turn
    QList<CaptureAnswer> m_shownDraft;             ///< those that the card was brought up with
    QSet<QString> m_written;                       ///< captures of it that ask for a box in place of choices
    PersonId m_gearOf; ///< somebody whose gear is gone through now, in place of the step
    PersonId m_countersigned;
    QStringList m_said;                   ///< why the last press came to nothing, or what it brought
    QHash<QString, QString> m_badAnswers; ///< by capture
    StripView m_strip;
    int m_stripSwap = -1;
    QSet<int> m_waiting; ///< swaps in which a wait ran at the last look
};

} // namespace coldarc::ui
