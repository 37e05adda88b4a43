#pragma once

#include "ui/parts/painted_button.h"
#include "ui/visit/bench_view.h"

class QVBoxLayout;

namespace coldarc::ui {

/// The swaps of the visit, each a button with what it stands at; its key goes there from anywhere on the
/// page.
class SwapList final : public QWidget {
    Q_OBJECT

public:
    explicit SwapList(QWidget* parent = nullptr);

    void setSwaps(const QList<SwapRow>& swaps, int inHand);

Q_SIGNALS:
    void swapChosen(int index);

private:
    class Button;
    QVBoxLayout* m_layout;
    QList<Button*> m_buttons;
};

} // namespace coldarc::ui
