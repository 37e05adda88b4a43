#pragma once

#include "core/store/database.h"
#include "core/visit/logbook.h"
#include "tests/core/visit/night.h"
#include "ui/alignment/light_presenter.h"
#include "ui/photometry/sheet_presenter.h"
#include "ui/visit/bench_presenter.h"
#include "ui/visit/book_in_presenter.h"
#include "ui/visit/incident_presenter.h"
#include "ui/visit/light_at_desk.h"
#include "ui/visit/sheet_at_desk.h"
#include "ui/visit/sign_off_presenter.h"

#include <QHash>

#include <memory>

namespace coldarc::test {

/// Somebody in a booth with a laptop: sees what the presenters show, presses what they offer, and everything
/// goes into the real journal of a workspace in memory. Steps are named by their effect or id, so a story
/// does not depend on how a procedure words them. Sites, people, models and serials are invented.
class Booth {
public:
    explicit Booth(const QString& model = QStringLiteral("larkmoor-teal"),
                   Night::Crew crew = Night::Crew::Alone, int screens = 1);

    /// At a visit that somebody opened, at this moment.
    Booth(const visit::Opening& opening, const FakeClock& clock);

    // ---- What is seen ----------------------------------------------------------------------------
    [[nodiscard]] const ui::BenchView& bench() const { return m_bench->view(); }
    [[nodiscard]] QString title() const { return bench().card.title; }
    /// What the bench says of this gate.
    [[nodiscard]] ui::GateView gate(const QString& name) const;
    /// The title of the first step of this effect in the procedure of this swap.
    [[nodiscard]] QString titleOf(machine::Effect effect, int swap = 0) const;
    [[nodiscard]] bool isAt(machine::Effect effect, int swap = 0) const;
    [[nodiscard]] const visit::VisitState& state() const { return m_logbook->state(); }
    [[nodiscard]] const visit::Entry& lastEntry() const { return m_logbook->entries().last(); }
    [[nodiscard]] const QList<visit::Entry>& logbook() const { return m_logbook->entries(); }
    [[nodiscard]] qsizetype entries() const { return m_logbook->entries().size(); }
    [[nodiscard]] const machine::LamphouseState& lamphouse(int index = 0) const
    {
        return state().machine.lamphouse[static_cast<std::size_t>(index)];
    }

    // ---- What is done ----------------------------------------------------------------------------
    /// Answers the step that is up as it should be and presses the main action; holds nothing.
    void press();
    /// The same with other answers, by capture.
    void press(const QHash<QString, QString>& answers);
    /// Presses a row of the acts of other people, by its id; fails the test where it is not offered.
    void pressAct(const QString& id);
    /// Holds what wait there is, whole.
    void hold();
    /// Goes on, holding every wait, until a step of this effect is up. Fails the test if it never is.
    void goTo(machine::Effect effect);
    /// ... until the signing page is asked for.
    void goToTheEnd();
    void choose(int swap) { m_bench->chooseSwap(swap); }
    /// Types box, paper and entry, or the own marking, with this code on the box.
    void bookIn(const QString& codeOnTheBox = QString());
    /// Ends the step that is up on the light page, without a reading.
    void endLightStep();
    /// Leaves the step that is up on the light page, or on the screen's, to a later visit.
    void oweStep();
    /// Reads the screen's centre and ends the step.
    void measureScreen();
    [[nodiscard]] ui::LightPresenter& light() { return *m_light; }
    /// Reports that this went wrong; `said` answers what is asked, by capture.
    void report(visit::Incident kind, const QHash<QString, QString>& said);
    /// Answers everything that is open, in words.
    void answerIncidents();
    void makeSafe();
    /// Follows the list to its end; gives the titles, the waits among them.
    QStringList followToSafety();
    /// Everybody signs who is here, then it is closed; what stands in the way is returned.
    QStringList signAndClose();
    ui::VisitDesk::Told tell(const PersonId& by, const visit::Body& asked) { return m_desk->tell(by, asked); }
    /// The next presses are this person's.
    void sit(const PersonId& person);
    /// The program is started anew on the same workspace.
    void restart();

    /// The logbook read from the workspace again, each entry checked against the chain.
    [[nodiscard]] visit::VisitState readAgain();
    [[nodiscard]] Night& night() { return m_night; }
    [[nodiscard]] FakeClock& clock() { return m_night.clock; }
    [[nodiscard]] const ui::BookInView& bookInCard() const { return m_bookIn->view(); }
    [[nodiscard]] const ui::IncidentView& incidentPage() const { return m_incident->view(); }
    [[nodiscard]] const ui::SignOffView& signOffPage() const { return m_signOff->view(); }
    [[nodiscard]] bool wantsSignOff() const { return m_wantsSignOff; }
    [[nodiscard]] bool wantsMakeSafe() const { return m_wantsMakeSafe; }

private:
    void sitDown();
    [[nodiscard]] QList<ui::CaptureAnswer> answersTo(const QList<ui::CaptureView>& captures,
                                                     const QHash<QString, QString>& said) const;

    Night m_night;
    store::Database m_database = store::Database::inMemory();
    store::Journal m_journal{m_database};
    store::Summaries m_summaries{m_database};
    PersonId m_sitting;
    std::unique_ptr<visit::Logbook> m_logbook;
    std::unique_ptr<ui::VisitDesk> m_desk;
    std::unique_ptr<ui::BenchPresenter> m_bench;
    std::unique_ptr<ui::BookInPresenter> m_bookIn;
    std::unique_ptr<ui::IncidentPresenter> m_incident;
    std::unique_ptr<ui::LightAtDesk> m_lightDesk;
    std::unique_ptr<ui::LightPresenter> m_light;
    std::unique_ptr<ui::SheetAtDesk> m_sheetDesk;
    std::unique_ptr<ui::SheetPresenter> m_sheet;
    std::unique_ptr<ui::SignOffPresenter> m_signOff;
    bool m_wantsSignOff = false;
    bool m_wantsMakeSafe = false;
};

} // namespace coldarc::test
