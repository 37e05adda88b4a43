#pragma once

#include "core/review/queue_store.h"

#include <QAbstractListModel>
#include <QCache>
#include <QTimeZone>

#include <functional>

namespace coldarc::ui {

/// A part of the queue, as the store gives it.
using QueueSource = std::function<Result<review::QueuePage>(
    const review::QueueFilter& filter, review::QueueOrder order, qint64 first, int most)>;
/// How many visits of it stand before this one; -1: it is not there.
using QueuePlace = std::function<Result<qint64>(const review::QueueFilter& filter, review::QueueOrder order,
                                                const VisitId& visit)>;

/// One visit of the queue in words.
struct QueueRow {
    VisitId visit;
    QString title;          ///< "Pier Street, Screen 2"
    QString day;            ///< "2026-11-23"
    QString what;           ///< "the labels did not agree at first, and 2 more"
    QString who;            ///< "A. Okoro · waits"
    bool isUnusual = false; ///< something in it is out of the ordinary
    Hash head{};            ///< the last link of its chain, as its line was written
    QString review{};       ///< the word for how it stands

    friend bool operator==(const QueueRow&, const QueueRow&) = default;
};

/// The queue of the review desk. It knows how many visits there are and holds a few pages of them, read when
/// a row is looked at: tens of thousands of visits take no more room than a few hundred.
class QueueModel final : public QAbstractListModel {
    Q_OBJECT

public:
    static constexpr int kPage = 60;       ///< rows read at once
    static constexpr int kPagesInHand = 8; ///< read again once others were looked at

    /// @param place  asked for visits that are in no page in hand; may be empty.
    explicit QueueModel(QueueSource source, QTimeZone zone = QTimeZone::systemTimeZone(),
                        QueuePlace place = {}, QObject* parent = nullptr);

    /// Reads it anew. Empty where it could not be read: `trouble` says why then.
    void show(const review::QueueFilter& filter, review::QueueOrder order);
    [[nodiscard]] qint64 all() const { return m_all; }
    [[nodiscard]] qint64 unusual() const { return m_unusual; }
    /// Why nothing could be read, for the log; or empty.
    [[nodiscard]] const QString& trouble() const { return m_trouble; }

    /// Nothing where there is no such row, or it could not be read.
    [[nodiscard]] std::optional<QueueRow> row(int number) const;
    /// The row of a visit; -1: there is none, or it could not be read.
    [[nodiscard]] int rowOf(const VisitId& visit) const;
    /// Pages that are held now.
    [[nodiscard]] qsizetype pagesInHand() const { return m_pages.size(); }

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;

private:
    using Page = QList<QueueRow>;
    [[nodiscard]] const Page* page(int number) const;
    [[nodiscard]] Page wordsOf(const review::QueuePage& read) const;

    QueueSource m_source;
    QueuePlace m_place;
    QTimeZone m_zone;
    review::QueueFilter m_filter;
    review::QueueOrder m_order = review::QueueOrder::Weight;
    qint64 m_all = 0;
    qint64 m_unusual = 0;
    QString m_trouble;
    mutable QCache<int, Page> m_pages{kPagesInHand};
};

/// How a visit stands with its review: "waits", "accepted", "sent back", "answered".
[[nodiscard]] QString nameOf(review::Stand stand);

} // namespace coldarc::ui
