#pragma once

#include "ui/report/paper_block.h"

#include <QRectF>
#include <QSizeF>

#include <functional>
#include <memory>
#include <vector>

class QFont;
class QPainter;

namespace coldarc::ui {

/// Lengths on paper are twentieths of a point, so that a font is laid out alike for every device.
inline constexpr double kPerPoint = 20;

[[nodiscard]] QFont paperFont(PaperRole role);

/// Blocks laid out on pages of one size. Nothing is wider than a page: texts wrap, drawings are drawn into
/// the room that there is; what is higher goes on on the next page.
class PaperFlow {
public:
    /// @param inside  of a page, without its margins and its foot; wide enough for a few letters.
    PaperFlow(const QList<PaperBlock>& blocks, const QSizeF& inside);
    ~PaperFlow();

    [[nodiscard]] int pages() const { return static_cast<int>(m_pages.size()); }
    /// Draws one page with its upper left corner at the painter's origin.
    void paint(QPainter& painter, int page) const;

    /// Everything that was placed on a page, for whoever wants to know that nothing is cut off.
    [[nodiscard]] QList<QRectF> placesOn(int page) const;

private:
    /// A strip over the whole width.
    struct Strip {
        double height = 0;
        double before = 0;
        bool keepsWithNext = false;
        int head = -1; ///< the strip that comes again over this one at the top of a page
        bool breaksPage = false;
        std::function<void(QPainter&, const QRectF&)> draw;
    };
    struct Placed {
        int strip = 0;
        double top = 0;
    };

    void add(const PaperBlock& block);
    int addColumns(const PaperColumns& columns, const PaperBlock& of, int head);
    void addTable(const PaperTable& table, const PaperBlock& of);
    void addDrawings(const PaperDrawings& drawings, const PaperBlock& of);
    void layOut();

    QSizeF m_inside;
    std::vector<Strip> m_strips;
    std::vector<std::vector<Placed>> m_pages;
};

} // namespace coldarc::ui
