#pragma once

#include "core/base/clock.h"
#include "ui/label/scanner_presenter.h"

#include <QWidget>

class QCoreApplication;
class QPagedPaintDevice;

namespace coldarc::ui {

class PlainButton;
class TextLabel;

/// The code that sets a scanner up, as large as there is room for, and what the scanner made of it.
///
/// Keys: Escape goes back.
class ScannerPage final : public QWidget {
    Q_OBJECT

public:
    explicit ScannerPage(QWidget* parent = nullptr);

    void setView(const ScannerView& view);

Q_SIGNALS:
    void leaveRequested();
    /// The page comes into sight, or goes.
    void inSight(bool isShown);

protected:
    void paintEvent(QPaintEvent* event) override;
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;

private:
    void print();

    TextLabel* m_title;
    TextLabel* m_change;
    TextLabel* m_came;
};

/// The page with its presenter and a filter of its own that listens while it is in sight. Borrows application
/// and clock, which must outlive it.
[[nodiscard]] ScannerPage* makeScannerPage(QCoreApplication& application, const Clock& clock,
                                           QWidget* parent = nullptr);

/// The code on one sheet, 0.33 mm a module or less where the sheet is narrower, with what it is for beneath
/// it. Source of the width: the 0.33 mm that the GS1 General Specifications call 100 %, from memory.
/// @return false if nothing could be painted on it.
[[nodiscard]] bool printSetUpCode(QPagedPaintDevice& sheet);

} // namespace coldarc::ui
