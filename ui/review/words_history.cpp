#include "ui/review/words_history.h"

#include "ui/parts/quantities.h"
#include "ui/people/people_words.h"
#include "ui/photometry/words_sheet.h"
#include "ui/review/words_review.h"
#include "ui/site/site_words.h"
#include "ui/visit/sign_off_presenter.h"
#include "ui/visit/words_entry.h"

#include <QCoreApplication>
#include <QLocale>

#include <array>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

using review::About;
using review::HistoryLine;
using review::HistoryPage;
using Kind = HistoryLine::Kind;

constexpr qsizetype kShownOfThumbprint = 12; // enough to tell the keys of one office apart by eye

QString words(const char* text)
{
    return QCoreApplication::translate("history", text);
}

QString counterText(const std::optional<double>& hours)
{
    return hours ? hoursText(*hours, QLocale()) : words("not read");
}

QString lightText(double cdPerM2)
{
    return withUnit(photometry::Luminance::fromCdPerM2(cdPerM2), photometry::LuminanceUnit::CdPerM2);
}

QString roleWords(const QString& word)
{
    const auto role = people::roleFromWord(word.toStdString());
    return role ? wordFor(*role) : word;
}

QString dutyWords(const QString& word)
{
    const auto duty = people::dutyFromWord(word.toStdString());
    return duty ? wordFor(*duty) : word;
}

QString visitEnd(const QString& state)
{
    if (state == u"open")
        return words("still open");
    return state == u"making-safe" ? words("being made safe") : endWords(state);
}

QString shortened(const QString& thumbprint)
{
    return thumbprint.left(kShownOfThumbprint) + u'\u2026';
}

/// One line, for the history of `page`.
class LineTeller {
public:
    LineTeller(const HistoryLine& line, const HistoryPage& page)
        : m_line(line)
        , m_page(page)
        , m_about(page.subject.about)
    {
    }

    [[nodiscard]] QString told() const
    {
        switch (m_line.kind) {
        case Kind::Visited:
            return visited();
        case Kind::Fitted:
            return fitted();
        case Kind::TakenOut:
            return takenOut();
        case Kind::WentTo:
            return word(1) == u"later" ? takenAlong() : words("Went on: %1").arg(custody());
        case Kind::BookedIn:
            return with(m_about == About::Lamp ? words("Booked in") : words("Booked in: %1").arg(lamp()),
                        m_line.figure ? words("alert at %1").arg(hours()) : QString());
        case Kind::CounterRead:
            return words("Counter read: %1").arg(counterText(m_line.figure));
        case Kind::CentreRead:
            return (word(0) == u"arrival" ? words("Light on arrival, centre of the screen: %1")
                                          : words("Light after the swap, centre of the screen: %1"))
                .arg(lightText(m_line.figure.value_or(0)));
        case Kind::Unusual:
            return unusual();
        case Kind::LeftOwed:
            return words("Left to a later visit: %1").arg(word(0));
        case Kind::OwedDone:
            return words("Done at last, it had been owed: %1").arg(word(0));
        case Kind::Signed:
            return words("Signed: %1").arg(meaningWords(word(0)));
        case Kind::Came:
            return words("Came to the visit");
        case Kind::Went:
            return words("Left the visit before its end");
        case Kind::PassedOn:
            return words("Passed the visit on to %1").arg(person(m_line.other));
        case Kind::TookOver:
            return words("Took the visit over from %1").arg(person(m_line.other));
        case Kind::Authorised:
            return authorised();
        case Kind::AuthorisationWithdrawn:
            return words("Authorisation withdrawn: %1").arg(dutyWords(word(0)));
        case Kind::KeyEnrolled:
            return words("Signing key enrolled: %1").arg(shortened(word(0)));
        case Kind::KeyRetired:
            return words("Signing key taken out of use: %1").arg(shortened(word(0)));
        case Kind::KeyVouchedFor:
            return words("%1 vouches for the key %2, %3 to %4")
                .arg(office(), shortened(word(0)), word(2), word(3));
        case Kind::KeyCalledOutOfUse:
            return words("%1 says that the key %2 is out of use since %3")
                .arg(office(), shortened(word(0)), word(2));
        }
        Q_UNREACHABLE();
    }

private:
    [[nodiscard]] QString word(qsizetype index) const { return m_line.words.value(index); }
    [[nodiscard]] QString office() const
    {
        const QString name = m_page.offices.value(word(1), words("An office that is not known here"));
        return m_page.dropped.contains(word(1)) ? words("%1, which is believed no longer,").arg(name) : name;
    }
    [[nodiscard]] QString hours() const { return counterText(m_line.figure); }
    [[nodiscard]] static QString with(const QString& what, const QString& more)
    {
        return more.isEmpty() ? what : u"%1, %2"_s.arg(what, more);
    }
    [[nodiscard]] QString named(About about, const QString& id) const
    {
        const review::Subject* subject = m_page.find(about, id);
        return nameOf(subject ? *subject : review::Subject{about, id, {}});
    }
    [[nodiscard]] QString lamp() const { return named(About::Lamp, m_line.lamp.text()); }
    [[nodiscard]] QString lamphouse() const { return named(About::Lamphouse, m_line.lamphouse.text()); }
    [[nodiscard]] QString person(const PersonId& id) const { return named(About::Person, id.text()); }
    [[nodiscard]] QString takenAlong() const
    {
        return lamps::custodyFromWord(word(0)) == lamps::Custody::Recycled
                   ? words("Taken along in its box, to be recycled")
                   : words("Taken along in its box, to be returned");
    }
    [[nodiscard]] QString custody() const
    {
        const auto custody = lamps::custodyFromWord(word(0));
        return custody ? nameOf(*custody) : word(0);
    }
    [[nodiscard]] QString counter() const
    {
        return m_line.figure ? words("counter at %1").arg(hours()) : words("counter not read");
    }
    [[nodiscard]] QString cause() const
    {
        const auto cause = lamps::causeFromWord(word(0));
        return cause ? nameOf(*cause) : word(0);
    }

    [[nodiscard]] QString visited() const
    {
        const QString end = visitEnd(word(0));
        const QString site = word(2);
        if (m_about == About::Person && word(1) == u"lead")
            return words("Led a visit at %1; %2").arg(site, end);
        if (m_about == About::Person)
            return words("At a visit at %1 as %2; %3").arg(site, roleWords(word(1)), end);
        if (word(1) == u"follow-up")
            return words("Visit for what was owed; %1").arg(end);
        if (word(1) == u"found")
            return words("In its lamphouse when a visit at %1 began").arg(site);
        if (word(1) == u"brought")
            return words("Brought to a visit at %1").arg(site);
        return words("Visit for a swap; %1").arg(end);
    }
    [[nodiscard]] QString fitted() const
    {
        switch (m_about) {
        case About::Lamp:
            return with(words("Fitted in %1").arg(lamphouse()), counter());
        case About::Lamphouse:
            return with(words("%1 went in").arg(lamp()), counter());
        case About::Person:
            return words("Fitted %1 in %2").arg(lamp(), lamphouse());
        }
        Q_UNREACHABLE();
    }
    [[nodiscard]] QString takenOut() const
    {
        QStringList more{counter()};
        if (m_line.against)
            more.append(words("%1 burnt").arg(hoursText(*m_line.against, QLocale())));
        more.append(cause());
        const QString rest = more.join(u", "_s);
        switch (m_about) {
        case About::Lamp:
            return with(words("Taken out of %1").arg(lamphouse()), rest);
        case About::Lamphouse:
            return with(words("%1 came out").arg(lamp()), rest);
        case About::Person:
            return with(words("Took %1 out of %2").arg(lamp(), lamphouse()), cause());
        }
        Q_UNREACHABLE();
    }
    [[nodiscard]] QString unusual() const
    {
        if (!m_line.unusual)
            return words("Out of the ordinary, of a kind that this program does not know");
        visit::VisitState names; // of the visit only the names are needed here: the entry tells the rest
        const PersonId& who = m_line.unusual->person;
        if (!who.isEmpty())
            names.people.append({who, person(who)});
        const ExceptionWords said = wordsOf(*m_line.unusual, names, {});
        return said.more.isEmpty() ? said.title : u"%1: %2"_s.arg(said.title, said.more);
    }
    [[nodiscard]] QString authorised() const
    {
        const QString models = m_line.words.mid(3).join(u", "_s);
        const QString duty =
            models.isEmpty() ? dutyWords(word(0)) : u"%1 (%2)"_s.arg(dutyWords(word(0)), models);
        return words("Authorised by %1: %2, %3 to %4").arg(person(m_line.other), duty, word(1), word(2));
    }

    const HistoryLine& m_line;
    const HistoryPage& m_page;
    About m_about;
};

bool isOfADay(Kind kind)
{
    return kind == Kind::Authorised || kind == Kind::AuthorisationWithdrawn;
}

} // namespace

QString nameOf(const review::Subject& subject)
{
    QStringList parts;
    switch (subject.about) {
    case About::Lamp:
        parts = QStringList{subject.more.isEmpty() ? words("Lamp of unknown type") : subject.more,
                            subject.name.isEmpty() ? words("no serial known") : subject.name};
        break;
    case About::Lamphouse:
        parts = QStringList{subject.name, subject.more};
        break;
    case About::Person:
        parts = QStringList{subject.name};
        break;
    }
    parts.removeAll(QString());
    return parts.isEmpty() ? words("Not known here") : parts.join(u", "_s);
}

QString subOf(const review::Subject& subject, const QTimeZone& zone)
{
    if (subject.about == About::Person)
        return roleWords(subject.more);
    return subject.seenAt == WallTime() ? words("no visit yet")
                                        : words("last visit %1").arg(dayText(subject.seenAt, zone));
}

QString wordsOf(const HistoryLine& line, const HistoryPage& page)
{
    return LineTeller(line, page).told();
}

QString placeWords(const HistoryLine& line, const QTimeZone& zone)
{
    // A day of the calendar has no zone: it is kept as that day in UTC.
    const QString at = isOfADay(line.kind) ? dayText(line.at, QTimeZone::utc()) : momentText(line.at, zone);
    return line.visit.isEmpty() ? at : words("%1, entry %2").arg(at).arg(line.entry);
}

StayWords wordsOf(const review::Stay& stay, const HistoryPage& page, const QTimeZone& zone)
{
    const bool isOfLamp = page.subject.about == About::Lamp;
    const QString id = isOfLamp ? stay.lamphouse.text() : stay.lamp.text();
    const About about = isOfLamp ? About::Lamphouse : About::Lamp;
    const review::Subject* subject = page.find(about, id);
    QStringList more;
    const QString from = stay.from ? dayText(*stay.from, zone) : words("not known since when");
    more.append(stay.to ? words("%1 to %2").arg(from, dayText(*stay.to, zone))
                        : words("%1, still in").arg(from));
    if (stay.to)
        more.append(words("counter %1 to %2").arg(counterText(stay.counterIn), counterText(stay.counterOut)));
    else
        more.append(words("counter at the beginning %1").arg(counterText(stay.counterIn)));
    if (stay.to)
        more.append(stay.run ? words("%1 burnt").arg(hoursText(*stay.run, QLocale()))
                             : words("hours burnt not known"));
    if (const auto cause = lamps::causeFromWord(stay.cause))
        more.append(nameOf(*cause));
    if (stay.lightAfter)
        more.append(words("%1 after it went in").arg(lightText(*stay.lightAfter)));
    if (stay.lightBefore)
        more.append((stay.to ? words("%1 before it came out") : words("%1 on the last arrival"))
                        .arg(lightText(*stay.lightBefore)));
    return {nameOf(subject ? *subject : review::Subject{about, id, {}}), more.join(u" \u00b7 "_s)};
}

QString wordsOf(const lamps::LampInCustody& lamp, const HistoryPage& page)
{
    const review::Subject* holder = page.find(About::Person, lamp.holder.text());
    return holder ? words("%1, with %2").arg(nameOf(lamp.custody), nameOf(*holder)) : nameOf(lamp.custody);
}

QString nameOf(lamps::Custody custody)
{
    static constexpr std::array<const char*, lamps::kCustodies> kNames{
        QT_TRANSLATE_NOOP("history", "on order"),
        QT_TRANSLATE_NOOP("history", "in the store"),
        QT_TRANSLATE_NOOP("history", "in a van"),
        QT_TRANSLATE_NOOP("history", "fitted"),
        QT_TRANSLATE_NOOP("history", "in its box"),
        QT_TRANSLATE_NOOP("history", "given back to the maker or dealer"),
        QT_TRANSLATE_NOOP("history", "recycled"),
        QT_TRANSLATE_NOOP("history", "burst, the pieces not given away yet"),
        QT_TRANSLATE_NOOP("history", "kept by the site"),
        QT_TRANSLATE_NOOP("history", "not needed after all"),
    };
    return words(kNames[static_cast<std::size_t>(custody)]);
}

QString nameOf(lamps::Cause cause)
{
    static constexpr std::array<const char*, lamps::kCauses> kNames{
        QT_TRANSLATE_NOOP("history", "end of life"),   QT_TRANSLATE_NOOP("history", "dim"),
        QT_TRANSLATE_NOOP("history", "flickered"),     QT_TRANSLATE_NOOP("history", "would not light"),
        QT_TRANSLATE_NOOP("history", "blackened"),     QT_TRANSLATE_NOOP("history", "burst"),
        QT_TRANSLATE_NOOP("history", "early failure"), QT_TRANSLATE_NOOP("history", "damaged"),
        QT_TRANSLATE_NOOP("history", "another cause"),
    };
    return words(kNames[static_cast<std::size_t>(cause)]);
}

} // namespace coldarc::ui
