#include "app/head_code.h"

#include <ZXing/BitMatrix.h>
#include <ZXing/MultiFormatWriter.h>
#include <stdexcept>

namespace coldarc::app {

ui::CodeModules codeOf(const QString& text)
{
    ui::CodeModules code;
    try {
        ZXing::MultiFormatWriter writer(ZXing::BarcodeFormat::QRCode);
        writer.setMargin(0);
        const ZXing::BitMatrix matrix = writer.encode(text.toStdString(), 0, 0);
        code.side = matrix.width();
        for (int row = 0; row < matrix.height(); ++row) {
            for (int column = 0; column < matrix.width(); ++column)
                code.dark.push_back(matrix.get(column, row));
        }
    } catch (const std::exception&) {
        return {};
    }
    return code;
}

} // namespace coldarc::app
