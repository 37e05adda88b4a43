#pragma once

#include <QObject>
#include <QSet>

#include <functional>

class QThread;

namespace coldarc::ui {

/// Does slow work away from the window: `work` runs elsewhere and touches only what it was given; `then` runs
/// afterwards on the thread of whoever asked.
using Behind = std::function<void(std::function<void()> work, std::function<void()> then)>;

/// Both at once and in place: for tests, and where nothing is slow.
[[nodiscard]] Behind inPlace();

/// Each piece of work on a thread of its own. Waits for all of them before it goes; what comes after them is
/// then not done any more.
class BehindThreads final : public QObject {
    Q_OBJECT

public:
    explicit BehindThreads(QObject* parent = nullptr);
    ~BehindThreads() override;

    void run(std::function<void()> work, std::function<void()> then);
    /// Borrows this, which must outlive the function.
    [[nodiscard]] Behind behind();

private:
    QSet<QThread*> m_threads;
};

} // namespace coldarc::ui
