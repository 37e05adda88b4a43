#include "ui/review/review_parts.h"

#include "ui/alignment/light_chart.h"
#include "ui/parts/figures.h"
#include "ui/parts/glyphs.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/retire.h"
#include "ui/parts/show_text.h"

#include <QGridLayout>
#include <QPainter>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr qreal kSide = 16;
constexpr qreal kTop = 12;
constexpr qreal kLineGap = 4;
constexpr int kTwoColumnsFrom = 620;
constexpr int kChartWidth = 420;
constexpr int kChartHeight = 190;
constexpr int kTraceHeight = 130;
constexpr int kBlockGap = 14;
constexpr QSize kTile(250, 190);
constexpr int kLargeHeight = 560;
constexpr int kGlyph = 13;
constexpr int kGlyphRoom = 24;

qreal heightOf(TextRole role, const QString& text, qreal room)
{
    if (text.isEmpty())
        return 0;
    const QFont font = fontFor(role);
    return QFontMetricsF(font).lineSpacing() * static_cast<qreal>(figureLines(font, text, room).size());
}

} // namespace

// ---- Cards
// --------------------------------------------------------------------------------------------------

ExceptionCard::ExceptionCard(QWidget* parent)
    : PaintedButton(Reach::Hand, parent)
{
    setCursor(Qt::PointingHandCursor);
    QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Minimum);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

void ExceptionCard::setView(const ReviewCard& view)
{
    m_view = view;
    setObjectName(u"exception-%1"_s.arg(view.entry));
    setText(view.title);
    setAccessibleName(view.title);
    setAccessibleDescription(QStringList{view.more, view.where}.join(u". "_s));
    updateGeometry();
    update();
}

QSize ExceptionCard::sizeHint() const
{
    return {320, heightForWidth(320)};
}

int ExceptionCard::heightForWidth(int width) const
{
    const qreal room = std::max(width - 2 * kSide, 60.0);
    qreal height = heightOf(TextRole::Strong, m_view.title, room);
    if (!m_view.more.isEmpty())
        height += kLineGap + heightOf(TextRole::Small, m_view.more, room);
    height += kLineGap + heightOf(TextRole::Caption, m_view.where, room);
    return std::max(target(), static_cast<int>(std::ceil(height + 2 * kTop)));
}

void ExceptionCard::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    const Tokens& t = tokens();
    paintBody(painter, isDown() ? t.line : t.panel, QPen(underMouse() ? t.edge : t.line, 1), t.text);
    const qreal room = width() - 2 * kSide;
    qreal top = kTop;
    const auto put = [&](TextRole role, const QColor& ink, const QString& text) {
        if (text.isEmpty())
            return;
        painter.setFont(fontFor(role));
        painter.setPen(ink);
        const qreal height = heightOf(role, text, room);
        drawFigureLines(painter, QRectF(kSide, top, room, height), Qt::AlignLeft | Qt::AlignTop,
                        figureLines(fontFor(role), text, room));
        top += height + kLineGap;
    };
    put(TextRole::Strong, t.text, m_view.title);
    put(TextRole::Small, t.text, m_view.more);
    put(TextRole::Caption, t.quiet, m_view.where);
}

ExceptionCards::ExceptionCards(QWidget* parent)
    : QWidget(parent)
    , m_grid(new QGridLayout(this))
    , m_more(new PlainButton(QString(), Reach::Hand, PlainButton::Weight::Quiet, this))
{
    setObjectName(u"exceptions"_s);
    m_grid->setContentsMargins(0, 0, 0, 0);
    m_grid->setSpacing(12);
    m_more->setObjectName(u"moreExceptions"_s);
    m_more->hide();
    connect(m_more, &QAbstractButton::clicked, this, [this] {
        m_showsAll = true;
        place();
    });
}

void ExceptionCards::setCards(const QList<ReviewCard>& cards)
{
    while (m_cards.size() < cards.size()) {
        auto* card = new ExceptionCard(this);
        connect(card, &QAbstractButton::clicked, this, [this, card] { Q_EMIT entryChosen(card->entry()); });
        m_cards.append(card);
    }
    for (qsizetype index = 0; index < cards.size(); ++index)
        m_cards[index]->setView(cards[index]);
    m_count = cards.size();
    m_showsAll = m_count <= kShownAtFirst;
    const auto hidden = m_count - kShownAtFirst;
    m_more->setText(hidden == 1 ? tr("One more") : tr("%1 more").arg(hidden));
    m_more->setAccessibleName(m_more->text());
    setVisible(m_count > 0);
    place();
}

void ExceptionCards::place()
{
    m_columns = width() >= kTwoColumnsFrom && m_count > 1 ? 2 : 1;
    const qsizetype shown = m_showsAll ? m_count : kShownAtFirst;
    for (qsizetype index = 0; index < m_cards.size(); ++index) {
        m_grid->removeWidget(m_cards[index]);
        m_cards[index]->setVisible(index < shown);
        if (index < shown)
            m_grid->addWidget(m_cards[index], static_cast<int>(index) / m_columns,
                              static_cast<int>(index) % m_columns);
    }
    m_grid->removeWidget(m_more);
    m_more->setVisible(!m_showsAll);
    if (!m_showsAll)
        m_grid->addWidget(m_more, static_cast<int>(shown), 0, 1, m_columns, Qt::AlignLeft);
    m_grid->setColumnStretch(0, 1);
    m_grid->setColumnStretch(1, m_columns == 2 ? 1 : 0);
}

void ExceptionCards::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    if ((width() >= kTwoColumnsFrom && m_count > 1 ? 2 : 1) != m_columns)
        place();
}

// ---- Signatures
// -----------------------------------------------------------------------------------------------

class SignedLines::Row final : public QWidget {
public:
    explicit Row(QWidget* parent)
        : QWidget(parent)
        , m_text(new TextLabel(TextRole::Small, Ink::Text, this))
        , m_sub(new TextLabel(TextRole::Caption, Ink::Quiet, this))
    {
        auto* column = new QVBoxLayout(this);
        column->setContentsMargins(kGlyphRoom, 0, 0, 0);
        column->setSpacing(1);
        column->addWidget(m_text);
        column->addWidget(m_sub);
    }
    void setView(const SignedLine& view)
    {
        m_kind = view.kind;
        m_text->setText(view.text);
        showText(m_sub, view.sub);
        update();
    }

protected:
    void paintEvent(QPaintEvent* /*event*/) override
    {
        QPainter painter(this);
        painter.setRenderHint(QPainter::Antialiasing);
        const Tokens& t = tokensOf(*this);
        const qreal middle = QFontMetricsF(fontFor(TextRole::Small)).lineSpacing() / 2;
        const QRectF at = QRectF(0, middle - kGlyph / 2.0, kGlyph, kGlyph).adjusted(1, 1, -1, -1);
        switch (m_kind) {
        case DoneMark::Kind::Signed:
            return drawTick(painter, at, t.text);
        case DoneMark::Kind::Missing:
            return drawRound(painter, at, t.text);
        case DoneMark::Kind::Unusual:
            return drawPointer(painter, at, t.text);
        case DoneMark::Kind::Remark:
            return drawFlag(painter, at, t.text);
        case DoneMark::Kind::Broken:
            painter.setPen(QPen(t.text, 2, Qt::SolidLine, Qt::RoundCap));
            painter.drawLine(at.topLeft(), at.bottomRight());
            painter.drawLine(at.bottomLeft(), at.topRight());
            return;
        }
    }

private:
    TextLabel* m_text;
    TextLabel* m_sub;
    DoneMark::Kind m_kind = DoneMark::Kind::Signed;
};

SignedLines::SignedLines(QWidget* parent)
    : QWidget(parent)
    , m_layout(new QVBoxLayout(this))
{
    setObjectName(u"signatures"_s);
    m_layout->setContentsMargins(0, 0, 0, 0);
    m_layout->setSpacing(8);
}

void SignedLines::setLines(const QList<SignedLine>& lines)
{
    while (m_rows.size() < lines.size()) {
        m_rows.append(new Row(this));
        m_layout->addWidget(m_rows.last());
    }
    for (qsizetype index = 0; index < m_rows.size(); ++index) {
        if (index < lines.size())
            m_rows[index]->setView(lines[index]);
        m_rows[index]->setVisible(index < lines.size());
    }
}

// ---- Light and pictures
// -----------------------------------------------------------------------------------------

LightBlock::LightBlock(QWidget* parent)
    : QWidget(parent)
    , m_title(new SectionLabel(QString(), this))
    , m_screen(new TextLabel(TextRole::Small, Ink::Text, this))
    , m_grid(new QGridLayout)
    , m_trace(new TraceChart(this))
{
    m_trace->setFixedHeight(kTraceHeight);
    m_screen->setLeading(3);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, kBlockGap, 0, 0);
    column->setSpacing(10);
    column->addWidget(m_title);
    column->addWidget(m_screen);
    column->addLayout(m_grid);
    column->addWidget(m_trace);
    m_grid->setSpacing(12);
}

void LightBlock::setView(const ReviewLight& view)
{
    m_title->setText(view.title);
    showText(m_screen, view.screen.join(u'\n'));
    while (m_scans.size() < view.scans.size()) {
        auto* chart = new ScanChart(this);
        chart->setFixedHeight(kChartHeight);
        m_scans.append(chart);
    }
    place();
    for (qsizetype index = 0; index < m_scans.size(); ++index) {
        m_scans[index]->setVisible(index < view.scans.size());
        if (index < view.scans.size())
            m_scans[index]->setView(view.scans[index]);
    }
    m_trace->setVisible(!view.trace.readings.isEmpty());
    m_trace->setView(view.trace);
}

/// As many beside each other as have room for their words.
void LightBlock::place()
{
    m_columns = std::max(1, width() / kChartWidth);
    for (qsizetype index = 0; index < m_scans.size(); ++index) {
        const int number = static_cast<int>(index);
        m_grid->removeWidget(m_scans[index]);
        m_grid->addWidget(m_scans[index], number / m_columns, number % m_columns);
    }
    for (int column = 0; column < m_grid->columnCount(); ++column)
        m_grid->setColumnStretch(column, column < m_columns ? 1 : 0);
}

void LightBlock::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    if (std::max(1, width() / kChartWidth) != m_columns)
        place();
}

PictureTile::PictureTile(QWidget* parent)
    : PaintedButton(Reach::Hand, parent)
{
    setCursor(Qt::PointingHandCursor);
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
    connect(this, &QAbstractButton::clicked, this, [this] {
        m_isLarge = !m_isLarge;
        updateGeometry();
        update();
    });
}

void PictureTile::setView(const ReviewPicture& view)
{
    m_isLarge = false;
    if (std::exchange(m_hash, view.hash) != view.hash) {
        m_picture.reset();
        setAccessibleDescription(QString());
    }
    setText(view.caption);
    setToolTip(view.caption);
    setAccessibleName(view.caption);
    setObjectName(u"picture-%1"_s.arg(view.entry));
    updateGeometry();
    update();
}

void PictureTile::setPicture(const QString& hash, const QImage& picture, const QString& trouble)
{
    if (hash != m_hash)
        return;
    m_picture = QPixmap::fromImage(picture);
    m_trouble = trouble;
    setAccessibleDescription(trouble);
    updateGeometry();
    update();
}

QSize PictureTile::sizeHint() const
{
    if (!m_isLarge || !m_picture || m_picture->isNull())
        return kTile;
    const QSize whole = m_picture->size().scaled(2 * kLargeHeight, kLargeHeight, Qt::KeepAspectRatio);
    return whole.expandedTo(kTile);
}

int PictureTile::heightForWidth(int /*width*/) const
{
    return sizeHint().height();
}

void PictureTile::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    const Tokens& t = tokens();
    paintBody(painter, t.panel, QPen(underMouse() ? t.edge : t.line, 1), t.text);
    const QFont caption = fontFor(TextRole::Caption);
    const qreal line = QFontMetricsF(caption).lineSpacing();
    const QRectF room = QRectF(rect()).adjusted(8, 8, -8, -line - 14);
    if (m_picture && !m_picture->isNull()) {
        const QSizeF size = QSizeF(m_picture->size()).scaled(room.size(), Qt::KeepAspectRatio);
        painter.setRenderHint(QPainter::SmoothPixmapTransform);
        painter.drawPixmap(QRectF(room.center() - QPointF(size.width() / 2, size.height() / 2), size),
                           *m_picture, QRectF(m_picture->rect()));
    } else {
        painter.setFont(caption);
        painter.setPen(t.quiet);
        painter.drawText(room, Qt::AlignCenter | Qt::TextWordWrap,
                         m_picture ? m_trouble : tr("The picture is being read \u2026"));
    }
    painter.setFont(caption);
    painter.setPen(t.text);
    drawFigureLines(painter, QRectF(10, height() - line - 8, width() - 20, line), Qt::AlignLeft,
                    {figureElided(QFontMetricsF(caption), text(), width() - 20)});
}

// ---- Reviews before this one
// --------------------------------------------------------------------------------------

PastReviews::PastReviews(QWidget* parent)
    : QWidget(parent)
    , m_layout(new QVBoxLayout(this))
{
    setObjectName(u"pastReviews"_s);
    m_layout->setContentsMargins(0, 0, 0, 0);
    m_layout->setSpacing(6);
}

void PastReviews::setReviews(const QList<PastReview>& reviews)
{
    if (reviews == m_reviews)
        return;
    m_reviews = reviews;
    while (QLayoutItem* item = m_layout->takeAt(0)) {
        retire(item->widget());
        delete item;
    }
    for (const PastReview& one : reviews) {
        const auto add = [this](TextRole role, Ink ink, const QString& text) {
            if (text.isEmpty())
                return;
            auto* label = new TextLabel(role, ink, this);
            label->setText(text);
            m_layout->addWidget(label);
        };
        add(TextRole::Strong, Ink::Text,
            one.when.isEmpty() ? one.title : u"%1, %2"_s.arg(one.title, one.when));
        add(TextRole::Body, Ink::Text, one.text);
        for (const QString& remark : one.remarks)
            add(TextRole::Small, Ink::Text, remark);
        auto* signature = new SignedLines(this);
        signature->setLines({one.signature});
        m_layout->addWidget(signature);
    }
}

} // namespace coldarc::ui
