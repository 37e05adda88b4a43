#include "ui/report/paper_flow.h"

#include "tests/support/testing.h"

#include <QImage>
#include <QPainter>

namespace coldarc::ui {
namespace {

using namespace Qt::StringLiterals;

constexpr double kPixelsPerPoint = 2;
constexpr int kBorder = 40;

/// Pixels with ink outside the page's inside.
int inkOutside(const PaperFlow& flow, const QSizeF& inside, int page)
{
    const double scale = kPixelsPerPoint / kPerPoint;
    const QSize size = (inside * scale).toSize();
    QImage image(size + QSize(2 * kBorder, 2 * kBorder), QImage::Format_Grayscale8);
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.translate(kBorder, kBorder);
    painter.scale(scale, scale);
    flow.paint(painter, page);
    painter.end();
    int ink = 0;
    const QRect within(QPoint(kBorder - 1, kBorder - 1), size + QSize(2, 2));
    for (int y = 0; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x)
            ink += !within.contains(x, y) && image.constScanLine(y)[x] < 200 ? 1 : 0;
    }
    return ink;
}

const QSizeF kInside(400 * kPerPoint, 500 * kPerPoint);

TEST(PaperFlowTest, AWordWithoutASpaceWrapsWithinItsColumn)
{
    const QString word(300, u'M');
    const PaperFlow flow({{PaperText{word, PaperRole::Title}},
                          {PaperColumns{{0.2, 0.8}, {{{word}}, {{word}}}, PaperColumns::Look::Framed}},
                          {PaperTable{{0.1, 0.9}, {word, u"b"_s}, {{{{word}}, {{word}}}}}}},
                         kInside);

    for (int page = 0; page < flow.pages(); ++page)
        EXPECT_EQ(inkOutside(flow, kInside, page), 0) << page;
}

TEST(PaperFlowTest, NoStripStandsBelowThePageOrOverAnother)
{
    QList<QList<PaperColumn>> rows;
    for (int row = 0; row < 90; ++row)
        rows.append({{{QString::number(row)}}, {{u"a text "_s.repeated(1 + row % 40)}}});
    const PaperFlow flow({{PaperText{u"Head"_s, PaperRole::Heading}, 20, true},
                          {PaperTable{{0.2, 0.8}, {u"n"_s, u"said"_s}, rows}}},
                         kInside);

    ASSERT_GT(flow.pages(), 2);
    for (int page = 0; page < flow.pages(); ++page) {
        double bottom = 0;
        for (const QRectF& place : flow.placesOn(page)) {
            EXPECT_GE(place.top(), bottom);
            bottom = place.bottom();
        }
        EXPECT_LE(bottom, kInside.height());
        EXPECT_EQ(inkOutside(flow, kInside, page), 0);
    }
}

TEST(PaperFlowTest, ARowThatIsHigherThanAPageGoesOnOnTheNext)
{
    const QString novel = u"all that was said "_s.repeated(1500);
    const PaperFlow flow({{PaperTable{{0.3, 0.7}, {u"n"_s, u"said"_s}, {{{{u"1"_s}}, {{novel}}}}}}}, kInside);

    EXPECT_GT(flow.pages(), 3);
    for (int page = 0; page < flow.pages(); ++page) {
        EXPECT_LE(flow.placesOn(page).last().bottom(), kInside.height());
        EXPECT_EQ(inkOutside(flow, kInside, page), 0);
        EXPECT_GT(flow.placesOn(page).size(), 1) << "the head of the table comes again";
    }
}

TEST(PaperFlowTest, AHeadingIsNeverTheLastOfItsPage)
{
    for (int filling = 0; filling < 60; ++filling) {
        QList<PaperBlock> blocks;
        for (int line = 0; line < filling; ++line)
            blocks.append({PaperText{u"line"_s}});
        blocks.append({PaperText{u"Heading"_s, PaperRole::Heading}, 10, true});
        blocks.append({PaperText{u"what it leads"_s}});
        const PaperFlow flow(blocks, kInside);
        EXPECT_GE(flow.placesOn(flow.pages() - 1).size(), 2) << filling;
    }
}

TEST(PaperFlowTest, ABreakBeginsAPageAndNoneIsEmpty)
{
    EXPECT_EQ(PaperFlow({{PaperBreak{}}, {PaperText{u"a"_s}}, {PaperBreak{}}}, kInside).pages(), 1);
    EXPECT_EQ(PaperFlow({{PaperText{u"a"_s}}, {PaperBreak{}}, {PaperText{u"b"_s}}}, kInside).pages(), 2);
    EXPECT_EQ(PaperFlow({}, kInside).pages(), 1);
}

} // namespace
} // namespace coldarc::ui
