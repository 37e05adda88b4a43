#pragma once

#include "ui/visit/bench_view.h"
#include "ui/visit/visit_desk.h"
#include "ui/visit/visit_summary.h"

namespace coldarc::ui {

/// One signature, given or still to come.
struct SignLine {
    QString name;
    QString role;
    QString meaning;           ///< "did and led the work"
    QString when;              ///< with its offset from UTC; empty: not yet
    bool isKeyMissing = false; ///< the entry stands, the signature over it is not made yet

    friend bool operator==(const SignLine&, const SignLine&) = default;
};

/// Everything that the signing page shows.
struct SignOffView {
    QString site;
    QList<SignLine> lines;
    QList<CaptureView> asks; ///< where each lamp goes, as far as it is open; or the contact's name and role
    QList<SummarySection> summary; ///< what is signed
    QStringList said;              ///< what stands in the way
    QString head;                  ///< the head of the chain, shortened
    QStringList missing;           ///< by person, signatures that were asked for and are not made yet
    QString without; ///< what a second button does: "Go on without the site's signature"; or empty
    ActionView action;

    friend bool operator==(const SignOffView&, const SignOffView&) = default;
};

/// The end of a visit: the lead signs, whoever took part signs, the site's contact signs as a witness, then
/// it is closed. Nothing waits for somebody who is not there.
class SignOffPresenter final : public QObject {
    Q_OBJECT

public:
    /// Borrows the desk, which must outlive the presenter.
    explicit SignOffPresenter(VisitDesk& desk, QObject* parent = nullptr);

    [[nodiscard]] const SignOffView& view() const { return m_view; }
    void open();
    void done(const QList<CaptureAnswer>& answers);
    /// Whoever would sign next is not there.
    void goOnWithout();

Q_SIGNALS:
    void viewChanged(const coldarc::ui::SignOffView& view);
    void closed();

private:
    enum class Stage {
        Custody,
        Lead,
        TookPart,
        Contact,
        Close,
        Closed,
    };
    [[nodiscard]] Stage stage(const visit::VisitState& state) const;
    [[nodiscard]] machine::Index nextToSign(const visit::VisitState& state) const;
    void refresh();
    void wordStage(SignOffView& view, const visit::VisitState& state) const;
    void decideCustody(const QJsonObject& said);
    [[nodiscard]] bool finishSteps(const visit::VisitState& state);

    VisitDesk& m_desk;
    SignOffView m_view;
    QList<PersonId> m_absent;
    bool m_isContactAbsent = false;
    bool m_isRoleMissing = false; ///< of whoever was last said to sign for the site
    QStringList m_said;
};

/// What a signature says, in words: "did and led the work".
[[nodiscard]] QString meaningWords(const QString& meaning);

} // namespace coldarc::ui
