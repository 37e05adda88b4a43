#pragma once

#include <QList>
#include <QString>
#include <QWidget>

#include <utility>

class QVBoxLayout;

namespace coldarc::ui {

class PlainButton;

/// A line of a card, with what can be done about it.
struct CardLine {
    QString id;
    QString text;
    QString sub;
    QString act;        ///< on a button at its end: "Withdraw"; or empty
    QString code{};     ///< to be read to somebody; or empty
    QString otherAct{}; ///< on a second button before the first; or empty

    friend bool operator==(const CardLine&, const CardLine&) = default;
};

/// Lines beneath each other, parted by hairlines, or a sentence where there are none.
class CardLines final : public QWidget {
    Q_OBJECT

public:
    explicit CardLines(QWidget* parent = nullptr);

    /// The focus stays with the line that had it, or with the one that stands there now.
    /// @param empty  what is said where there are no lines.
    void setLines(const QList<CardLine>& lines, const QString& empty = {});

Q_SIGNALS:
    void actRequested(const QString& id);
    void otherActRequested(const QString& id);

private:
    /// The line whose button has the focus.
    struct Held {
        qsizetype row = -1;
        QString id; ///< empty: none
    };
    [[nodiscard]] std::pair<Held, QString> focused() const;
    void giveFocus(const Held& held, const QString& button);
    QWidget* makeLine(const CardLine& line);
    [[nodiscard]] PlainButton* makeAct(const CardLine& line, const QString& act, const QString& name,
                                       QWidget* parent);

    QVBoxLayout* m_layout;
    QList<CardLine> m_lines;
    QString m_empty;
    bool m_built = false;
};

} // namespace coldarc::ui
