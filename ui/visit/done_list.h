#pragma once

#include "ui/visit/done_view.h"

#include <QAbstractListModel>
#include <QHash>
#include <QImage>
#include <QListView>
#include <QPixmap>

#include <functional>

namespace coldarc::ui {

/// The entries of a logbook, one row each.
class DoneListModel final : public QAbstractListModel {
    Q_OBJECT

public:
    using QAbstractListModel::QAbstractListModel;

    /// True when anything changed.
    bool show(const QList<DoneLine>& lines);
    [[nodiscard]] const DoneLine& line(int row) const { return m_lines.at(row); }
    /// Whether a new section begins with this row.
    [[nodiscard]] bool beginsSection(int row) const;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;

private:
    QList<DoneLine> m_lines;
};

/// Draws them: when, what, who; beneath it the answers, and what stands beside the entry. One that was
/// withdrawn is struck through, with its reason. A picture stands at the right, small.
class DoneList final : public QListView {
    Q_OBJECT

public:
    explicit DoneList(QWidget* parent = nullptr);

    /// @param chosen  the entry in hand; it is brought in sight when it changes.
    void setLines(const QList<DoneLine>& lines, qint64 chosen);
    /// The bytes of a picture by its hash.
    void setPictures(std::function<QByteArray(const QString&)> pictures) { m_pictures = std::move(pictures); }
    /// One that was read elsewhere; null: it is not there.
    void setPicture(const QString& hash, const QImage& picture);
    /// Every entry that is selected, in their order.
    [[nodiscard]] QList<qint64> selected() const;
    /// Small, read once; null where it cannot be read.
    [[nodiscard]] QPixmap thumbnail(const QString& hash) const;
    [[nodiscard]] const DoneListModel& lines() const { return *m_model; }

Q_SIGNALS:
    void entryChosen(qint64 entry);

protected:
    void resizeEvent(QResizeEvent* event) override;
    void currentChanged(const QModelIndex& current, const QModelIndex& previous) override;

private:
    [[nodiscard]] static QPixmap small(const QImage& picture);

    DoneListModel* m_model;
    std::function<QByteArray(const QString&)> m_pictures;
    mutable QHash<QString, QPixmap> m_thumbnails;
    qint64 m_chosen = -1;
    bool m_isShowing = false;
};

} // namespace coldarc::ui
