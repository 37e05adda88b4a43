#pragma once

#include "core/label/found_code.h"

#include <QByteArray>
#include <QObject>
#include <QProcess>
#include <QStringList>
#include <QTimer>

#include <chrono>

namespace coldarc::ui {

/// Has one picture after another looked at by a process of its own. Whatever happens to that process, this
/// one goes on: when it dies or does not answer in time, the same picture is tried once more at half its
/// size, and then given up.
class DecodingProcess final : public QObject {
    Q_OBJECT

public:
    /// Why nothing came of a picture.
    enum class Failure : std::uint8_t {
        NotStarted, ///< the program is not there
        Died,
        TookTooLong,
        Nonsense, ///< it answered what is no reading
    };

    /// How a picture is handed over: as it is, or with this argument for half its size.
    static constexpr const char* kHalf = "--half";

    /// @param patience  for one try.
    DecodingProcess(QString program, QStringList arguments, std::chrono::milliseconds patience,
                    QObject* parent = nullptr);
    /// Ends a try that is under way.
    ~DecodingProcess() override;

    /// Looks at a picture file's bytes. One that is under way is given up without a word.
    void decode(const QByteArray& picture);
    /// Gives up what is under way, without a word.
    void cancel();
    [[nodiscard]] bool isBusy() const { return m_try != Try::None; }

Q_SIGNALS:
    void decoded(const coldarc::label::PictureReading& reading);
    void failed(coldarc::ui::DecodingProcess::Failure failure);

private:
    enum class Try : std::uint8_t {
        None,
        Whole,
        Half,
    };
    void start(Try which);
    void giveUp(Failure failure);
    void finished(int status, QProcess::ExitStatus how);

    QString m_program;
    QStringList m_arguments;
    QByteArray m_picture;
    Try m_try = Try::None;
    QProcess* m_process = nullptr;
    QTimer m_patience;
};

} // namespace coldarc::ui
