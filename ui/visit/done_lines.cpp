#include "ui/visit/done_lines.h"

#include "ui/parts/quantities.h"
#include "ui/visit/words_entry.h"

#include <QCoreApplication>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr qsizetype kTimeChars = 8;  // "13:02:19"
constexpr qsizetype kDateChars = 10; // "2026-11-25"

QString words(const char* text)
{
    return QCoreApplication::translate("done", text);
}

QString pictureOf(const visit::Body& body)
{
    if (const auto* kept = std::get_if<visit::PictureKept>(&body))
        return QString(kept->picture.hex());
    const auto* read = std::get_if<visit::LampRead>(&body);
    if (read && read->picture)
        return read->picture->hex();
    const auto* passed = std::get_if<visit::SerialPassed>(&body);
    if (passed && passed->picture)
        return passed->picture->hex();
    const auto* signature = std::get_if<visit::SiteSigned>(&body);
    return signature && signature->slip ? QString(signature->slip->hex()) : QString();
}

} // namespace

QList<DoneLine> doneLinesOf(const QList<visit::Entry>& entries, const visit::VisitState& state,
                            const QTimeZone& zone)
{
    QList<DoneLine> lines;
    QString section;
    for (qint64 number = 0; number < entries.size(); ++number) {
        const visit::Entry& entry = entries[number];
        const EntryWords told = wordsOf(entries, number, state);
        section = told.section.isEmpty() ? section : told.section; // what lies between steps stays with them
        const QString moment = wallTextWithOffset(entry.at.wall, zone);
        DoneLine line;
        line.entry = number;
        line.section = section;
        line.time = moment.mid(kDateChars + 1, kTimeChars);
        line.date = moment.left(kDateChars) + moment.mid(kDateChars + 1 + kTimeChars);
        line.who = nameOfPerson(state, entry.by);
        line.what = told.what;
        line.more = told.more;
        line.picture = pictureOf(entry.body);
        lines.append(line);
        const auto* withdrawn = std::get_if<visit::Withdrawn>(&entry.body);
        if (withdrawn && withdrawn->entry >= 0 && withdrawn->entry < lines.size())
            lines[withdrawn->entry].withdrawn =
                words("Withdrawn by %1 at %2: %3").arg(line.who, line.time, withdrawn->reason);
    }
    return lines;
}

QString entriesWords(qsizetype count)
{
    return count == 1 ? QCoreApplication::translate("done", "one entry, number 0")
                      : QCoreApplication::translate("done", "%1 entries, 0 to %2").arg(count).arg(count - 1);
}

} // namespace coldarc::ui
