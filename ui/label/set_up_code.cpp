#include "ui/label/set_up_code.h"

#include "core/label/gs1.h"
#include "core/label/set_up_scan.h"

#include <QPainter>

#include <ZXing/BarcodeFormat.h>
#include <ZXing/BitMatrix.h>
#include <ZXing/MultiFormatWriter.h>
#include <algorithm>
#include <cmath>

namespace coldarc::ui {

namespace {

constexpr QChar kFnc1(u'\u00F1'); // how the library's writer is told of it

} // namespace

std::vector<bool> setUpBars()
{
    QString text = label::setUpText();
    text.replace(QChar(label::kGroupSeparator), kFnc1); // a separator is drawn as that
    const ZXing::BitMatrix matrix = ZXing::MultiFormatWriter(ZXing::BarcodeFormat::Code128)
                                        .setMargin(0)
                                        .encode((kFnc1 + text).toStdWString(), 0, 1);
    std::vector<bool> bars;
    for (int x = 0; x < matrix.width(); ++x)
        bars.push_back(matrix.get(x, 0));
    return bars;
}

void paintBars(QPainter& painter, const QRectF& frame, const std::vector<bool>& bars)
{
    const auto modules = static_cast<qreal>(bars.size()) + 2 * kQuietModules;
    const qreal scale = painter.deviceTransform().m11();
    const qreal room = frame.width() * scale / modules; // device pixels
    const qreal module = (room >= 1 ? std::floor(room) : room) / scale;
    const qreal left = std::round((frame.center().x() - module * modules / 2) * scale) / scale;
    painter.fillRect(QRectF(left, frame.top(), module * modules, frame.height()), Qt::white);
    const qreal quiet = module * kQuietModules / 2; // above and beneath half of it will do
    for (std::size_t at = 0; at < bars.size(); ++at) {
        if (!bars[at])
            continue;
        painter.fillRect(QRectF(left + (kQuietModules + static_cast<qreal>(at)) * module, frame.top() + quiet,
                                module, frame.height() - 2 * quiet),
                         Qt::black);
    }
}

} // namespace coldarc::ui
