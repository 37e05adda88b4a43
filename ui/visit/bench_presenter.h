#pragma once

#include "core/procedure/step_act.h"
#include "ui/visit/bench_moment.h"

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

    /// Looks again. The view changes only if something that it shows did.
    void refresh();
    /// A step was done on a page of its own: brings up that of the next one, where it has one.
    void goOn();
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
    /// A scan came where none is taken: says that it did nothing.
    void sayScanLeft();

Q_SIGNALS:
    void viewChanged(const coldarc::ui::BenchView& view);
    /// The step in hand has a page of its own.
    void bookInWanted();
    void lightWanted();
    void sheetWanted();
    void signOffWanted();
    /// No step of the swap in hand leads on.
    void makeSafeWanted();
    /// Somebody has something to do on the page of who is here.
    void peopleWanted(const coldarc::PersonId& person);

private:
    void callWhenOver(const visit::VisitState& state);
    void bringUp(const QString& key);

    void doStep(const BenchMoment& moment, const PersonId& by, const QList<CaptureAnswer>& answers);
    void doSafeStep(const BenchMoment& moment, const PersonId& by, const QList<CaptureAnswer>& answers);
    void doOwn(const BenchMoment& moment, PersonId person, machine::Effect effect,
               const QList<CaptureAnswer>& answers);
    void look(const BenchMoment& moment, const QList<CaptureAnswer>& answers);
    void answerLocks(const BenchMoment& moment, const QList<CaptureAnswer>& answers);
    void answerFan(const BenchMoment& moment, const QList<CaptureAnswer>& answers);
    void settle(const VisitDesk::Told& told);
    [[nodiscard]] bool isMarkedOpen(const QList<CaptureAnswer>& answers);
    [[nodiscard]] bool isMarkedBad(const procedure::Step& step, const procedure::Answers& answers);
    void unmark(const QList<CaptureAnswer>& answers);
    void openItsPage();
    void sign(const BenchMoment& moment);
    [[nodiscard]] bool isWritten(QList<CaptureAnswer> answers);

    VisitDesk& m_desk;
    BenchView m_view;
    int m_swap = 0;
    BenchMind m_mind;
    QString m_pressed;       ///< the turn that the last press was for
    QStringList m_didNotFit; ///< lines of the stop that was answered last
    Stamp m_upSince;         ///< when the turn that is up came up
    StripView m_strip;
    int m_stripSwap = -1;
    /// Of a lamphouse.
    struct AwaitedClock {
        machine::Index lamphouse;
        machine::Wait wait;
    };
    [[nodiscard]] static AwaitedClock awaitedClock(const visit::VisitState& state,
                                                   const visit::WaitClock& clock);
    QHash<int, std::optional<AwaitedClock>> m_waiting; ///< by swap: what was waited for at the last look
};

} // namespace coldarc::ui
