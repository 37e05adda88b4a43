#include "ui/people/secret_words.h"

#include "ui/parts/quantities.h"

#include <QCoreApplication>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

QString tr(const char* text)
{
    return QCoreApplication::translate("secret", text);
}

} // namespace

QString passphraseRule()
{
    return tr("A passphrase has %1 characters or more; several words are easier to keep than signs. Nobody "
              "can look "
              "it up or set it back.")
        .arg(people::Passphrase::kLeast);
}

QString pinRule()
{
    return tr("A PIN of %1 digits or more, for this session: the key locks after 10 minutes without a press, "
              "and the "
              "PIN opens it again until you close the program.")
        .arg(people::Pin::kLeast);
}

QString wordsFor(people::PassphraseFault fault)
{
    switch (fault) {
    case people::PassphraseFault::TooShort:
        return tr("Too short: it needs %1 characters or more.").arg(people::Passphrase::kLeast);
    case people::PassphraseFault::TooLong:
        return tr("Too long: at most %1 characters.").arg(people::Passphrase::kMost);
    case people::PassphraseFault::Common:
        return tr("Among the first that a guesser tries. Choose another one.");
    }
    Q_UNREACHABLE();
}

QString wordsFor(people::PinFault fault)
{
    switch (fault) {
    case people::PinFault::NotDigits:
        return tr("Digits only, 0 to 9.");
    case people::PinFault::TooShort:
        return tr("Too short: it needs %1 digits or more.").arg(people::Pin::kLeast);
    case people::PinFault::TooLong:
        return tr("Too long: at most %1 digits.").arg(people::Pin::kMost);
    case people::PinFault::Common:
        return tr("Among the first that a guesser tries. Choose another one.");
    }
    Q_UNREACHABLE();
}

QString waitWords(const people::AttemptVerdict& verdict)
{
    if (verdict.kind != people::AttemptVerdict::Kind::Waits)
        return {};
    return tr("The next try is free in %1.")
        .arg(clockText(std::chrono::ceil<std::chrono::seconds>(verdict.left)));
}

people::TypedSecret typedIn(const Field& field)
{
    return {field.value()}; // shares the characters of the box
}

} // namespace coldarc::ui
