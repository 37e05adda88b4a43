#pragma once

#include "ui/label/picture_presenter.h"

#include <QMimeData>
#include <QWidget>

class QPainter;
class QVBoxLayout;

namespace coldarc::ui {

class PlainButton;
class TextLabel;
struct Tokens;

/// The picture of a label with its codes outlined and numbered. A code is picked on the picture or in the
/// list beside it.
class PictureCanvas final : public QWidget {
    Q_OBJECT

public:
    explicit PictureCanvas(QWidget* parent = nullptr);

    void setView(const PictureView& view);
    /// Where a code stands on the canvas.
    [[nodiscard]] QPolygonF outlineOf(const PictureCode& code) const;

Q_SIGNALS:
    void codePressed(int code);

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;

private:
    [[nodiscard]] QRectF frame() const;
    void paintPicture(QPainter& painter, const Tokens& tokens);

    PictureView m_view;
};

/// Takes a picture by drop, by paste (Ctrl+V while it has the focus) or from a file, and shows what is on it.
class PicturePanel final : public QWidget {
    Q_OBJECT

public:
    explicit PicturePanel(QWidget* parent = nullptr);

    void setView(const PictureView& view);
    /// Whether there is a picture in it, or a file, which may be one.
    [[nodiscard]] static bool mayHold(const QMimeData& brought);
    /// True if there is a picture, or the file of one, in it, which is then given.
    bool take(const QMimeData& brought);

Q_SIGNALS:
    void pictureGiven(const coldarc::ui::PictureSource& source);
    void codePicked(int code);

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

private:
    void choose();
    void showCodes();

    PictureCanvas* m_canvas;
    TextLabel* m_says;
    PlainButton* m_choose;
    QVBoxLayout* m_list;
    QList<PlainButton*> m_codes;
    PictureView m_view;
};

} // namespace coldarc::ui
