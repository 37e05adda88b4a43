#include "ui/label/picture_panel.h"

#include "ui/parts/plain_button.h"
#include "ui/parts/text_label.h"

#include <QClipboard>
#include <QDragEnterEvent>
#include <QFileDialog>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QPainter>
#include <QUrl>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr QSize kCanvas(420, 300);
constexpr int kListWidth = 300;
constexpr int kSpacing = 12;
constexpr qreal kNumberSide = 26;

std::optional<PictureSource> sourceIn(const QMimeData& data)
{
    for (const QUrl& url : data.urls())
        if (url.isLocalFile())
            return PictureSource(url.toLocalFile());
    if (data.hasImage())
        return PictureSource(qvariant_cast<QImage>(data.imageData()));
    return std::nullopt;
}

} // namespace

// ---- The picture ----

PictureCanvas::PictureCanvas(QWidget* parent)
    : QWidget(parent)
{
    setMinimumSize(kCanvas);
    setObjectName(u"pictureCanvas"_s);
    setAccessibleName(tr("Picture of the label"));
}

void PictureCanvas::setView(const PictureView& view)
{
    m_view = view;
    update();
}

QRectF PictureCanvas::frame() const
{
    if (m_view.picture.isNull())
        return rect();
    const QSizeF size = QSizeF(m_view.picture.size()).scaled(QSizeF(this->size()), Qt::KeepAspectRatio);
    return {QPointF((width() - size.width()) / 2, (height() - size.height()) / 2), size};
}

QPolygonF PictureCanvas::outlineOf(const PictureCode& code) const
{
    const QRectF place = frame();
    QPolygonF outline;
    for (const QPointF& corner : code.corners)
        outline << QPointF(place.left() + corner.x() * place.width(),
                           place.top() + corner.y() * place.height());
    return outline;
}

void PictureCanvas::paintEvent(QPaintEvent*)
{
    const Tokens& tokens = tokensOf(*this);
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.fillRect(rect(), tokens.panel);
    if (m_view.picture.isNull()) {
        painter.setPen(QPen(tokens.edge, 1, Qt::DashLine));
        painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 10, 10);
    } else {
        paintPicture(painter, tokens);
    }
    if (!parentWidget()->hasFocus())
        return;
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(tokens.text, 2));
    painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 10, 10);
}

void PictureCanvas::paintPicture(QPainter& painter, const Tokens& tokens)
{
    painter.drawImage(frame(), m_view.picture);
    painter.setFont(fontFor(TextRole::Strong));
    for (int i = 0; i < m_view.codes.size(); ++i) {
        const QPolygonF outline = outlineOf(m_view.codes.at(i));
        const bool isPicked = i == m_view.picked;
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(tokens.ground, 7)); // a picture may be as bright as the line
        painter.drawPolygon(outline);
        painter.setPen(QPen(isPicked ? tokens.accent : tokens.text, isPicked ? 4 : 2));
        painter.drawPolygon(outline);
        const QRectF number(outline.boundingRect().topLeft(), QSizeF(kNumberSide, kNumberSide));
        painter.fillRect(number, isPicked ? tokens.accent : tokens.panel);
        painter.setPen(isPicked ? tokens.onAccent : tokens.text);
        painter.drawText(number, Qt::AlignCenter, QString::number(i + 1));
    }
}

void PictureCanvas::mousePressEvent(QMouseEvent* event)
{
    for (int i = 0; i < m_view.codes.size(); ++i) {
        // A linear code is a thin strip: what is near its outline counts too.
        const QRectF near = outlineOf(m_view.codes.at(i)).boundingRect();
        const qreal more = std::max(0.0, (kHandTarget - std::min(near.width(), near.height())) / 2);
        if (near.adjusted(-more, -more, more, more).contains(event->position())) {
            Q_EMIT codePressed(i);
            return;
        }
    }
}

// ---- The panel ----

PicturePanel::PicturePanel(QWidget* parent)
    : QWidget(parent)
    , m_canvas(new PictureCanvas(this))
    , m_says(new TextLabel(TextRole::Body, Ink::Text, this))
    , m_choose(new PlainButton(tr("Choose a picture"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_list(new QVBoxLayout)
{
    setAcceptDrops(true);
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("Picture of the label: paste or drop one here"));
    m_says->setObjectName(u"pictureSays"_s);
    m_choose->setObjectName(u"pictureChoose"_s);
    auto* side = new QVBoxLayout;
    side->setSpacing(kSpacing);
    side->addWidget(m_says);
    side->addLayout(m_list);
    side->addStretch(1);
    side->addWidget(m_choose);
    m_says->setFixedWidth(kListWidth);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(2 * kSpacing);
    row->addWidget(m_canvas, 1);
    row->addLayout(side);
    connect(m_choose, &QAbstractButton::clicked, this, &PicturePanel::choose);
    connect(m_canvas, &PictureCanvas::codePressed, this, &PicturePanel::codePicked);
}

void PicturePanel::setView(const PictureView& view)
{
    const bool sameCodes = view.codes == m_view.codes;
    m_view = view;
    m_canvas->setView(view);
    m_says->setText(view.says);
    if (!sameCodes)
        showCodes();
    for (int i = 0; i < m_codes.size(); ++i)
        m_codes.at(i)->setSub(i == view.picked ? tr("picked") : QString());
}

void PicturePanel::showCodes()
{
    qDeleteAll(std::exchange(m_codes, {}));
    for (int i = 0; i < m_view.codes.size(); ++i) {
        const PictureCode& code = m_view.codes.at(i);
        auto* button = new PlainButton(tr("%1  %2").arg(i + 1).arg(code.words), Reach::Hand,
                                       PlainButton::Weight::Quiet, this);
        button->setObjectName(u"code-%1"_s.arg(i));
        button->setAccessibleName(code.words);
        button->setEnabled(code.canBePicked);
        button->setFixedWidth(kListWidth);
        connect(button, &QAbstractButton::clicked, this, [this, i] { Q_EMIT codePicked(i); });
        m_list->addWidget(button);
        m_codes.append(button);
    }
}

bool PicturePanel::mayHold(const QMimeData& brought)
{
    return sourceIn(brought).has_value();
}

bool PicturePanel::take(const QMimeData& brought)
{
    const auto source = sourceIn(brought);
    if (source)
        Q_EMIT pictureGiven(*source);
    return source.has_value();
}

void PicturePanel::choose()
{
    const QString file = QFileDialog::getOpenFileName(this, tr("Picture of the label"), QString(),
                                                      tr("Pictures (*.jpg *.jpeg *.png *.gif)"));
    if (!file.isEmpty())
        Q_EMIT pictureGiven(PictureSource(file));
}

void PicturePanel::keyPressEvent(QKeyEvent* event)
{
    const QMimeData* const pasted = QGuiApplication::clipboard()->mimeData();
    if (!event->matches(QKeySequence::Paste) || !pasted || !take(*pasted))
        QWidget::keyPressEvent(event);
}

void PicturePanel::dragEnterEvent(QDragEnterEvent* event)
{
    if (mayHold(*event->mimeData()))
        event->acceptProposedAction();
}

void PicturePanel::dropEvent(QDropEvent* event)
{
    if (take(*event->mimeData()))
        event->acceptProposedAction();
}

} // namespace coldarc::ui
