#pragma once

#include "app/walk_clock.h"
#include "core/alignment/test_lamp.h"
#include "ui/alignment/light_page.h"
#include "ui/photometry/sheet_page.h"
#include "ui/visit/bench_page.h"
#include "ui/visit/book_in_page.h"
#include "ui/visit/sign_off_page.h"
#include "ui/visit/visit_page.h"

#include <QSet>
#include <QString>
#include <QStringList>

#include <functional>
#include <optional>

class QLineEdit;

namespace coldarc::app {

/// Works through a visit by the keyboard in the real pages, as an engineer with nothing out of the ordinary
/// would: the first choice of each question is the one that passes. It writes only where the focus is, and
/// gets from one question to the next by Enter, so what it counts is what hands do.
class Walker {
public:
    /// What the new lamp of a swap is, as box, paper and lamp say it.
    struct NewLamp {
        QString code;
        QString serial;
    };
    /// What hands did. A key that writes no character is a press, Enter between two boxes too.
    struct Tally {
        int presses = 0;
        int typed = 0;       ///< characters
        int typedInGear = 0; ///< of them while the engineer had gear on
        int scans = 0;       ///< codes read by the scanner; its keys are nobody's
    };
    /// How labels are read.
    enum class Labels {
        Typed,
        Scanned, ///< box and marking; the entry is chosen from the lamps at hand
    };
    enum class Refusals {
        OnePerGate, ///< at each gate something is tried that must be refused
        None,
    };

    /// @param pictures  folder for one picture of each part of the swap; empty: none.
    Walker(ui::VisitPage& room, const ui::VisitDesk& desk, WalkClock& clock, QString pictures,
           QList<NewLamp> lamps, Refusals refusals = Refusals::OnePerGate, Labels labels = Labels::Typed);

    /// Called with each press in place of pressing; it has to press once.
    void setWatch(std::function<void(const std::function<void()>& press)> watch)
    {
        m_watch = std::move(watch);
    }
    /// Until the visit is closed. False when presses came to nothing many times; `trouble` then says where.
    [[nodiscard]] bool walk();
    [[nodiscard]] const QStringList& trouble() const { return m_trouble; }
    /// One line for each press that was refused, gate by gate.
    [[nodiscard]] const QStringList& refusals() const { return m_refusals; }
    [[nodiscard]] const QStringList& pictures() const { return m_taken; }
    /// The swap, without what follows.
    [[nodiscard]] Tally plain() const { return m_plain; }
    /// Readings and peaks of the light.
    [[nodiscard]] Tally light() const { return m_light; }
    /// What was tried to be refused, and put right again.
    [[nodiscard]] Tally vain() const { return m_vain; }

private:
    [[nodiscard]] QWidget* pageInSight() const;
    [[nodiscard]] qint64 entries() const { return m_desk.logbook().state().entries; }
    [[nodiscard]] bool isStuck();
    void turnOfBench(ui::BenchPage& page);
    void turnOfBookIn(ui::BookInPage& page);
    /// True if a code was read or the entry chosen: one of them at a time, as the card asks.
    [[nodiscard]] bool scanOrChoose(const ui::BookInView& card);
    /// The keys of a scanner that plays a keyboard, wherever the focus is.
    void scan(const QString& text);
    [[nodiscard]] QString codeOnLabel() const;
    /// The reading of the point in hand, or what comes after the last one.
    void turnOfSheet(ui::SheetPage& page);
    void sayConditions(ui::SheetPage& page);
    void turnOfLight(ui::LightPage& page);
    /// One press, or one box written in and left: whatever is in front now.
    void goOn(QWidget& page, const QList<ui::CaptureView>& asks);
    [[nodiscard]] const ui::CaptureView* openChoice(QWidget& page, const QList<ui::CaptureView>& asks) const;
    /// Points, as the bench offers them, that feed the lamphouse in hand.
    [[nodiscard]] bool isHere(const QString& points) const;
    void hold(ui::BenchPage& page);
    void tryWithBadGear(ui::BenchPage& page);
    void putTypeRight(ui::BookInPage& page);
    void type(QLineEdit& box, const QString& text);
    void key(int key);
    void settle();
    [[nodiscard]] const procedure::Step* step() const;
    [[nodiscard]] Tally& tally();
    [[nodiscard]] NewLamp newLamp() const { return m_lamps.value(m_room.bench().swapInHand()); }
    [[nodiscard]] QString textFor(const QLineEdit& box) const;
    void picture(const QString& name);
    /// Once for each name.
    void pictureOf(const QString& part);

    ui::VisitPage& m_room;
    const ui::VisitDesk& m_desk;
    WalkClock& m_clock;
    QString m_folder;
    QList<NewLamp> m_lamps;
    Refusals m_wanted;
    Labels m_labels;
    QSet<QString> m_pictured;
    QStringList m_taken;
    QStringList m_trouble;
    QStringList m_refusals;
    bool m_triedGear = false;
    bool m_triedType = false;
    bool m_saidConditions = false;
    QString m_place; ///< what was in front at the last turn
    int m_turnsHere = 0;
    bool m_isVain = false;
    std::function<void(const std::function<void()>&)> m_watch;
    bool m_hasSettled = false;
    std::optional<alignment::SimulatedLight> m_lamp; ///< the light of every swap of the walk
    Tally m_plain;
    Tally m_light;
    Tally m_vain;
};

} // namespace coldarc::app
