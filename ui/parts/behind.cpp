#include "ui/parts/behind.h"

#include <QThread>

#include <utility>

namespace coldarc::ui {

Behind inPlace()
{
    return [](const std::function<void()>& work, const std::function<void()>& then) {
        work();
        then();
    };
}

BehindThreads::BehindThreads(QObject* parent)
    : QObject(parent)
{
}

BehindThreads::~BehindThreads()
{
    for (QThread* thread : std::as_const(m_threads)) {
        thread->disconnect(this);
        thread->wait();
        delete thread;
    }
}

void BehindThreads::run(std::function<void()> work, std::function<void()> then)
{
    QThread* thread = QThread::create(std::move(work));
    m_threads.insert(thread);
    connect(thread, &QThread::finished, this, [this, thread, then = std::move(then)] {
        m_threads.remove(thread);
        thread->deleteLater();
        then();
    });
    thread->start();
}

Behind BehindThreads::behind()
{
    return [this](std::function<void()> work, std::function<void()> then) {
        run(std::move(work), std::move(then));
    };
}

} // namespace coldarc::ui
