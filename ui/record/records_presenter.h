#pragma once

#include "core/record/intake_store.h"
#include "ui/parts/card_lines.h"

#include <QHash>
#include <QObject>
#include <QStringList>

#include <functional>
#include <vector>

class QTimer;

namespace coldarc::ui {

/// What can be done with records of other workspaces. The program's root gives it.
struct RecordDeeds {
    using Taken = std::function<void(const Result<std::vector<record::TakenRecord>>& taken)>;
    /// The first of these files, as many as a turn has time for and at least one; then says what became of
    /// them, or why none could be begun. Away from the window, which lives on meanwhile.
    std::function<void(const QStringList& files, Taken then)> take;
    /// Of one that waits.
    std::function<record::TakenRecord(const Hash& file)> tryAgain;
    std::function<Result<std::vector<record::WaitingRecord>>()> waiting;
    /// What one that waits says of itself: its site and its day, which nobody vouches for yet. Empty where it
    /// cannot be read. Cost: reads the whole of it.
    std::function<QString(const Hash& file)> placeOf;
    /// Of one that waits, for good.
    std::function<Result<void>(const Hash& file)> discard;
};

struct RecordsView {
    QString progress;         ///< "12 of 300 files"; empty: nothing is under way
    QString outcome;          ///< how many were taken, were there, wait, were refused
    QList<CardLine> notTaken; ///< files of this time that were refused or not read, and why
    QString more;             ///< how many of them are not listed
    QList<CardLine> waiting;
    QString noWaiting;
    QString moreWaiting;     ///< how many of them are not listed, and how they are tried again
    QString discard;         ///< on the button that drops the one that was tried again last; empty: none was
    QString discardQuestion; ///< what would be dropped; not empty: the button asks for a second press

    friend bool operator==(const RecordsView&, const RecordsView&) = default;
};

/// Takes records in, a few files in each turn, and tells after each how far it is; between two turns the
/// whole can be stopped: what was taken by then stays taken.
class RecordsPresenter final : public QObject {
    Q_OBJECT

public:
    explicit RecordsPresenter(RecordDeeds deeds, QObject* parent = nullptr);

    [[nodiscard]] const RecordsView& view() const { return m_view; }
    void refresh();
    /// Together with those under way; after a stop that is not done yet, on their own.
    void takeIn(const QStringList& files);
    void stop();
    /// A waiting record, by its line: with what is known by now.
    void tryAgain(const QString& id);
    /// The record that was tried again last and waits still: asks first, and drops it when asked again.
    void discard();
    void keep();

Q_SIGNALS:
    void viewChanged(const coldarc::ui::RecordsView& view);
    /// A visit was added, or got further.
    void visitsChanged();

private:
    struct Tally {
        int taken = 0;
        int there = 0;
        int waiting = 0;
        int refused = 0;
        int unread = 0;
    };

    void show(RecordsView view);
    [[nodiscard]] bool isUnderWay() const { return m_next < m_files.size(); }
    void takeTurn();
    void taken(const Result<std::vector<record::TakenRecord>>& some);
    void end(RecordsView view, const QString& outcome);
    void count(const record::TakenRecord& taken, RecordsView& view);
    [[nodiscard]] QString progress() const;
    void fillWaiting(RecordsView& view);
    void offerDiscard(RecordsView& view, const std::optional<Hash>& file);
    [[nodiscard]] QString discardQuestion() const;
    [[nodiscard]] CardLine lineOf(const record::WaitingRecord& one, bool isLookedInto);
    [[nodiscard]] QString outcome() const;
    [[nodiscard]] QString stoppedBecause(const QString& cause) const;

    RecordDeeds m_deeds;
    QTimer* m_turn;
    QStringList m_files;
    QStringList m_later; ///< begun once the stop is done
    qsizetype m_next = 0;
    bool m_isStopping = false;
    Tally m_tally;
    std::optional<Hash> m_tried;      ///< waits still
    QHash<QString, QString> m_places; ///< of those that wait, once they were looked into
    RecordsView m_view;
};

} // namespace coldarc::ui
