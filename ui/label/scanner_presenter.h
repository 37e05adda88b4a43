#pragma once

#include "core/label/set_up_scan.h"

#include <QObject>
#include <QString>
#include <QStringList>

namespace coldarc::ui {

struct ScannerView {
    QString title;      ///< one sentence: what to do, or how it came through
    QStringList change; ///< what to change on the scanner or here; one sentence each
    QString came;       ///< what the scanner sent, as it can be printed; empty: nothing yet

    friend bool operator==(const ScannerView&, const ScannerView&) = default;
};

/// The words for what a scanner made of the code that sets it up.
[[nodiscard]] ScannerView wordsOf(const label::SetUpVerdict& verdict, const QString& scanned);

/// The check of a scanner: what it sent of the code on the page.
class ScannerPresenter final : public QObject {
    Q_OBJECT

public:
    explicit ScannerPresenter(QObject* parent = nullptr);

    [[nodiscard]] const ScannerView& view() const { return m_view; }
    /// Nothing was scanned yet.
    void begin();
    void hear(const QString& scanned);

Q_SIGNALS:
    void viewChanged(const coldarc::ui::ScannerView& view);

private:
    void show(ScannerView view);

    ScannerView m_view;
};

} // namespace coldarc::ui
