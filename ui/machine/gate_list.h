#pragma once

#include <QList>
#include <QString>
#include <QWidget>

class QVBoxLayout;

namespace coldarc::ui {

/// One gate, as it stands.
struct GateView {
    enum class Stand {
        Waits,
        Half, ///< one of the two facts it needs
        Proved,
    };
    QString name; ///< "Cold"
    Stand stand = Stand::Waits;
    QString words; ///< "waits 6:41", "1 of 2, waits: voltage", "proved 13:14"

    friend bool operator==(const GateView&, const GateView&) = default;
};

/// The gates of a swap, each drawn as a gate: a bar across while it waits, both leaves swung back when it is
/// proved, one leaf for one of two; always with its name and what it waits for.
class GateList final : public QWidget {
    Q_OBJECT

public:
    explicit GateList(QWidget* parent = nullptr);

    void setView(const QList<GateView>& gates);
    /// The lines stand closer, for a page that is short of height.
    void setDense(bool isDense);

private:
    class Row;
    QVBoxLayout* m_layout;
    QList<Row*> m_rows;
    QList<GateView> m_gates;
    bool m_isDense = false;
};

} // namespace coldarc::ui
