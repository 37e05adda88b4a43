#pragma once

#include "core/record/intake_store.h"
#include "ui/parts/card_lines.h"

#include <QObject>
#include <QStringList>

#include <functional>
#include <vector>

class QTimer;

namespace coldarc::ui {

/// What can be done with records of other workspaces. The program's root gives it.
struct RecordDeeds {
    std::function<record::TakenRecord(const QString& file)> take;
    /// Of one that waits.
    std::function<record::TakenRecord(const Hash& file)> tryAgain;
    std::function<Result<std::vector<record::WaitingRecord>>()> waiting;
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
    QString discard;         ///< on the button that drops the one that was tried again last; empty: none was
    QString discardQuestion; ///< what would be dropped; not empty: the button asks for a second press

    friend bool operator==(const RecordsView&, const RecordsView&) = default;
};

/// Takes records in, a file in each turn of the event loop, so that the window stays alive and the whole can
/// be stopped: what was taken by then stays taken.
class RecordsPresenter final : public QObject {
    Q_OBJECT

public:
    explicit RecordsPresenter(RecordDeeds deeds, QObject* parent = nullptr);

    [[nodiscard]] const RecordsView& view() const { return m_view; }
    void refresh();
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
    void takeNext();
    void count(const record::TakenRecord& taken, RecordsView& view);
    void fillWaiting(RecordsView& view) const;
    void offerDiscard(RecordsView& view, const std::optional<Hash>& file);
    [[nodiscard]] QString discardQuestion() const;
    [[nodiscard]] QString outcome() const;

    RecordDeeds m_deeds;
    QTimer* m_turn;
    QStringList m_files;
    qsizetype m_next = 0;
    Tally m_tally;
    std::optional<Hash> m_tried; ///< waits still
    RecordsView m_view;
};

} // namespace coldarc::ui
