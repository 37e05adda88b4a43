#pragma once

#include "core/people/key_store.h"
#include "core/people/people_store.h"
#include "core/record/intake_store.h"
#include "core/review/record_doubts.h"
#include "core/store/summaries.h"

#include <QString>
#include <QTimeZone>

namespace coldarc::app {

/// Takes records of other workspaces into this one, each wholly or not at all: a program that ends on the way
/// loses none that was taken.
class RecordIntake {
public:
    /// Borrows the database, which must outlive this.
    /// @param zone  whose days those of authorisations are.
    explicit RecordIntake(store::Database& database, QTimeZone zone = QTimeZone::systemTimeZone())
        : m_database(&database)
        , m_zone(std::move(zone))
        , m_store(database)
        , m_offices(database)
        , m_people(database)
        , m_keys(database)
        , m_summaries(database)
    {
    }

    record::TakenRecord takeFile(const QString& file, const PersonId& by, const Stamp& now);
    /// @param name  that the answer carries.
    record::TakenRecord takeBytes(const QString& name, const QByteArray& bytes, const PersonId& by,
                                  const Stamp& now);
    /// One that waits, with what is known by now.
    record::TakenRecord tryAgain(const Hash& file, const PersonId& by, const Stamp& now);

private:
    /// One that comes, and what is known of it and of its keys here.
    struct Coming {
        const record::Record& record;
        const review::CheckedRecord& checked;
        const review::FoldedRecord& folded;
        const people::Trust& trust; ///< in its keys, and in those of whoever signed or reviewed here before
    };
    [[nodiscard]] Result<record::Believed> believed(const record::Record& record,
                                                    const review::CheckedRecord& checked,
                                                    const visit::VisitState& state,
                                                    const record::Standing& standing) const;
    [[nodiscard]] Result<review::Reviewer> ownReviewer(const PersonId& id) const;
    [[nodiscard]] Result<QHash<QString, QString>> ownNames(const review::CheckedRecord& checked,
                                                           const people::Trust& trust) const;
    [[nodiscard]] Result<record::EntriesTold> told(const review::CheckedRecord& checked,
                                                   const review::FoldedRecord& folded,
                                                   const people::Trust& trust,
                                                   const record::Standing& standing, const Stamp& now) const;
    Result<void> write(const Coming& coming, record::TakenRecord& taken, const QByteArray& bytes,
                       const PersonId& by, const Stamp& now);
    Result<void> add(const Coming& coming, const record::Intake& intake, const PersonId& by, const Stamp& now,
                     bool& isUnderstood);
    /// @param entries  that it was made of, all that stand here of the visit.
    Result<void> putSummary(Result<store::VisitSummary> summary, const VisitId& visit,
                            const std::vector<store::Entry>& entries);

    store::Database* m_database;
    QTimeZone m_zone;
    record::IntakeStore m_store;
    people::OfficeStore m_offices;
    people::PeopleStore m_people;
    people::KeyStore m_keys;
    store::Summaries m_summaries;
};

} // namespace coldarc::app
