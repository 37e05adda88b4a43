#include "core/base/id_source.h"

#include <QUuid>

namespace coldarc {

QString RandomIds::next()
{
    return QUuid::createUuid().toString(QUuid::WithoutBraces);
}

} // namespace coldarc
