#pragma once

#include "core/review/reviewing.h"
#include "ui/review/verdict_view.h"
#include "ui/review/visit_reading.h"

#include <QHash>
#include <QObject>
#include <QTimeZone>

namespace coldarc::ui {

/// What signing a review asks of the workspace. The program's root gives it.
struct VerdictDeeds {
    /// Who reviews, as the workspace has them now; nothing where nobody is signed in, or it cannot be read.
    std::function<std::optional<review::Reviewer>()> reviewer;
    std::function<bool()> isKeyOpen;
    /// Signs with that key and keeps the paper, both or neither. Error::Conflict where the visit, or what the
    /// reviewer may do, is not as the review has it; Refused where the key is not open; Storage.
    std::function<Result<void>(const record::Review& review)> sign;
};

/// Remarks, accepting and sending back. What is signed is what was in sight at the press: the visit as it was
/// read, the remarks as they are listed. What is written and not signed stays with its visit until the
/// program ends or somebody else signs in.
class VerdictPresenter final : public QObject {
    Q_OBJECT

public:
    /// Borrows the clock, which must outlive the presenter.
    /// @param zone  whose days those of authorisations are.
    VerdictPresenter(VerdictDeeds deeds, const Clock& clock, QTimeZone zone = QTimeZone::systemTimeZone(),
                     QObject* parent = nullptr);

    [[nodiscard]] const VerdictView& view() const { return m_view; }
    /// The visit in sight; nullptr: there is none, or it is being read.
    void show(std::shared_ptr<const VisitReading> reading);
    /// The entry in hand, which a remark is about.
    void setMoment(qint64 entry);
    /// The key opened or locked, or somebody else is here.
    void look();

    void beginRemark();
    void beginSendBack();
    void leaveForm();
    void setDraft(const QString& text);
    /// The main action.
    void done();
    /// Takes a remark back that is not signed yet, by its line.
    void dropRemark(const QString& id);

Q_SIGNALS:
    void viewChanged(const coldarc::ui::VerdictView& view);
    /// A review was signed and kept.
    void given(const coldarc::VisitId& visit, coldarc::record::Verdict verdict);
    /// The visit is not as it was read: it has to be read anew.
    void grew(const coldarc::VisitId& visit);

private:
    struct Draft {
        QList<record::ReviewRemark> remarks;
        QString remark;      ///< being written
        qint64 remarkOn = 0; ///< the entry that it is about
        QString why;         ///< why it is sent back
    };
    [[nodiscard]] Draft& draft() { return m_drafts[m_reading->visit]; }
    [[nodiscard]] Draft draft() const { return m_reading ? m_drafts.value(m_reading->visit) : Draft(); }
    void refresh();
    void fill(VerdictView& view) const;
    void fillForm(VerdictView& view) const;
    [[nodiscard]] QString begun() const;
    void keepRemark();
    void sign(record::Verdict verdict);
    [[nodiscard]] record::Review reviewOf(record::Verdict verdict) const;
    [[nodiscard]] review::VisitAtReview atReview() const;
    [[nodiscard]] QStringList refusals(const record::Review& review) const;
    [[nodiscard]] QString statement(record::Verdict verdict) const;
    [[nodiscard]] QString remarkName(qint64 entry) const;

    VerdictDeeds m_deeds;
    const Clock& m_clock;
    QTimeZone m_zone;
    std::optional<review::Reviewer> m_reviewer;
    std::shared_ptr<const VisitReading> m_reading;
    qint64 m_entry = 0;
    std::optional<VerdictForm::Kind> m_form;
    QHash<VisitId, Draft> m_drafts;
    PersonId m_draftsOf; ///< whoever wrote them
    QString m_said;
    bool m_isSaidNew = false; ///< it is told beside the next visit still
    VerdictView m_view;
};

} // namespace coldarc::ui
