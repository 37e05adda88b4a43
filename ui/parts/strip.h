#pragma once

#include <QString>
#include <QWidget>

#include <functional>

namespace coldarc::ui {

class PlainButton;
class TextLabel;

/// A message that calls without taking the focus.
struct StripView {
    enum class Call {
        Silent,
        Sounds, ///< once, when the message comes up
    };
    QString text; ///< empty: no strip
    QString act;  ///< on a button: "Go to Screen 4"; or empty for none
    QString key;  ///< the key that does the same: "F2"; or empty
    Call call = Call::Silent;

    friend bool operator==(const StripView&, const StripView&) = default;
};

/// A quiet strip across the page. It never takes the focus; a new message may sound.
class Strip final : public QWidget {
    Q_OBJECT

public:
    explicit Strip(QWidget* parent = nullptr);

    /// How a call sounds; without one the strip is silent. The program's root gives the real one.
    void setSound(std::function<void()> sound) { m_sound = std::move(sound); }
    void setView(const StripView& view);

Q_SIGNALS:
    void actRequested();
    void dismissed();

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    TextLabel* m_text;
    PlainButton* m_act;
    PlainButton* m_dismiss;
    StripView m_view;
    std::function<void()> m_sound;
};

} // namespace coldarc::ui
