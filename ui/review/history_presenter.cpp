#include "ui/review/history_presenter.h"

#include "ui/review/words_history.h"
#include "ui/site/site_words.h"

#include <QLocale>
#include <QTimer>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using review::About;

constexpr int kAtOnce = 2; // a logbook is read in some ten milliseconds: the window stays alive

QString hintFor(About about)
{
    switch (about) {
    case About::Lamp:
        return HistoryPresenter::tr("A part of its serial, or its type");
    case About::Lamphouse:
        return HistoryPresenter::tr("Site or screen");
    case About::Person:
        return HistoryPresenter::tr("A part of the name");
    }
    Q_UNREACHABLE();
}

/// What is said where nothing at all is there yet.
QString nothingOf(About about)
{
    switch (about) {
    case About::Lamp:
        return HistoryPresenter::tr("No lamp is known yet. One is, once it is in the stock or at a visit.");
    case About::Lamphouse:
        return HistoryPresenter::tr("No lamphouse was visited yet. It stands here after its first visit.");
    case About::Person:
        return HistoryPresenter::tr("Nobody is known yet.");
    }
    Q_UNREACHABLE();
}

} // namespace

HistoryPresenter::HistoryPresenter(review::HistoryStore& store, const QTimeZone& zone, Reading reading,
                                   QObject* parent)
    : QObject(parent)
    , m_store(store)
    , m_zone(zone)
    , m_reading(reading)
    , m_turn(new QTimer(this))
{
    m_turn->setSingleShot(true);
    connect(m_turn, &QTimer::timeout, this, &HistoryPresenter::readOn);
}

void HistoryPresenter::open()
{
    m_said.clear();
    m_reach = m_store.reach();
    find();
    read();
    refresh();
    if (m_reading == Reading::Allowed && m_reach && m_reach->due > 0)
        m_turn->start(0);
}

void HistoryPresenter::readOn()
{
    m_reach = m_store.catchUp(kAtOnce);
    if (m_reach && m_reach->due > 0) {
        m_turn->start(0);
    } else {
        find();
        read();
    }
    refresh();
}

void HistoryPresenter::chooseAbout(const QString& word)
{
    const auto about = review::aboutFromWord(word);
    if (!about || *about == m_about)
        return;
    m_about = *about;
    m_words.clear();
    m_chosen.clear();
    m_page.reset();
    m_said.clear();
    find();
    refresh();
}

void HistoryPresenter::search(const QString& words)
{
    if (words == m_words)
        return;
    m_words = words;
    m_said.clear();
    find();
    refresh();
}

void HistoryPresenter::choose(const QString& id)
{
    m_chosen = id;
    m_first = 0;
    m_said.clear();
    read();
    refresh();
}

void HistoryPresenter::show(About about, const QString& id)
{
    if (about != m_about) {
        m_about = about;
        m_words.clear();
        find();
    }
    choose(id);
}

void HistoryPresenter::showLamp(const LampId& lamp)
{
    show(About::Lamp, lamp.text());
}

void HistoryPresenter::showLamphouse(const LamphouseId& lamphouse)
{
    show(About::Lamphouse, lamphouse.text());
}

void HistoryPresenter::showPerson(const PersonId& person)
{
    show(About::Person, person.text());
}

void HistoryPresenter::older()
{
    if (!m_view.hasOlder)
        return;
    m_first += kMostLines;
    read();
    refresh();
}

void HistoryPresenter::newer()
{
    if (!m_view.hasNewer)
        return;
    m_first -= kMostLines;
    read();
    refresh();
}

void HistoryPresenter::lookUp(const QString& id)
{
    if (!m_page || !*m_page)
        return;
    bool isNumber = false;
    const qsizetype index = id.toLongLong(&isNumber);
    const QList<review::HistoryLine>& lines = (*m_page)->lines;
    if (isNumber && index >= 0 && index < lines.size() && !lines[index].visit.isEmpty())
        Q_EMIT lookUpRequested(lines.value(index).visit, lines.value(index).entry);
}

void HistoryPresenter::followStay(const QString& id)
{
    if (!m_page || !*m_page)
        return;
    bool isNumber = false;
    const qulonglong index = id.toULongLong(&isNumber);
    const std::vector<review::Stay>& stays = (*m_page)->stays;
    if (!isNumber || index >= stays.size())
        return;
    const review::Stay stay = stays[index]; // the page goes when another one is shown
    if (m_about == About::Lamp)
        showLamphouse(stay.lamphouse);
    else
        showLamp(stay.lamp);
}

void HistoryPresenter::find()
{
    m_found = m_store.find(m_about, m_words, kMostFound + 1);
}

void HistoryPresenter::read()
{
    m_page.reset();
    if (!m_chosen.isEmpty())
        m_page = m_store.page(m_about, m_chosen, m_first, kMostLines);
}

void HistoryPresenter::copied()
{
    m_said = tr("Copied.");
    refresh();
}

void HistoryPresenter::refresh()
{
    HistoryView view;
    view.about.options = {{review::wordOf(About::Lamp), tr("Lamp")},
                          {review::wordOf(About::Lamphouse), tr("Lamphouse")},
                          {review::wordOf(About::Person), tr("Person")}};
    view.about.chosen = review::wordOf(m_about);
    view.words = m_words;
    view.hint = hintFor(m_about);
    view.chosen = m_chosen;
    view.said = m_said;
    wordReach(view);
    wordFound(view);
    wordPage(view);
    if (view == m_view)
        return;
    m_view = std::move(view);
    Q_EMIT viewChanged(m_view);
}

void HistoryPresenter::wordReach(HistoryView& view) const
{
    if (!m_reach) {
        view.reach = tr("The logbooks could not be read further. What is shown may lack visits.");
        return;
    }
    const QLocale locale;
    QStringList parts;
    if (m_reach->due > 0)
        parts.append((m_reading == Reading::Allowed
                          ? tr("Visits still being read: %1.")
                          : tr("Visits that are not in here yet, since this window may not write: %1."))
                         .arg(locale.toString(m_reach->due)));
    if (m_reach->unread > 0)
        parts.append(tr("Logbooks that cannot be read: %1. Their visits are missing here; a backup may hold "
                        "them whole.")
                         .arg(locale.toString(m_reach->unread)));
    view.reach = parts.join(u' ');
}

void HistoryPresenter::wordFound(HistoryView& view) const
{
    if (!m_found) {
        view.notFound = tr("The list could not be read. Nothing was changed.");
        return;
    }
    for (const review::Subject& subject : *m_found) {
        if (view.found.size() == kMostFound) {
            view.more = tr("There are more. Type a part of the name to find them.");
            break;
        }
        view.found.append({subject.id, nameOf(subject), subOf(subject, m_zone), QString()});
    }
    if (view.found.isEmpty())
        view.notFound = m_words.trimmed().isEmpty() ? nothingOf(m_about)
                                                    : tr("Nothing here goes by that. Type less of it.");
}

void HistoryPresenter::wordPage(HistoryView& view) const
{
    if (!m_page) {
        view.noLines = view.found.isEmpty() ? QString() : tr("Choose one at the left.");
        return;
    }
    const Result<review::HistoryPage>& page = *m_page;
    if (!page) {
        view.noLines = page.error().kind == Error::Kind::NotFound
                           ? tr("Nothing is known of it here.")
                           : tr("Its history could not be read. Nothing was changed.");
        return;
    }
    view.title = nameOf(page->subject);
    view.sub = page->lamp ? wordsOf(*page->lamp, *page) : subOf(page->subject, m_zone);
    for (const visit::OwedStep& step : page->owed)
        view.owed.append(
            {QString(), step.title, tr("since %1").arg(momentText(step.since, m_zone)), QString()});
    view.staysName = page->stays.empty()      ? QString()
                     : m_about == About::Lamp ? tr("Where it was fitted, newest first")
                                              : tr("Lamps in it, newest first");
    for (const review::Stay& stay : page->stays) {
        const StayWords said = wordsOf(stay, *page, m_zone);
        view.stays.append({QString::number(view.stays.size()), said.name, said.more, tr("Its history")});
    }
    for (const review::HistoryLine& line : page->lines)
        view.lines.append({QString::number(view.lines.size()), wordsOf(line, *page), placeWords(line, m_zone),
                           line.visit.isEmpty() ? QString() : tr("Look it up")});
    const QLocale locale;
    view.hasNewer = m_first > 0;
    view.hasOlder = m_first + page->lines.size() < page->all;
    if (page->lines.isEmpty())
        view.noLines = tr("No visit has told of it yet.");
    else
        view.part = tr("%1 to %2 of %3")
                        .arg(locale.toString(m_first + 1), locale.toString(m_first + page->lines.size()),
                             locale.toString(page->all));
}

QString HistoryPresenter::text() const
{
    QStringList text;
    const auto add = [&](const QString& name, const QList<CardLine>& lines) {
        if (lines.isEmpty())
            return;
        text << QString() << name;
        for (const CardLine& line : lines)
            text << (line.sub.isEmpty() ? line.text : u"%1\t%2"_s.arg(line.sub, line.text));
    };
    text << m_view.title << m_view.sub;
    text.removeAll(QString());
    add(tr("Owed still"), m_view.owed);
    add(m_view.staysName, m_view.stays);
    add(tr("What happened, %1").arg(m_view.part), m_view.lines);
    return text.join(u'\n');
}

} // namespace coldarc::ui
