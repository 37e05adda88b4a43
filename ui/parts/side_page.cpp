#include "ui/parts/side_page.h"

#include "ui/parts/theme.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QLinearGradient>
#include <QPainter>
#include <QScrollArea>
#include <QScrollBar>
#include <QVBoxLayout>

#include <algorithm>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kWidestBody = 940;
constexpr int kFade = 22;

/// Over the foot of what scrolls, while it goes on below: half a line there reads as one that goes on.
class Fade final : public QWidget {
public:
    explicit Fade(QScrollArea& scroll)
        : QWidget(&scroll)
        , m_scroll(scroll)
    {
        setAttribute(Qt::WA_TransparentForMouseEvents);
        hide();
        scroll.viewport()->installEventFilter(this);
        connect(scroll.verticalScrollBar(), &QScrollBar::valueChanged, this, [this] { place(); });
        connect(scroll.verticalScrollBar(), &QScrollBar::rangeChanged, this, [this] { place(); });
    }

protected:
    bool eventFilter(QObject* watched, QEvent* event) override
    {
        if (event->type() == QEvent::Resize)
            place();
        return QWidget::eventFilter(watched, event);
    }
    void paintEvent(QPaintEvent* /*event*/) override
    {
        const QColor ground = tokensOf(*this).ground;
        QColor clear = ground;
        clear.setAlpha(0);
        QLinearGradient gradient(rect().bottomLeft(), rect().topLeft());
        gradient.setColorAt(0, ground);
        gradient.setColorAt(1, clear);
        QPainter(this).fillRect(rect(), gradient);
    }

private:
    void place()
    {
        const QRect area = m_scroll.viewport()->geometry();
        setGeometry(area.left(), area.bottom() + 1 - kFade, area.width(), kFade);
        setVisible(m_scroll.verticalScrollBar()->value() < m_scroll.verticalScrollBar()->maximum());
        raise();
    }

    QScrollArea& m_scroll;
};

} // namespace

QScrollArea* bareScroll(QWidget* content, QWidget* parent)
{
    auto* scroll = new QScrollArea(parent);
    content->setProperty("bare", true);
    scroll->setWidget(content);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    new Fade(*scroll);
    return scroll;
}

SidePage::SidePage(QWidget* parent)
    : QWidget(parent)
{
    auto* sideContent = new QWidget(this);
    m_side = new QVBoxLayout(sideContent);
    m_side->setContentsMargins(12, 22, 13, 16);
    m_side->setSpacing(8);
    m_sideScroll = bareScroll(sideContent, this);
    m_sideScroll->setObjectName(u"sideScroll"_s);

    auto* bodyContent = new QWidget(this);
    bodyContent->setMaximumWidth(kWidestBody);
    m_body = new QVBoxLayout(bodyContent);
    m_body->setContentsMargins(40, 26, 40, 26);
    m_body->setSpacing(14);
    m_bodyScroll = bareScroll(bodyContent, this);
    m_bodyScroll->setObjectName(u"bodyScroll"_s);
    m_bodyScroll->setAlignment(Qt::AlignLeft | Qt::AlignTop);

    m_foot = new QVBoxLayout;
    m_foot->setContentsMargins(40, 12, 40, 24);
    auto* right = new QVBoxLayout;
    right->setSpacing(0);
    right->addWidget(m_bodyScroll, 1);
    right->addLayout(m_foot);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    row->addWidget(m_sideScroll);
    row->addLayout(right, 1);
}

QWidget* SidePage::sideArea() const
{
    return m_sideScroll->widget();
}

QWidget* SidePage::bodyArea() const
{
    return m_bodyScroll->widget();
}

void SidePage::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    m_sideScroll->setFixedWidth(std::clamp(width() * 24 / 100, 300, 400));
}

void SidePage::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    const Tokens& t = tokensOf(*this);
    painter.fillRect(rect(), t.ground);
    painter.setPen(t.line);
    painter.drawLine(m_sideScroll->geometry().right() + 1, 0, m_sideScroll->geometry().right() + 1, height());
}

} // namespace coldarc::ui
