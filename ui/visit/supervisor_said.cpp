#include "ui/visit/supervisor_said.h"

#include <QCoreApplication>

namespace coldarc::ui {

QString alteredReviewsText(int count)
{
    return count == 1
               ? QCoreApplication::translate("supervisorSaid",
                                             "A review of this visit is not as it was written: it does not "
                                             "count. Ask the supervisor how the visit stands.")
               : QCoreApplication::translate("supervisorSaid",
                                             "%1 reviews of this visit are not as they were written: they do "
                                             "not count. Ask the supervisor how the visit stands.")
                     .arg(count);
}

} // namespace coldarc::ui
