#pragma once

#include <QList>
#include <QPointer>
#include <QString>
#include <QWidget>

#include <functional>

class QLineEdit;
class QListView;

namespace coldarc::ui {

/// Something a person can do here.
struct FinderCommand {
    QString title;
    QString shortcut; ///< as it is shown: "Ctrl+B"; or empty
    std::function<void()> run;
};

/// Everything that can be done here, found by typing a part of its name: Ctrl+K opens it over the window,
/// arrows and Enter choose, Escape leaves. While it is open it takes every key; on leaving, the focus goes
/// back.
class CommandFinder final : public QWidget {
    Q_OBJECT

public:
    /// Lies over `over`, which must outlive it, and binds Ctrl+K there.
    explicit CommandFinder(QWidget* over);

    /// What is offered from the next opening on, in this order.
    void setCommands(QList<FinderCommand> commands);
    /// Ctrl+K. Also what is said when the key is pressed, so that the page can bring its commands up to date.
    void open();

Q_SIGNALS:
    /// Before the list is shown.
    void opening();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;

private:
    class Model;
    void leave();
    void runCurrent();
    void moveBy(int rows);
    void filter(const QString& words);
    void place();
    [[nodiscard]] QRect card() const;

    QWidget* m_over;
    QLineEdit* m_box;
    QListView* m_list;
    Model* m_model;
    QPointer<QWidget> m_before;
};

} // namespace coldarc::ui
