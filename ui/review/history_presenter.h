#pragma once

#include "core/review/history_store.h"
#include "ui/parts/card_lines.h"
#include "ui/parts/choice_row.h"
#include "ui/parts/row_list.h"

#include <QObject>
#include <QTimeZone>

class QTimer;

namespace coldarc::ui {

/// Everything that the page of histories shows.
struct HistoryView {
    ChoiceView about;     ///< what is looked for
    QString words;        ///< that it is looked for by
    QString hint;         ///< in the empty field
    QList<RowView> found; ///< those that fit
    QString chosen;       ///< id of one of them, or of one that was asked for from elsewhere; or empty
    QString notFound;     ///< said where there are none
    QString more;         ///< said where there are more than are listed
    QString reach;        ///< visits that are not read yet, or cannot be read; or empty
    QString title;        ///< of the history in sight; empty: none is
    QString sub;
    QList<CardLine> owed;  ///< still
    QString staysName;     ///< "Lamps, newest first"
    QList<CardLine> stays; ///< each with a way to the other history; or none
    QList<CardLine> lines; ///< newest first
    QString noLines;
    QString part; ///< "1 to 40 of 132"
    bool hasNewer = false;
    bool hasOlder = false;
    QString said; ///< what the last press led to; or empty

    friend bool operator==(const HistoryView&, const HistoryView&) = default;
};

/// The history of a lamp, a lamphouse or a person: finding it, paging through it, and the way from each line
/// to the entry that says it. Reads the logbooks that are not in the histories yet, a few in each turn of the
/// event loop.
class HistoryPresenter final : public QObject {
    Q_OBJECT

public:
    /// Lines of one page.
    static constexpr int kMostLines = 40;
    /// Names in the list.
    static constexpr int kMostFound = 50;

    /// Whether what the logbooks tell may be written into the histories.
    enum class Reading : std::uint8_t {
        Allowed,
        Not, ///< the workspace is open for reading only: what is there is shown
    };

    /// Borrows the store, which must outlive the presenter.
    HistoryPresenter(review::HistoryStore& store, const QTimeZone& zone, Reading reading = Reading::Allowed,
                     QObject* parent = nullptr);

    [[nodiscard]] const HistoryView& view() const { return m_view; }
    /// The page comes in sight: what was written since is read, and what it shows is looked up anew.
    void open();
    /// By the word of review::About.
    void chooseAbout(const QString& about);
    void search(const QString& words);
    void choose(const QString& id);
    void showLamp(const LampId& lamp);
    void showLamphouse(const LamphouseId& lamphouse);
    void showPerson(const PersonId& person);
    void older();
    void newer();
    /// By the line's id: where it can be looked up.
    void lookUp(const QString& line);
    /// By the id of a stay: the history of its lamp, or of its lamphouse.
    void followStay(const QString& stay);
    /// What is in sight, as plain text.
    [[nodiscard]] QString text() const;
    /// It was copied.
    void copied();

Q_SIGNALS:
    void viewChanged(const coldarc::ui::HistoryView& view);
    void lookUpRequested(const coldarc::VisitId& visit, qint64 entry);

private:
    void readOn();
    void show(review::About about, const QString& id);
    void find();
    void read();
    void refresh();
    void wordFound(HistoryView& view) const;
    void wordPage(HistoryView& view) const;
    void wordReach(HistoryView& view) const;

    review::HistoryStore& m_store;
    QTimeZone m_zone;
    Reading m_reading;
    QTimer* m_turn;
    review::About m_about = review::About::Lamp;
    QString m_words;
    QString m_chosen;
    qint64 m_first = 0;
    Result<std::vector<review::Subject>> m_found;
    std::optional<Result<review::HistoryPage>> m_page; ///< nothing: none is chosen
    Result<review::HistoryReach> m_reach;
    QString m_said;
    HistoryView m_view;
};

} // namespace coldarc::ui
