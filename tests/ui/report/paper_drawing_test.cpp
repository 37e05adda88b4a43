#include "ui/report/paper_drawing.h"

#include "tests/support/testing.h"
#include "ui/report/paper_flow.h"

#include <QBuffer>
#include <QImage>
#include <QPainter>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;

constexpr int kBorder = 30;

/// Draws at two pixels a point and says how many dark pixels stand within, and outside.
std::pair<int, int> ink(const std::function<void(QPainter&, const QRectF&)>& drawn)
{
    const QSize size(480, 240);
    QImage image(size + QSize(2 * kBorder, 2 * kBorder), QImage::Format_Grayscale8);
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.translate(kBorder, kBorder);
    painter.scale(2 / kPerPoint, 2 / kPerPoint);
    drawn(painter, QRectF(0, 0, 240 * kPerPoint, 120 * kPerPoint));
    painter.end();
    std::pair<int, int> count{0, 0};
    const QRect within(QPoint(kBorder - 1, kBorder - 1), size + QSize(2, 2));
    for (int y = 0; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x) {
            if (image.constScanLine(y)[x] < 160)
                ++(within.contains(x, y) ? count.first : count.second);
        }
    }
    return count;
}

PaperScan longScan()
{
    ScanChartView view;
    view.title = u"Reading against position, "_s + QString(90, u'W');
    view.axisTitle = QString(120, u'W');
    view.readings = {{-4, 41.2}, {0, 44.9}, {4, 44.1}, {40, 60}}; // one beyond what is drawn
    view.leftOut = {{2, 20}};
    view.fitted = {{-5, 40}, {0, 45}, {5, 43}};
    view.peak = ScanChartView::Peak{1.2, -90, 90, QString(90, u'W')};
    view.ticks = {{-4, u"\u22121/2"_s}, {0, u"0"_s}, {4, u"+1/2"_s}};
    view.from = -5;
    view.to = 5;
    view.least = 40;
    view.most = 46;
    return {view};
}

TEST(PaperDrawingTest, EveryDrawingStaysWithinItsPlaceWhateverItHolds)
{
    TraceChartView trace;
    for (int index = 0; index < 60; ++index) {
        trace.readings.append({index / 3.0, 30.0 + index});
        trace.marks.append({index / 3.0, QString(40, u'W')});
    }
    trace.least = 29;
    trace.most = 91;
    trace.minutes = 20;
    trace.from = QString(80, u'W');
    trace.to = QString(80, u'W');
    PaperScreen screen;
    for (const double across : {0.05, 0.5, 0.95}) {
        for (const double down : {0.05, 0.5, 0.95})
            screen.points.append({u"p"_s, QString(40, u'W'), QString(40, u'8'), QString(40, u'8'),
                                  QString(40, u'W'), across, down});
    }
    PaperTimeLine line;
    line.minutes = 100;
    for (int row = 0; row < 12; ++row)
        line.rows.append(
            {QString(60, u'W'), static_cast<PaperTimeLine::Kind>(row % 3), {{-5, 20}, {60, 400}}});
    for (int tick = 0; tick < 10; ++tick)
        line.ticks.append({tick * 12.0, u"13:44"_s});
    for (int mark = 0; mark < 30; ++mark)
        line.marks.append({mark * 4.0, QString::number(mark)});
    QImage picture(300, 2000, QImage::Format_RGB32);
    picture.fill(Qt::black);
    QBuffer bytes;
    ASSERT_TRUE(bytes.open(QIODevice::WriteOnly) && picture.save(&bytes, "PNG"));
    const QList<PaperDrawing> drawings{longScan(), PaperTrace{trace}, screen, line,
                                       PaperPicture{bytes.data(), QString(200, u'W')}};
    for (qsizetype index = 0; index < drawings.size(); ++index) {
        const auto [within, outside] =
            ink([&](QPainter& painter, const QRectF& place) { draw(painter, place, drawings[index]); });
        EXPECT_GT(within, 400) << index;
        EXPECT_EQ(outside, 0) << index;
    }
}

TEST(PaperDrawingTest, AGateAWaitAndAStateCanBeToldApartWithoutColour)
{
    const auto inkOf = [](PaperTimeLine::Kind kind) {
        const PaperTimeLine line{100, {}, {{u"."_s, kind, {{0, 100}}}}, {}};
        return ink([&](QPainter& painter, const QRectF& place) { draw(painter, place, line); }).first;
    };
    const int gate = inkOf(PaperTimeLine::Kind::Gate);
    const int wait = inkOf(PaperTimeLine::Kind::Wait);
    const int state = inkOf(PaperTimeLine::Kind::State);

    EXPECT_GT(gate, 2 * wait);
    EXPECT_GT(wait, 2 * state);
    EXPECT_GT(state, 100) << "an outline";
}

TEST(PaperDrawingTest, ACodeHasItsQuietZoneAndNothingIsDrawnOfNone)
{
    const CodeModules code{2, {true, false, false, true}};
    const auto [within, outside] =
        ink([&](QPainter& painter, const QRectF& place) { draw(painter, place, code); });
    EXPECT_EQ(outside, 0);
    EXPECT_NEAR(within, 2 * 24 * 24, 100); // 240 px hold ten modules, two of which are dark
    EXPECT_EQ(ink([](QPainter& painter, const QRectF& place) { draw(painter, place, CodeModules()); }).first,
              0);
}

} // namespace
} // namespace coldarc::ui
