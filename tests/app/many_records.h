#pragma once

#include "core/people/office_store.h"
#include "core/record/record.h"
#include "core/visit/wanted_signature.h"
#include "tests/core/visit/night.h"

#include <QByteArray>
#include <QList>

namespace coldarc::test {

/// Signed records by the thousand: one invented night, told again as other visits, each with a picture of its
/// own, and each accepted by a supervisor. An office vouches for the keys.
class ManyRecords {
public:
    ManyRecords();

    /// Who did the work, and takes the records in.
    [[nodiscard]] PersonId engineer() const { return m_engineer; }
    [[nodiscard]] Stamp now() const { return m_now; }
    /// Makes a workspace believe the office, as somebody there who has the engineer's name.
    void believeIn(store::Database& database) const;

    [[nodiscard]] static VisitId visitOf(int number);
    [[nodiscard]] record::Record recordOf(int number) const;
    [[nodiscard]] QByteArray fileOf(int number) const;

private:
    people::SigningKey m_key;
    people::SigningKey m_supervisor;
    people::SigningKey m_office;
    PersonId m_engineer;
    VisitId m_told;
    Stamp m_now;
    record::Picture m_toldPicture;
    QList<QByteArray> m_entries;
    QList<visit::WantedSignature> m_wanted;
    record::Vouching m_vouching;
};

} // namespace coldarc::test
