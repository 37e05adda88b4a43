#include "core/catalogue/reading.h"

using namespace Qt::StringLiterals;

namespace coldarc::catalogue {

FileRemark remarkOn(const QString& file, const QString& line)
{
    const qsizetype colon = line.indexOf(u": "_s);
    if (colon < 0 || line.left(colon).contains(u' '))
        return {file, {}, line};
    return {file, line.left(colon), line.mid(colon + 2)};
}

} // namespace coldarc::catalogue
