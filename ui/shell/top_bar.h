#pragma once

#include "ui/parts/painted_button.h"

#include <QList>
#include <QWidget>

class QHBoxLayout;

namespace coldarc::ui {

class TextLabel;

/// One of the places that the bar leads to.
struct PlaceView {
    QString id;
    QString title;
    QString shortcut; ///< "Ctrl+1"
    bool isHere = false;

    friend bool operator==(const PlaceView&, const PlaceView&) = default;
};

struct TopBarView {
    QList<PlaceView> places;
    QString site;  ///< of the visit in hand; or empty
    QString who;   ///< who works here; or empty
    QString theme; ///< the theme in use

    friend bool operator==(const TopBarView&, const TopBarView&) = default;
};

/// A word of the bar that can be pressed; the place where one is has a line beneath.
class BarButton final : public PaintedButton {
    Q_OBJECT

public:
    explicit BarButton(const QString& text, QWidget* parent = nullptr);

    [[nodiscard]] QSize sizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;
};

/// The thin bar above every page: places, which site, who works here, theme.
class TopBar final : public QWidget {
    Q_OBJECT

public:
    explicit TopBar(QWidget* parent = nullptr);

    void setView(const TopBarView& view);

Q_SIGNALS:
    void placeChosen(const QString& id);
    void themeRequested();
    void whoRequested();
    void finderRequested();

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void rebuildPlaces();

    TopBarView m_view;
    QHBoxLayout* m_placesRow;
    QList<BarButton*> m_places;
    TextLabel* m_site;
    BarButton* m_finder;
    BarButton* m_who;
    BarButton* m_theme;
};

} // namespace coldarc::ui
