#include "ui/shell/top_bar.h"

#include "ui/parts/figures.h"
#include "ui/parts/retire.h"
#include "ui/parts/text_label.h"

#include <QHBoxLayout>
#include <QPainter>

#include <cmath>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kSide = 12;

} // namespace

BarButton::BarButton(const QString& text, QWidget* parent)
    : PaintedButton(Reach::Hand, parent)
{
    setText(text);
    setAccessibleName(text);
    setCursor(Qt::PointingHandCursor);
    setFocusPolicy(Qt::TabFocus); // pressed with the mouse it leaves the keys to the page
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
}

QSize BarButton::sizeHint() const
{
    const qreal width = figureAdvance(fontFor(TextRole::Strong), text());
    return {static_cast<int>(std::ceil(width)) + 2 * kSide, target()};
}

void BarButton::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    const Tokens& t = tokens();
    paintBody(painter, isDown() ? t.line : QColor(Qt::transparent), Qt::NoPen, t.text);
    QFont font = fontFor(isChecked() ? TextRole::Strong : TextRole::Small);
    painter.setFont(font);
    painter.setPen(isChecked() || underMouse() ? t.text : t.quiet);
    drawFigureLines(painter, rect(), Qt::AlignCenter, {text()});
    if (isChecked())
        painter.fillRect(QRect(kSide, height() - 3, width() - 2 * kSide, 2), t.text);
}

TopBar::TopBar(QWidget* parent)
    : QWidget(parent)
    , m_placesRow(new QHBoxLayout)
    , m_site(new TextLabel(TextRole::Small, Ink::Text, this))
    , m_finder(new BarButton(tr("Find Ctrl+K"), this))
    , m_who(new BarButton(QString(), this))
    , m_theme(new BarButton(QString(), this))
{
    setObjectName(u"topBar"_s);
    setFixedHeight(kHandTarget + 1); // and the line beneath
    m_site->setObjectName(u"barSite"_s);
    m_who->setObjectName(u"barWho"_s);
    m_theme->setObjectName(u"barTheme"_s);
    m_finder->setObjectName(u"barFinder"_s);
    m_site->setOverflow(TextLabel::Overflow::Elides);
    m_site->setAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    m_placesRow->setSpacing(2);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(10, 0, 10, 1);
    row->setSpacing(4);
    row->addLayout(m_placesRow);
    row->addSpacing(16);
    row->addWidget(m_site);
    row->addStretch(1);
    row->addWidget(m_finder);
    row->addWidget(m_who);
    row->addWidget(m_theme);
    connect(m_theme, &QAbstractButton::clicked, this, &TopBar::themeRequested);
    connect(m_who, &QAbstractButton::clicked, this, &TopBar::whoRequested);
    connect(m_finder, &QAbstractButton::clicked, this, &TopBar::finderRequested);
}

void TopBar::setView(const TopBarView& view)
{
    if (view == m_view)
        return;
    const auto names = [](const QList<PlaceView>& places) {
        QStringList list;
        for (const PlaceView& place : places)
            list << place.id + place.title;
        return list;
    };
    const bool areOthers = names(view.places) != names(m_view.places);
    m_view = view;
    if (areOthers)
        rebuildPlaces();
    for (qsizetype index = 0; index < m_places.size(); ++index)
        m_places[index]->setChecked(view.places[index].isHere);
    m_site->setText(view.site);
    m_who->setText(view.who);
    m_who->setAccessibleName(view.who.isEmpty() ? QString() : tr("%1: lock the key").arg(view.who));
    m_who->setToolTip(view.who.isEmpty() ? QString() : tr("Lock the key (Ctrl+L)"));
    m_who->setVisible(!view.who.isEmpty());
    m_who->updateGeometry();
    m_finder->setVisible(!view.who.isEmpty());
    m_theme->setText(view.theme);
    m_theme->setAccessibleName(tr("Theme: %1").arg(view.theme));
    m_theme->setToolTip(tr("Change the theme (Ctrl+T)"));
    m_theme->updateGeometry();
}

void TopBar::rebuildPlaces()
{
    for (BarButton* button : std::as_const(m_places)) {
        m_placesRow->removeWidget(button);
        retire(button);
    }
    m_places.clear();
    for (const PlaceView& place : std::as_const(m_view.places)) {
        auto* button = new BarButton(place.title, this);
        button->setObjectName(u"place-"_s + place.id);
        button->setCheckable(true);
        button->setToolTip(place.shortcut);
        m_placesRow->addWidget(button);
        m_places.append(button);
        connect(button, &QAbstractButton::clicked, this, [this, button, id = place.id] {
            button->setChecked(true); // where one is does not become elsewhere by pressing it again
            Q_EMIT placeChosen(id);
        });
    }
}

void TopBar::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    const Tokens& t = tokensOf(*this);
    painter.fillRect(rect(), t.ground);
    painter.fillRect(QRect(0, height() - 1, width(), 1), t.line);
}

} // namespace coldarc::ui
