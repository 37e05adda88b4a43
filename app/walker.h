#pragma once

#include "app/walk_clock.h"
#include "ui/visit/bench_page.h"
#include "ui/visit/book_in_page.h"
#include "ui/visit/sign_off_page.h"
#include "ui/visit/visit_page.h"

#include <QHash>
#include <QString>
#include <QStringList>

class QLineEdit;

namespace coldarc::app {

/// Works through a visit by pressing keys in the real pages, as an engineer with nothing out of the ordinary
/// would: the first choice of each question is the one that passes.
class Walker {
public:
    /// What the new lamp of a swap is, as box, paper and lamp say it.
    struct NewLamp {
        QString code;
        QString serial;
    };

    /// @param pictures  folder for one picture of each part of the swap; empty: none.
    Walker(ui::VisitPage& room, const ui::VisitDesk& desk, WalkClock& clock, QString pictures,
           QList<NewLamp> lamps);

    /// Until the visit is closed. False when a press came to nothing several times; `trouble` then says
    /// where.
    [[nodiscard]] bool walk();
    [[nodiscard]] const QStringList& trouble() const { return m_trouble; }
    /// One line for each press that was refused, gate by gate.
    [[nodiscard]] const QStringList& refusals() const { return m_refusals; }
    [[nodiscard]] const QStringList& pictures() const { return m_taken; }
    [[nodiscard]] int presses() const { return m_presses; }
    [[nodiscard]] int typedCharacters() const { return m_typed; }

    /// Saves what the room shows now.
    void picture(const QString& name);

private:
    enum class Turn {
        Went,
        Held,
        Stuck,
        Over,
    };
    [[nodiscard]] QWidget* pageInSight() const;
    [[nodiscard]] qint64 entries() const { return m_desk.logbook().state().entries; }
    [[nodiscard]] Turn turn();
    [[nodiscard]] Turn turnOfOther(QWidget& page);
    [[nodiscard]] Turn turnOfBench(ui::BenchPage& page);
    void fillBookIn(ui::BookInPage& page);
    /// A press that has to be refused: says what was tried and what the page answered, and that nothing was
    /// written.
    void tryInVain(const QString& what, const QString& answer);
    void tryWithBadGear(ui::BenchPage& page);
    void tryWithWrongType(ui::BookInPage& page);
    void answer(QWidget& page, const QList<ui::CaptureView>& captures);
    void type(QLineEdit& box, const QString& text);
    void key(int key);
    void settle();
    [[nodiscard]] QString textFor(const ui::CaptureView& capture) const;

    ui::VisitPage& m_room;
    const ui::VisitDesk& m_desk;
    WalkClock& m_clock;
    QString m_folder;
    QList<NewLamp> m_lamps;
    QHash<QString, QString> m_pictured; ///< by part of the swap
    QStringList m_taken;
    QStringList m_trouble;
    QStringList m_refusals;
    bool m_triedGear = false;
    bool m_triedType = false;
    QString m_lastKey;
    int m_tries = 0;
    int m_presses = 0;
    int m_typed = 0;
};

} // namespace coldarc::app
