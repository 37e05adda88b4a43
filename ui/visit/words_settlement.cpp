#include "ui/visit/words_settlement.h"

#include <QCoreApplication>

namespace coldarc::ui {

namespace {

using Kind = visit::Leftover::Kind;

QString say(const char* text)
{
    return QCoreApplication::translate("Settlement", text);
}

QString wordsFor(lamps::CounterQuestion question)
{
    switch (question) {
    case lamps::CounterQuestion::RanBackwards:
        return say(
            "The counter read at this visit is lower than where this lamp began, so its hours cannot be "
            "told. It still stands as fitted.");
    case lamps::CounterQuestion::ResetDoesNotFit:
        return say(
            "The counter does not fit where it was set back, so the hours of this lamp cannot be told. It "
            "still stands as fitted.");
    case lamps::CounterQuestion::FasterThanTheClock:
        break;
    }
    return say(
        "The counter tells more hours than have passed since this lamp went in, so its hours cannot be told. "
        "It still stands as fitted.");
}

} // namespace

QString wordsFor(const visit::Leftover& leftover)
{
    switch (leftover.kind) {
    case Kind::Counters:
        return wordsFor(leftover.question.value_or(lamps::CounterQuestion::FasterThanTheClock));
    case Kind::SeatDiffers:
        return say(
            "The workspace has another lamp here than this visit found. The lamps of this lamphouse stand as "
            "before: put them right under Sites and Van stock, then try again.");
    case Kind::LampIsThere:
        return say(
            "The workspace has this lamp somewhere that it cannot come from. Put it right under Van stock, "
            "then try again.");
    case Kind::Contradicted:
        return say("Something in the workspace contradicts it, such as a second lamp with this serial. Put "
                   "it right, "
                   "then try again.");
    case Kind::NotUnderstood:
        return say("A newer program wrote in this logbook. Only that one can tell what became of the lamps.");
    case Kind::NotWritten:
        break;
    }
    return say("It could not be written. Nothing was changed. Try again; if that helps nothing, make room on "
               "the disk.");
}

QString actFor(const visit::Leftover& leftover)
{
    switch (leftover.kind) {
    case Kind::Counters:
        return say("Go on, hours unknown");
    case Kind::NotUnderstood:
        return {};
    default:
        return say("Try again");
    }
}

visit::CountersAre countersFor(const visit::Leftover& leftover)
{
    return leftover.kind == Kind::Counters ? visit::CountersAre::SetAside : visit::CountersAre::AsRead;
}

} // namespace coldarc::ui
