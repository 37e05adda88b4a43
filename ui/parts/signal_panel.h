#pragma once

#include <QColor>
#include <QList>
#include <QString>
#include <QWidget>

#include <optional>

class QVBoxLayout;

namespace coldarc::ui {

/// The four signal words, worst first. Meanings: ANSI Z535.4; ISO 3864-2 has the first three.
enum class SignalWord {
    Danger,  ///< will kill or seriously injure, if not avoided
    Warning, ///< could kill or seriously injure
    Caution, ///< could injure, minor or moderate
    Notice,  ///< not about injury: never with the triangle
};

/// How a signal word is shown. Colours: the sRGB approximations of RAL 3001, 2010, 1003, 5005 (ISO 3864-4,
/// ordinary).
struct SignalLook {
    QColor fill;
    QColor ink;
    bool triangle;
};
[[nodiscard]] const SignalLook& lookOf(SignalWord word);
[[nodiscard]] QString signalText(SignalWord word);

/// The keyline round a panel: the signal's own colour where that stands out from the ground by 3:1, else the
/// text colour of the theme (red and blue on the dark ground, yellow on the light one).
[[nodiscard]] QColor keylineOf(SignalWord word, const QColor& ground, const QColor& text);

/// One message: hazard, consequence, how to avoid it.
struct SignalView {
    SignalWord word = SignalWord::Warning;
    QString text;

    friend bool operator==(const SignalView&, const SignalView&) = default;
};

/// A message embedded in a step or at the start of a phase: the word on its colour, then the sentence.
class SignalPanel final : public QWidget {
    Q_OBJECT

public:
    explicit SignalPanel(QWidget* parent = nullptr);

    /// Nothing hides the panel.
    void setView(const std::optional<SignalView>& view);
    [[nodiscard]] bool fits() const;
    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override;
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    SignalView m_view;
};

/// The messages of a whole visit on its first page, worst word first, each with its own word.
class SignalGroup final : public QWidget {
    Q_OBJECT

public:
    explicit SignalGroup(QWidget* parent = nullptr);

    void setView(const QString& title, const QList<SignalView>& messages);

private:
    QVBoxLayout* m_layout;
    QString m_title;
    QList<SignalView> m_messages;
};

} // namespace coldarc::ui
