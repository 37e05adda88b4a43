#pragma once

#include "ui/parts/text_label.h"

namespace coldarc::ui {

/// Shows the text; takes the label out of sight where there is none.
inline void showText(TextLabel* label, const QString& text)
{
    label->setText(text);
    label->setVisible(!text.isEmpty());
}

} // namespace coldarc::ui
