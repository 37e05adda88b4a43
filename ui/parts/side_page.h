#pragma once

#include <QWidget>

class QVBoxLayout;
class QScrollArea;

namespace coldarc::ui {

/// A page with a column to choose from at the left and what was chosen at the right, each of which scrolls by
/// itself where the height is short.
class SidePage : public QWidget {
    Q_OBJECT

public:
    explicit SidePage(QWidget* parent = nullptr);

    /// Where the left column's widgets go; the stretch at its end is the caller's.
    [[nodiscard]] QVBoxLayout* side() const { return m_side; }
    [[nodiscard]] QVBoxLayout* body() const { return m_body; }
    /// The parents of what goes there: a widget made in its place is not dressed a second time when it is
    /// laid out.
    [[nodiscard]] QWidget* sideArea() const;
    [[nodiscard]] QWidget* bodyArea() const;
    /// Beneath the body, always in sight: for the main action.
    [[nodiscard]] QVBoxLayout* foot() const { return m_foot; }
    [[nodiscard]] QScrollArea* bodyScroll() const { return m_bodyScroll; }

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    QScrollArea* m_sideScroll;
    QScrollArea* m_bodyScroll;
    QVBoxLayout* m_side;
    QVBoxLayout* m_body;
    QVBoxLayout* m_foot;
};

/// A scrolling area without a frame or a bar across, that shows the page's ground and fades at its foot while
/// it goes on there.
[[nodiscard]] QScrollArea* bareScroll(QWidget* content, QWidget* parent);

} // namespace coldarc::ui
