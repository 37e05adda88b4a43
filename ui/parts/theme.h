#pragma once

#include <QColor>
#include <QFont>
#include <QObject>
#include <QPalette>

#include <memory>

class QApplication;
class QWidget;

namespace coldarc::ui {

/// Booth is near-black and for the bench; Office is light and for the review desk and the fleet.
enum class ThemeKind {
    Booth,
    Office,
};

/// The colours of one theme. Red, orange, yellow and safety blue are not among them: they belong to signal
/// words.
struct Tokens {
    QColor ground; ///< behind everything
    QColor panel;  ///< raised surfaces: buttons, fields, the row in hand
    QColor line;   ///< hairlines between things; carries no meaning of its own
    QColor edge;   ///< outlines that carry meaning (fields, dead parts of a drawing): at least 3:1 on ground
                   ///< and panel
    QColor text;   ///< what is read first, and what is live in a drawing
    QColor quiet;  ///< second reading, at least 4.5:1
    QColor faint;  ///< third reading, still at least 4.5:1
    QColor accent; ///< the arc: the one thing in hand, and nothing else
    QColor onAccent; ///< text on the accent
};

[[nodiscard]] const Tokens& tokensOf(ThemeKind kind);

/// Which theme a palette belongs to.
[[nodiscard]] ThemeKind themeOf(const QPalette& palette);
/// The tokens of the theme in use, so that a widget needs no reference to the Theme. Read from the
/// application's palette and not from the widget's own: a style sheet may have changed that one.
[[nodiscard]] const Tokens& tokensOf(const QWidget& widget);

/// Contrast of two opaque colours, 1 (none) to 21 (black on white), in either order.
/// Source: WCAG 2.2, "contrast ratio" and "relative luminance".
[[nodiscard]] double contrastRatio(const QColor& one, const QColor& other);

/// What a text is for; decides size, weight and spacing. Sizes are in device-independent pixels.
enum class TextRole {
    Title,      ///< the step: the largest text of a page
    Number,     ///< the running wait: the largest number of a page
    Heading,    ///< a name that leads a group
    Strong,     ///< body, heavier
    Body,       ///< a sentence to be read at arm's length
    Small,      ///< a second sentence
    Caption,    ///< a time, a unit, a name in a drawing
    Section,    ///< small capitals, widely spaced: section names only
    Action,     ///< on the main action
    SignalWord, ///< DANGER, WARNING, CAUTION, NOTICE
    Code,       ///< letters and figures that are read to somebody one by one
};
[[nodiscard]] QFont fontFor(TextRole role);

/// How strongly a text is inked.
enum class Ink {
    Text,
    Quiet,
    Faint,
    Accent,
};
[[nodiscard]] QColor inkColour(const Tokens& tokens, Ink ink);

/// Dresses the whole application: style, font, palette and style sheet. One per program, made by its root;
/// the theme can be changed at any time and every widget follows.
class Theme final : public QObject {
    Q_OBJECT

public:
    /// Borrows the application. Nothing is changed until `apply`. Begins to list the system's fonts in a
    /// thread, since that takes long; whoever measures the first text waits for it.
    explicit Theme(QApplication& application, QObject* parent = nullptr);

    void apply(ThemeKind kind);
    [[nodiscard]] ThemeKind kind() const { return m_kind; }

Q_SIGNALS:
    /// After every widget has the new palette; not sent when the theme stays the same.
    void themeChanged(coldarc::ui::ThemeKind kind);

private:
    QApplication& m_application;
    ThemeKind m_kind = ThemeKind::Booth;
    bool m_applied = false;
    std::shared_ptr<const void> m_listing; ///< of the system's fonts; its end waits for that
};

} // namespace coldarc::ui
