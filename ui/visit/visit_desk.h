#pragma once

#include "core/visit/logbook.h"
#include "core/visit/wanted_signature.h"

#include <QObject>
#include <QTimeZone>

namespace coldarc::ui {

using visit::WantedSignature;
using visit::wantedSignatures;

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
    /// What a person's key has not signed yet.
    [[nodiscard]] QList<WantedSignature> missingOf(const PersonId& person) const;
    /// This person pressed to sign it now.
    void signWaiting(const PersonId& person) { Q_EMIT signingWanted(person); }

Q_SIGNALS:
    /// An entry was kept: everything shown may have changed.
    void changed();
    void signatureWanted(const coldarc::ui::WantedSignature& wanted);
    void signingWanted(const coldarc::PersonId& person);
    /// The disk or the database refused; nothing was changed.
    void failed(const coldarc::Error& error);

private:
    visit::Logbook& m_logbook;
    const Clock& m_clock;
    PersonId m_presses;
    QTimeZone m_zone;
    QList<WantedSignature> m_kept;
    QList<WantedSignature> m_broken;
};

} // namespace coldarc::ui
