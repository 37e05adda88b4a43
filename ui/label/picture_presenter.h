#pragma once

#include "core/catalogue/lamp_type.h"
#include "core/label/label_text.h"
#include "ui/label/decoding_process.h"
#include "ui/label/label_picture.h"
#include "ui/parts/behind.h"

#include <QImage>
#include <QObject>
#include <QPolygonF>

namespace coldarc::ui {

/// One code on the picture.
struct PictureCode {
    QPolygonF corners; ///< in shares of the picture's width and height, 0 to 1
    QString words;     ///< what it says, or why it says nothing
    bool canBePicked = false;

    friend bool operator==(const PictureCode&, const PictureCode&) = default;
};

struct PictureView {
    QImage picture;           ///< null while there is none
    QList<PictureCode> codes; ///< from the top to the bottom
    int picked = -1;          ///< of codes
    QString says;             ///< one sentence: what to do, what goes on, or what went wrong
    bool isBusy = false;

    friend bool operator==(const PictureView&, const PictureView&) = default;
};

/// A picture of a label: made ready behind, looked at by a process of its own, its codes shown to pick from.
/// A person picks one, were it the only one: what is found is not always of the lamp in hand.
class PicturePresenter final : public QObject {
    Q_OBJECT

public:
    /// Borrows the process, which must outlive the presenter.
    PicturePresenter(DecodingProcess& process, Behind behind, QList<catalogue::LampType> lampTypes,
                     int currentYear, QObject* parent = nullptr);

    [[nodiscard]] const PictureView& view() const { return m_view; }
    void look(const PictureSource& source);
    /// Puts the picture away, whatever goes on with it.
    void clear();
    void pick(int code);
    /// What the logbook keeps of the picture in hand; empty bytes while there is none.
    [[nodiscard]] const LabelPicture& picture() const { return m_picture; }

Q_SIGNALS:
    void viewChanged(const coldarc::ui::PictureView& view);
    /// A code was picked.
    /// @param scanned  its text with the symbology identifier in front.
    /// @param picture  its evidence.
    void picked(const QString& scanned, const coldarc::ui::LabelPicture& picture);
    /// A code was found that no rule reads.
    void unknownFound(const QString& scanned);

private:
    void made(const LabelPicture& picture);
    void decoded(const label::PictureReading& reading);
    void unread(const QString& says);
    void show(PictureView view);

    DecodingProcess& m_process;
    Behind m_behind;
    QList<catalogue::LampType> m_lampTypes;
    int m_currentYear;
    int m_asked = 0; ///< pictures so far: one that was made ready after another was given counts no more
    LabelPicture m_picture;
    QStringList m_scanned; ///< of the codes in the view
    PictureView m_view;
};

} // namespace coldarc::ui
