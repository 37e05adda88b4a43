#include "ui/shell/shell_presenter.h"

#include "ui/people/people_words.h"

namespace coldarc::ui {

using namespace Qt::StringLiterals;

ShellPresenter::ShellPresenter(SessionKeeper& keeper, QObject* parent)
    : QObject(parent)
    , m_keeper(keeper)
{
    connect(&keeper, &SessionKeeper::stateChanged, this, &ShellPresenter::refresh);
    connect(&keeper, &SessionKeeper::whoChanged, this, &ShellPresenter::changeWho);
}

QList<ShellPresenter::Place> ShellPresenter::places() const
{
    QList<Place> offered;
    if (!m_keeper.who())
        return offered;
    for (const Place& place : m_places) {
        if (place.roles.contains(m_keeper.who()->role) || (place.alsoTo && place.alsoTo(*m_keeper.who())))
            offered.append(place);
    }
    return offered;
}

void ShellPresenter::addPlace(const Place& place)
{
    m_places.append(place);
    refresh();
}

void ShellPresenter::showStart()
{
    m_stand = ShellView::Stand::Start;
    refresh();
}

void ShellPresenter::showSignIn()
{
    m_stand = ShellView::Stand::SignIn;
    m_site.clear();
    refresh();
}

void ShellPresenter::showWork()
{
    m_stand = ShellView::Stand::AtWork;
    const QList<Place> offered = places();
    if (m_here.isEmpty() && !offered.isEmpty())
        m_here = offered.first().id;
    refresh();
}

void ShellPresenter::showUnsigned(const QString& place)
{
    m_stand = ShellView::Stand::AtWork;
    m_here = place;
    refresh();
}

void ShellPresenter::go(const QString& place)
{
    const QList<Place> offered = places();
    for (const Place& one : offered) {
        if (one.id == place && m_here != place) {
            m_here = place;
            m_said.removeIf([](const Said& said) { return said.about == About::Saving; });
        }
    }
    refresh();
}

void ShellPresenter::setSite(const QString& site)
{
    m_site = site;
    refresh();
}

void ShellPresenter::setThemeWord(const QString& word)
{
    m_theme = word;
    refresh();
}

void ShellPresenter::setReadOnly(const QString& why)
{
    m_readOnly = why;
    refresh();
}

void ShellPresenter::setInZone(bool isInZone)
{
    m_inZone = isInZone;
    refresh();
}

void ShellPresenter::say(const Trouble& trouble, About about)
{
    m_said.removeIf([&](const Said& one) { return one.about == about; });
    m_said.append({trouble, about});
    refresh();
}

void ShellPresenter::settle(About about)
{
    m_said.removeIf([&](const Said& one) { return one.about == about; });
    refresh();
}

void ShellPresenter::dismiss()
{
    if (!m_said.isEmpty())
        m_said.removeLast();
    refresh();
}

void ShellPresenter::changeWho()
{
    if (!m_who.isEmpty())
        m_said.clear();
    m_who = m_keeper.whoId();
    refresh();
}

void ShellPresenter::refresh()
{
    using State = SessionKeeper::State;
    const bool isLocked = m_keeper.state() == State::Locked || m_keeper.state() == State::Ended;
    ShellView view;
    view.stand = m_stand;
    view.here = m_here;
    view.bar.theme = m_theme;
    if (m_stand == ShellView::Stand::AtWork) {
        const QList<Place> offered = places();
        for (const Place& place : offered)
            view.bar.places.append({place.id, place.title, place.shortcut, place.id == m_here});
        view.bar.site = m_site;
        if (m_keeper.who())
            view.bar.who = tr("%1, %2").arg(m_keeper.who()->name, wordFor(m_keeper.who()->role));
        view.isCovered = (isLocked || m_keeper.state() == State::Busy) && !m_inZone;
    }
    QStringList banners;
    if (!m_readOnly.isEmpty())
        banners << m_readOnly;
    if (m_stand == ShellView::Stand::AtWork && m_inZone && m_keeper.state() != State::Open)
        banners << tr("No key is open. Go on: what you do is written and stands unsigned, and the next "
                      "signature outside "
                      "the zone covers it.");
    view.banner = banners.join(u'\n');
    const Trouble newest = m_said.isEmpty() ? Trouble() : m_said.last().trouble;
    QStringList trouble{newest.happened, newest.kept, newest.todo};
    trouble.removeAll(QString());
    view.strip = {trouble.join(u' '), {}, {}, StripView::Call::Silent};
    if (view == m_view)
        return;
    m_view = view;
    Q_EMIT viewChanged(m_view);
}

} // namespace coldarc::ui
