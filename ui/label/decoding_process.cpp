#include "ui/label/decoding_process.h"

namespace coldarc::ui {

DecodingProcess::DecodingProcess(QString program, QStringList arguments, std::chrono::milliseconds patience,
                                 QObject* parent)
    : QObject(parent)
    , m_program(std::move(program))
    , m_arguments(std::move(arguments))
{
    m_patience.setSingleShot(true);
    m_patience.setInterval(patience);
    connect(&m_patience, &QTimer::timeout, this, [this] { giveUp(Failure::TookTooLong); });
}

DecodingProcess::~DecodingProcess()
{
    cancel();
}

void DecodingProcess::decode(const QByteArray& picture)
{
    cancel();
    m_picture = picture;
    start(Try::Whole);
}

void DecodingProcess::start(Try which)
{
    m_try = which;
    auto* const process = new QProcess(this);
    m_process = process;
    process->setProcessChannelMode(QProcess::SeparateChannels);
    connect(process, &QProcess::finished, this, &DecodingProcess::finished);
    connect(process, &QProcess::errorOccurred, this, [this](QProcess::ProcessError error) {
        if (error == QProcess::FailedToStart)
            giveUp(Failure::NotStarted);
    });
    QStringList arguments = m_arguments;
    if (which == Try::Half)
        arguments << QString::fromLatin1(kHalf);
    process->start(m_program, arguments);
    if (m_process != process)
        return; // it failed while it was being started
    process->write(m_picture);
    process->closeWriteChannel();
    m_patience.start();
}

// The process, if there is one, is left to die and says no more.
void DecodingProcess::cancel()
{
    m_patience.stop();
    m_try = Try::None;
    if (!m_process)
        return;
    QProcess* const process = std::exchange(m_process, nullptr);
    process->disconnect(this);
    if (process->state() == QProcess::NotRunning) {
        process->deleteLater();
        return;
    }
    connect(process, &QProcess::finished, process, &QObject::deleteLater);
    process->kill();
}

void DecodingProcess::giveUp(Failure failure)
{
    const bool again = m_try == Try::Whole && failure != Failure::NotStarted;
    cancel();
    if (again)
        start(Try::Half);
    else
        Q_EMIT failed(failure);
}

void DecodingProcess::finished(int status, QProcess::ExitStatus how)
{
    if (how == QProcess::CrashExit || status != 0) {
        giveUp(Failure::Died);
        return;
    }
    const auto reading = label::readingFromLine(m_process->readAllStandardOutput());
    if (!reading) {
        giveUp(Failure::Nonsense);
        return;
    }
    cancel();
    Q_EMIT decoded(*reading);
}

} // namespace coldarc::ui
