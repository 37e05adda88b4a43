#pragma once

#include <QList>
#include <QString>
#include <QWidget>

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

    /// @param empty  what is said where there are no lines.
    void setLines(const QList<CardLine>& lines, const QString& empty = {});

Q_SIGNALS:
    void actRequested(const QString& id);
    void otherActRequested(const QString& id);

private:
    QWidget* makeLine(const CardLine& line);
    [[nodiscard]] PlainButton* makeAct(const CardLine& line, const QString& act, const QString& name,
                                       QWidget* parent);

    QVBoxLayout* m_layout;
    QList<CardLine> m_lines;
    QString m_empty;
    bool m_built = false;
};

} // namespace coldarc::ui
