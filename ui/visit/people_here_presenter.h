#pragma once

#include "ui/people/key_ring.h"
#include "ui/visit/people_here_view.h"
#include "ui/visit/visit_desk.h"

#include <functional>

namespace coldarc::ui {

/// What the page of who is here needs beyond the visit. The program's root brings it.
struct PeopleTools {
    KeyRing* ring = nullptr; ///< borrowed; nullptr: no key is opened here
    /// Everybody of the workspace, as they would join now.
    std::function<QList<visit::PersonFacts>()> everybody{};
};

/// Who is here, what each one still owes, and the few things that change it: joining, taking over, leaving,
/// the lock of somebody absent, being told of it, and opening one's own key. It has no widget; whoever shows
/// it calls `refresh` now and then.
class PeopleHerePresenter final : public QObject {
    Q_OBJECT

public:
    /// Borrows the desk, which must outlive the presenter.
    explicit PeopleHerePresenter(VisitDesk& desk, QObject* parent = nullptr);

    void setTools(PeopleTools tools);
    [[nodiscard]] const PeopleHereView& view() const { return m_view; }

    /// @param person  who is shown first; empty: whoever is first in the list.
    void open(const PersonId& person = {});
    void refresh();
    void choose(const QString& person);
    /// A row of `deeds` was pressed.
    void begin(const QString& deed);
    /// Somebody came who is not of this visit yet.
    void beginJoining();
    void chooseNewcomer(const QString& person);
    void done(const QList<CaptureAnswer>& answers, const people::TypedSecret& secret,
              const people::TypedSecret& again);
    /// Back to the deeds, or, where nothing was begun, off the page.
    void leave();

Q_SIGNALS:
    void viewChanged(const coldarc::ui::PeopleHereView& view);
    void left();

private:
    enum class Form {
        None,
        Join,
        PassOn,
        RemoveLock,
        Told,
        Leave,
        Passphrase,
        Pin,
        NewPin,
    };
    struct Moment;

    void beginForm(Form form);
    void finishForm();
    [[nodiscard]] QList<RowView> rowsOf(const Moment& moment) const;
    [[nodiscard]] QList<PeopleHereView::Fact> factsOf(const Moment& moment) const;
    [[nodiscard]] QList<PeopleHereView::Deed> deedsOf(const Moment& moment) const;
    void wordForm(PeopleHereView& view, const Moment& moment) const;
    void wordJoin(PeopleHereView& view, const Moment& moment) const;
    void wordPassOn(PeopleHereView& view, const Moment& moment) const;
    void wordRemoveLock(PeopleHereView& view, const Moment& moment) const;
    void wordTold(PeopleHereView& view, const Moment& moment) const;
    void wordLeave(PeopleHereView& view, const Moment& moment) const;
    void wordKey(PeopleHereView& view, const Moment& moment) const;
    [[nodiscard]] QString keyText(const PersonId& person) const;
    [[nodiscard]] QStringList missingOf(const PersonId& person) const;
    [[nodiscard]] PersonId leaveIsSaidBy(const Moment& moment) const;
    void tellKey(const people::TypedSecret& secret, const people::TypedSecret& again);
    void answered(const PersonId& person, const KeyRing::Answer& answer);
    void settle(const VisitDesk::Told& told);

    VisitDesk& m_desk;
    PeopleTools m_tools;
    PeopleHereView m_view;
    PersonId m_chosen;
    Form m_form = Form::None;
    int m_forms = 0; ///< how many were begun: each is a step of its own
    QList<visit::PersonFacts> m_everybody;
    PersonId m_newcomer;
    QString m_secretError;
    QString m_againError;
    int m_emptied = 0;
    QStringList m_said;
};

} // namespace coldarc::ui
