#include "app/opening_words.h"

#include <QCoreApplication>

namespace coldarc::app {

using namespace Qt::StringLiterals;

namespace {

QString tr(const char* text)
{
    return QCoreApplication::translate("opening", text);
}

} // namespace

ui::Trouble openingTrouble(store::Opening outcome)
{
    const QString untouched = tr("Not a byte of the file was changed.");
    switch (outcome) {
    case store::Opening::Opened:
    case store::Opening::OpenedReadOnly:
    case store::Opening::Created:
    case store::Opening::Upgraded:
        return {};
    case store::Opening::Newer:
        return {tr("This workspace was made by a later version of this program."), untouched,
                tr("Install that version here, or open a backup made before.")};
    case store::Opening::Foreign:
        return {tr("This file is no workspace of this program."), untouched,
                tr("Name another file, or one that does not exist yet.")};
    case store::Opening::Damaged:
        return {tr("The workspace file is damaged, or somebody removed a guard against rewriting."),
                untouched, tr("Restore the last backup here; this file is kept beside it.")};
    case store::Opening::Held:
        return {tr("Another window of this program holds this workspace."), untouched,
                tr("Close that one, or wait until it has closed.")};
    case store::Opening::NoFolder:
        return {tr("There is no such folder."), tr("Nothing was made."),
                tr("Make the folder first, or name a file in one that is there.")};
    case store::Opening::FolderReadOnly:
        return {tr("The folder or the file cannot be written."), untouched,
                tr("Ask for the right to write there, or name a file in your own folder.")};
    case store::Opening::NetworkFolder:
        return {tr("The folder is on another computer, where a workspace cannot be kept safely."), untouched,
                tr("Keep it on this laptop, and back it up to there.")};
    case store::Opening::DiskFull:
        return {tr("The disk is full."), untouched, tr("Make room, then start again.")};
    case store::Opening::Failed:
        return {
            tr("The workspace could not be opened."), untouched,
            tr("Start again; if it stays so, restore the last backup here. This file is kept beside it.")};
    }
    Q_UNREACHABLE();
}

bool mayRestore(store::Opening outcome)
{
    return outcome == store::Opening::Damaged || outcome == store::Opening::Failed;
}

ui::Trouble demoTrouble(Error::Kind why)
{
    const QString nothing = tr("Nothing of it stayed behind.");
    switch (why) {
    case Error::Kind::Refused:
        return {tr("Another start of this program is still making the demo."), QString(),
                tr("Wait until its window is there, then start again.")};
    case Error::Kind::Storage:
        return {tr("The demo could not be written."), nothing,
                tr("Make room on the disk, or see that the folder can be written, then start again.")};
    default:
        return {tr("The demo could not be made of its sample data."), nothing,
                tr("Install this program again, then start again.")};
    }
}

ui::Trouble restoreTrouble(const Result<store::Restored>& restored)
{
    if (restored) {
        return {
            tr("The backup stands in the place of the workspace: %1 visits, %2 entries, every chain whole.")
                .arg(restored->census.visits)
                .arg(restored->census.entries),
            restored->previous.isEmpty() ? QString()
                                         : tr("What stood there is kept as %1.").arg(restored->previous),
            QString()};
    }
    const QString asItWas = tr("The workspace is as it was.");
    switch (restored.error().kind) {
    case Error::Kind::NotFound:
        return {tr("There is no such file any more."), asItWas, tr("Choose another one.")};
    case Error::Kind::Malformed:
        return {tr("That file is no whole backup of a workspace, or one of a later program."), asItWas,
                tr("Choose another one.")};
    case Error::Kind::Refused:
        return {tr("Another window of this program holds the workspace."), asItWas,
                tr("Close that one, then restore again.")};
    default:
        return {tr("The backup could not be put in its place."), asItWas,
                tr("Make room on the disk, then try again.")};
    }
}

} // namespace coldarc::app
