#pragma once

#include "ui/parts/strip.h"
#include "ui/people/session_keeper.h"
#include "ui/shell/top_bar.h"

#include <QObject>

#include <functional>

namespace coldarc::ui {

/// What a message is about: a newer one of the same takes its place, and it goes once that is settled.
enum class About {
    Program,
    Inside,  ///< whether somebody is inside of a visit that cannot be read
    Zone,    ///< somebody is, at the bench
    Visit,   ///< opening one
    Press,   ///< writing what was pressed
    Signing, ///< keeping a signature
    Saving,  ///< a file that was asked for
    Sleep,   ///< of the laptop, during a swap
    KeyFile, ///< reading one
    Codes,   ///< what was taught of them
};

/// Something that did not go as it should, for the person at the screen.
struct Trouble {
    QString happened; ///< "The visit could not be written."
    QString kept;     ///< "Everything up to 13:02 is kept."
    QString todo;     ///< "Make room on the disk, then press again."

    friend bool operator==(const Trouble&, const Trouble&) = default;
};

/// Everything that the frame round the pages shows.
struct ShellView {
    enum class Stand {
        Start,  ///< an empty workspace: the first page alone
        SignIn, ///< nobody is here
        AtWork,
    };
    Stand stand = Stand::SignIn;
    TopBarView bar;
    QString here;   ///< id of the place in sight
    QString banner; ///< across the window; or empty
    StripView strip;
    bool isCovered = false; ///< the lock lies over everything

    friend bool operator==(const ShellView&, const ShellView&) = default;
};

/// Decides which places are offered to whom and what the frame says. It knows no page.
class ShellPresenter final : public QObject {
    Q_OBJECT

public:
    struct Place {
        QString id;
        QString title;
        QString shortcut;
        QList<people::Role> roles; ///< to whom it is offered
        /// To whom it is offered besides, whatever their role; empty: to nobody.
        std::function<bool(const people::Person&)> alsoTo{};
    };

    /// Borrows the keeper, which must outlive the presenter.
    explicit ShellPresenter(SessionKeeper& keeper, QObject* parent = nullptr);

    [[nodiscard]] const ShellView& view() const { return m_view; }
    /// The places that are offered to whoever is here.
    [[nodiscard]] QList<Place> places() const;

    void addPlace(const Place& place);
    void showStart();
    void showSignIn();
    void showWork();
    /// This place although nobody has signed in: somebody is inside.
    void showUnsigned(const QString& place);
    /// A place that is not offered is not gone to.
    void go(const QString& place);
    void setSite(const QString& site);
    void setThemeWord(const QString& word);
    /// Why nothing can be written here; empty: it can.
    void setReadOnly(const QString& why);
    /// Somebody stands in the zone with the gear on: then no lock is put over the page, since the way out has
    /// to stay in reach; the frame says that entries go on unsigned.
    void setInZone(bool isInZone);
    /// The newest is in sight; the one before it is again once that one goes. None of them stays for whoever
    /// signs in next.
    void say(const Trouble& trouble, About about = About::Program);
    /// It is so no more, or was done since.
    void settle(About about);
    /// Takes away the one in sight.
    void dismiss();

Q_SIGNALS:
    void viewChanged(const coldarc::ui::ShellView& view);

private:
    struct Said {
        Trouble trouble;
        About about;
    };
    void changeWho();
    void refresh();

    SessionKeeper& m_keeper;
    QList<Place> m_places;
    ShellView::Stand m_stand = ShellView::Stand::SignIn;
    QString m_here;
    QString m_site;
    QString m_theme;
    QString m_readOnly;
    bool m_inZone = false;
    QList<Said> m_said;
    PersonId m_who; ///< who is here; empty: nobody
    ShellView m_view;
};

} // namespace coldarc::ui
