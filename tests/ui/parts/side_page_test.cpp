#include "ui/parts/side_page.h"

#include "tests/support/testing.h"
#include "ui/parts/theme.h"

#include <QImage>
#include <QPainter>
#include <QScrollArea>
#include <QScrollBar>

namespace coldarc::ui {
namespace {

class Lit final : public QWidget {
protected:
    void paintEvent(QPaintEvent* /*event*/) override
    {
        QPainter(this).fillRect(rect(), tokensOf(*this).text);
    }
};

// Half a line above the buttons looked like the last one.
TEST(BareScrollTest, WhatGoesOnBelowTheFootFadesThereAndTheLastLineDoesNot)
{
    QWidget window;
    window.resize(300, 200);
    auto* tall = new Lit;
    tall->setFixedHeight(600);
    QScrollArea* scroll = bareScroll(tall, &window);
    scroll->resize(300, 200);
    window.show();
    const Tokens& tokens = tokensOf(window);
    const auto inked = [&](int y) {
        return contrastRatio(window.grab().toImage().pixelColor(20, y), tokens.text);
    };

    EXPECT_GT(inked(199), 8);
    EXPECT_EQ(inked(100), 1);

    scroll->verticalScrollBar()->setValue(scroll->verticalScrollBar()->maximum());
    EXPECT_EQ(inked(199), 1);
}

} // namespace
} // namespace coldarc::ui
