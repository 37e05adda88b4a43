#include "ui/parts/not_written.h"

#include <QCoreApplication>

namespace coldarc::ui {

QString notWritten(const Error& error, const QString& kept)
{
    const auto say = [&](const char* text) {
        return QCoreApplication::translate("notWritten", text).arg(kept);
    };
    return error.kind == Error::Kind::Busy
               ? say("It could not be written: the workspace was busy. %1 Try again.")
               : say("It could not be written. %1 Make room on the disk, then try again.");
}

} // namespace coldarc::ui
