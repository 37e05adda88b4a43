#pragma once

#include "ui/parts/painted_button.h"
#include "ui/review/review_view.h"

#include <QPixmap>
#include <QWidget>

#include <functional>
#include <optional>

class QGridLayout;
class QVBoxLayout;

namespace coldarc::ui {

class PlainButton;
class ScanChart;
class TextLabel;
class TraceChart;

/// Something out of the ordinary: what, more of it, and where. Pressed, it leads to its moment.
class ExceptionCard final : public PaintedButton {
    Q_OBJECT

public:
    explicit ExceptionCard(QWidget* parent = nullptr);

    void setView(const ReviewCard& view);
    [[nodiscard]] qint64 entry() const { return m_view.entry; }
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] int heightForWidth(int width) const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    ReviewCard m_view;
};

/// Those cards, two beside each other where there is room; of many the first few, the others on demand.
class ExceptionCards final : public QWidget {
    Q_OBJECT

public:
    static constexpr int kShownAtFirst = 4;

    explicit ExceptionCards(QWidget* parent = nullptr);

    void setCards(const QList<ReviewCard>& cards);

Q_SIGNALS:
    void entryChosen(qint64 entry);

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void place();

    QGridLayout* m_grid;
    PlainButton* m_more;
    QList<ExceptionCard*> m_cards; ///< reused: there are at least as many as are shown
    qsizetype m_count = 0;
    bool m_showsAll = false;
    int m_columns = 0;
};

/// Lines with a sign before each: right, missing, or not verified.
class SignedLines final : public QWidget {
    Q_OBJECT

public:
    explicit SignedLines(QWidget* parent = nullptr);

    void setLines(const QList<SignedLine>& lines);

private:
    class Row;
    QVBoxLayout* m_layout;
    QList<Row*> m_rows;
};

/// The light of one swap: what the screen sheets say, the last search of each axis, and all over time.
class LightBlock final : public QWidget {
    Q_OBJECT

public:
    explicit LightBlock(QWidget* parent = nullptr);

    void setView(const ReviewLight& view);

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void place();

    TextLabel* m_title;
    TextLabel* m_screen;
    QGridLayout* m_grid;
    QList<ScanChart*> m_scans;
    int m_columns = 0;
    TraceChart* m_trace;
};

/// A kept picture, small; pressed it is shown large, and small again.
class PictureTile final : public PaintedButton {
    Q_OBJECT

public:
    explicit PictureTile(QWidget* parent = nullptr);

    void setView(const ReviewPicture& view);
    /// If it is this one. Null: there is none, since `trouble`.
    void setPicture(const QString& hash, const QImage& picture, const QString& trouble);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] int heightForWidth(int width) const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QString m_hash;
    std::optional<QPixmap> m_picture; ///< nothing while it is read
    QString m_trouble;
    bool m_isLarge = false;
};

/// Reviews that were signed before this one.
class PastReviews final : public QWidget {
    Q_OBJECT

public:
    explicit PastReviews(QWidget* parent = nullptr);

    void setReviews(const QList<PastReview>& reviews);

private:
    QVBoxLayout* m_layout;
    QList<PastReview> m_reviews;
};

} // namespace coldarc::ui
