#pragma once

#include "core/review/history.h"
#include "core/store/database.h"
#include "core/visit/settlement.h"

#include <QMap>

#include <utility>

namespace coldarc::review {

/// How far the histories have read the logbooks.
struct HistoryReach {
    qint64 due = 0;    ///< visits that are not in the histories yet
    qint64 unread = 0; ///< visits whose logbooks cannot be read: they are in none

    friend bool operator==(const HistoryReach&, const HistoryReach&) = default;
};

/// A part of one history, and how much there is.
struct HistoryPage {
    Subject subject;
    QList<HistoryLine> lines; ///< newest first
    qint64 all = 0;
    std::vector<Stay> stays;           ///< of a lamp or a lamphouse, newest first, at most kMostStays
    std::vector<visit::OwedStep> owed; ///< still, to a lamp or a lamphouse, oldest first
    std::optional<lamps::LampInCustody> lamp{}; ///< as the lamps' records have it now
    QMap<QString, QString> offices{};           ///< of a person: their names, by thumbprint
    QSet<QString> dropped{};                    ///< those of them that are believed no longer
    /// Everything that the lines and stays name, as far as it is known.
    QMap<std::pair<About, QString>, Subject> named;

    /// Nothing where it is not known.
    [[nodiscard]] const Subject* find(About about, const QString& id) const;
};

/// The histories of one workspace: what its logbooks tell of lamps, lamphouses and people, kept as lines,
/// with what its own tables say of them. The lines are made from the logbooks a few at a time, whenever
/// somebody asks for that: no visit waits for them.
class HistoryStore {
public:
    static constexpr int kMostStays = 400;

    /// Borrows the database, which must outlive this. Schema: steps 0001 to 0004, 0008, 0009 and the one that
    /// made the histories.
    explicit HistoryStore(store::Database& database)
        : m_database(&database)
    {
    }

    [[nodiscard]] Result<HistoryReach> reach() const;
    /// Reads the logbooks of at most this many visits that are due, each in one transaction, and says how far
    /// that led. A logbook that cannot be read is left out, and remembered.
    Result<HistoryReach> catchUp(int most);

    /// Those whose name, type, screen or role holds every one of these words, lamps the last seen first, the
    /// others by name. A serial is found however it is spaced. Without a word: all. Lamps (by
    /// their serials alone) and people of the workspace are found before any visit told of them; lamphouses
    /// are not.
    /// @param most  > 0
    [[nodiscard]] Result<std::vector<Subject>> find(About about, const QString& words, int most) const;

    /// Two lamps of one type with one serial are one lamp, whatever workspace named them.
    /// NotFound where nothing is known of it. Pre: first >= 0, most > 0.
    [[nodiscard]] Result<HistoryPage> page(About about, const QString& id, qint64 first, int most) const;

private:
    Result<void> make(const VisitId& visit);
    Result<void> put(const VisitId& visit, const VisitHistory& history);
    Result<void> put(const Subject& subject);
    [[nodiscard]] Result<Subject> subject(About about, const QString& id) const;
    [[nodiscard]] Result<std::vector<Subject>> own(About about, const QStringList& words, int most) const;
    /// Its own, and those of its twins.
    [[nodiscard]] Result<QStringList> idsOf(const Subject& subject) const;
    [[nodiscard]] Result<QList<HistoryLine>> ownLines(About about, const QStringList& ids) const;
    [[nodiscard]] Result<QList<HistoryLine>> lines(const QString& text,
                                                   const store::Bindings& bindings) const;
    /// The lines with each lamp by one of its names, so that its coming and its going are of one lamp.
    [[nodiscard]] Result<QList<HistoryLine>> withOneName(QList<HistoryLine> lines) const;
    Result<void> addNow(HistoryPage& page, const QStringList& ids) const;
    Result<void> addNames(HistoryPage& page) const;

    store::Database* m_database;
};

} // namespace coldarc::review
