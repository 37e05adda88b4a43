#pragma once

#include "ui/parts/theme.h"

#include <QLabel>
#include <QStringList>

#include <array>

namespace coldarc::ui {

/// A plain text in one of the roles, with tabular figures and the theme's ink. It wraps and asks for the
/// height that it needs; one that is told to elide stays on one line and shows the whole text as a tool tip.
class TextLabel : public QLabel {
    Q_OBJECT

public:
    enum class Overflow {
        Wraps,
        Elides,
    };

    explicit TextLabel(TextRole role, Ink ink = Ink::Text, QWidget* parent = nullptr);

    void setInk(Ink ink);
    void setOverflow(Overflow overflow);
    /// Extra pixels between the lines of a wrapped text.
    void setLeading(int pixels);
    /// True when nothing of the text is cut off at the present size.
    [[nodiscard]] bool fits() const;

    [[nodiscard]] bool hasHeightForWidth() const override;
    [[nodiscard]] int heightForWidth(int width) const override;
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    /// A text as it breaks at one width. Layouts ask for the same few widths over and over.
    struct Broken {
        QString text;
        int width = -1;
        QStringList lines;
    };

    [[nodiscard]] QString shown() const;
    [[nodiscard]] QStringList linesAt(int width) const;
    [[nodiscard]] int heightOf(qsizetype lines) const;

    QFont m_font; // kept apart from QWidget's, so that no style sheet can replace it
    TextRole m_role;
    Ink m_ink;
    Overflow m_overflow = Overflow::Wraps;
    int m_leading = 0;
    mutable std::array<Broken, 4> m_broken;
    mutable std::size_t m_nextBroken = 0;
};

/// One with the name that it is found by.
[[nodiscard]] TextLabel* namedLabel(TextRole role, Ink ink, const QString& name, QWidget* parent);

/// Small widely spaced capitals above a group: section names only.
class SectionLabel final : public TextLabel {
    Q_OBJECT

public:
    explicit SectionLabel(const QString& text, QWidget* parent = nullptr);
};

} // namespace coldarc::ui
