#pragma once

#include "ui/parts/side_page.h"
#include "ui/record/records_presenter.h"

namespace coldarc::ui {

class PlainButton;
class SectionLabel;
class TextLabel;

/// Records of other workspaces: taking them in, what was not taken and why, and those that wait. Files can be
/// dropped on it.
class RecordsPage final : public SidePage {
    Q_OBJECT

public:
    explicit RecordsPage(QWidget* parent = nullptr);

    void setView(const RecordsView& view);

Q_SIGNALS:
    /// Files are to be chosen and taken in.
    void filesRequested();
    void filesDropped(const QStringList& files);
    void stopRequested();
    void againRequested(const QString& id);
    void discardRequested();
    void keepRequested();

protected:
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

private:
    PlainButton* m_take;
    PlainButton* m_stop;
    TextLabel* m_progress;
    TextLabel* m_outcome;
    PlainButton* m_discard;
    PlainButton* m_keep;
    TextLabel* m_question;
    SectionLabel* m_notTakenTitle;
    CardLines* m_notTaken;
    TextLabel* m_more;
    CardLines* m_waiting;
    TextLabel* m_moreWaiting;
};

} // namespace coldarc::ui
