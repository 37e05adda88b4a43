#pragma once

#include "core/visit/logbook.h"

#include <QObject>
#include <QTimeZone>

namespace coldarc::ui {

/// A signature that an entry asks for: sign-in, stop, incident, signing and closing; a second person's for
/// their press beside somebody's, that of whoever came only to prove absence for each proof, and both for the
/// removal of a lock.
struct WantedSignature {
    qint64 entry = 0;
    PersonId person;
    QString meaning; ///< a word of people::Meaning

    friend bool operator==(const WantedSignature&, const WantedSignature&) = default;
};

/// Every signature that these entries ask for, in their order.
[[nodiscard]] QList<WantedSignature> wantedSignatures(const QList<visit::Entry>& entries,
                                                      const visit::VisitState& state);

/// One visit at one laptop: who presses now, what the clock says, and the one way to the logbook for
/// everything that the pages ask. The signatures themselves are made elsewhere: each one that is due is
/// called out.
class VisitDesk final : public QObject {
    Q_OBJECT

public:
    /// Borrows the logbook and the clock, which must outlive the desk.
    VisitDesk(visit::Logbook& logbook, const Clock& clock, PersonId presses,
              QTimeZone zone = QTimeZone::systemTimeZone(), QObject* parent = nullptr);

    [[nodiscard]] const visit::Logbook& logbook() const { return m_logbook; }
    [[nodiscard]] const Clock& clock() const { return m_clock; }
    [[nodiscard]] const QTimeZone& zone() const { return m_zone; }
    [[nodiscard]] const PersonId& presses() const { return m_presses; }
    /// The next presses of the main action are this person's.
    void setPresses(const PersonId& person) { m_presses = person; }
    /// The visit as it stands now.
    [[nodiscard]] visit::VisitState seen() const;

    /// What became of something that was asked.
    struct Told {
        QStringList no;         ///< why not, in sentences; empty: it is kept
        visit::Refusal refusal; ///< of a rule that said no
        std::optional<visit::Entry> entry;
        [[nodiscard]] bool isKept() const { return entry.has_value(); }
    };
    Told tell(const PersonId& by, const visit::Body& asked);
    Told tell(const visit::Body& asked) { return tell(m_presses, asked); }

    /// Signatures that were made and kept, as the store has them.
    /// @param broken  those among them that do not verify: not by this person's key, or not over this
    /// logbook.
    void setKept(const QList<WantedSignature>& kept, const QList<WantedSignature>& broken = {});
    [[nodiscard]] const QList<WantedSignature>& kept() const { return m_kept; }
    [[nodiscard]] const QList<WantedSignature>& broken() const { return m_broken; }
    [[nodiscard]] QList<WantedSignature> missing() const;

Q_SIGNALS:
    /// An entry was kept: everything shown may have changed.
    void changed();
    void signatureWanted(const coldarc::ui::WantedSignature& wanted);
    /// The disk or the database refused; nothing was changed.
    void failed(const QString& detail);

private:
    visit::Logbook& m_logbook;
    const Clock& m_clock;
    PersonId m_presses;
    QTimeZone m_zone;
    QList<WantedSignature> m_kept;
    QList<WantedSignature> m_broken;
};

} // namespace coldarc::ui
