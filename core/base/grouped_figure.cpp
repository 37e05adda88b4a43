#include "core/base/grouped_figure.h"

#include <QRegularExpression>

using namespace Qt::StringLiterals;

namespace coldarc {

bool isGrouped(const QString& figure)
{
    static const QRegularExpression kGroups(uR"(^[1-9][0-9]{0,2}([.,][0-9]{3})+$)"_s);
    return kGroups.match(figure.trimmed()).hasMatch();
}

} // namespace coldarc
