#include "ui/label/scanner_page.h"

#include "ui/label/scanner_filter.h"
#include "ui/label/set_up_code.h"
#include "ui/parts/page_keys.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/show_text.h"
#include "ui/parts/text_label.h"

#include <QHBoxLayout>
#include <QPageLayout>
#include <QPagedPaintDevice>
#include <QPainter>
#include <QPrintDialog>
#include <QPrinter>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kCodeHeight = 180;
constexpr int kWords = 820;
constexpr qreal kModuleMm = 0.33;
constexpr qreal kBarsMm = 30;
constexpr qreal kMmPerInch = 25.4;

class CodeBox final : public QWidget {
public:
    explicit CodeBox(QWidget* parent)
        : QWidget(parent)
        , m_bars(setUpBars())
    {
        setObjectName(u"setUpCode"_s);
        setAccessibleName(ScannerPage::tr("The code to scan"));
        setFixedHeight(kCodeHeight);
    }

protected:
    void paintEvent(QPaintEvent* /*event*/) override
    {
        QPainter painter(this);
        paintBars(painter, rect(), m_bars);
    }

private:
    std::vector<bool> m_bars;
};

} // namespace

ScannerPage::ScannerPage(QWidget* parent)
    : QWidget(parent)
    , m_title(new TextLabel(TextRole::Title, Ink::Text, this))
    , m_change(new TextLabel(TextRole::Body, Ink::Text, this))
    , m_came(new TextLabel(TextRole::Small, Ink::Quiet, this))
{
    setObjectName(u"scannerPage"_s);
    setFocusPolicy(Qt::ClickFocus); // Tab halts at its parts
    m_title->setObjectName(u"title"_s);
    m_change->setObjectName(u"change"_s);
    m_came->setObjectName(u"came"_s);
    m_change->setLeading(4);
    for (TextLabel* text : {m_title, m_change, m_came})
        text->setMaximumWidth(kWords);
    auto* back = new PlainButton(tr("Back"), Reach::Hand, PlainButton::Weight::Quiet, this);
    back->setObjectName(u"back"_s);
    back->setKeyCap(u"Esc"_s);
    auto* print = new PlainButton(tr("Print the code"), Reach::Hand, PlainButton::Weight::Quiet, this);
    print->setObjectName(u"print"_s);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(12);
    buttons->addWidget(back);
    buttons->addWidget(print);
    buttons->addStretch(1);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(40, 26, 40, 24);
    column->setSpacing(16);
    column->addWidget(new SectionLabel(tr("Check of the scanner"), this));
    column->addWidget(m_title);
    column->addWidget(new CodeBox(this));
    column->addWidget(m_change);
    column->addWidget(m_came);
    column->addStretch(1);
    column->addLayout(buttons);
    connect(back, &QAbstractButton::clicked, this, &ScannerPage::leaveRequested);
    connect(print, &QAbstractButton::clicked, this, &ScannerPage::print);
    onEscape(*this, [this] { Q_EMIT leaveRequested(); });
}

void ScannerPage::setView(const ScannerView& view)
{
    m_title->setText(view.title);
    showText(m_change, view.change.join(u'\n'));
    showText(m_came, view.came);
}

void ScannerPage::print()
{
    QPrinter printer;
    QPrintDialog dialog(&printer, this);
    dialog.setWindowTitle(tr("Print the code"));
    if (dialog.exec() == QDialog::Accepted && !printSetUpCode(printer))
        m_came->setText(tr("It could not be printed."));
}

void ScannerPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    Q_EMIT inSight(true);
}

void ScannerPage::hideEvent(QHideEvent* event)
{
    QWidget::hideEvent(event);
    Q_EMIT inSight(false);
}

void ScannerPage::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.fillRect(rect(), tokensOf(*this).ground);
}

ScannerPage* makeScannerPage(QCoreApplication& application, const Clock& clock, QWidget* parent)
{
    auto* page = new ScannerPage(parent);
    auto* presenter = new ScannerPresenter(page);
    auto* heard = new ScannerFilter(application, clock, {}, page);
    QObject::connect(presenter, &ScannerPresenter::viewChanged, page, &ScannerPage::setView);
    QObject::connect(heard, &ScannerFilter::scanned, presenter, &ScannerPresenter::hear);
    QObject::connect(page, &ScannerPage::inSight, heard, &ScannerFilter::setListening);
    QObject::connect(page, &ScannerPage::inSight, presenter, [presenter](bool isShown) {
        if (isShown)
            presenter->begin();
    });
    page->setView(presenter->view());
    return page;
}

bool printSetUpCode(QPagedPaintDevice& sheet)
{
    QPainter painter;
    if (!painter.begin(&sheet))
        return false;
    const qreal dotsPerMm = sheet.logicalDpiX() / kMmPerInch;
    const std::vector<bool> bars = setUpBars();
    const qreal wide = (static_cast<qreal>(bars.size()) + 2 * kQuietModules) * kModuleMm * dotsPerMm;
    const qreal across = std::min<qreal>(wide, sheet.width());
    paintBars(painter, QRectF((sheet.width() - across) / 2, 0, across, kBarsMm * dotsPerMm), bars);
    QFont font = painter.font();
    font.setPointSize(11);
    painter.setFont(font);
    painter.drawText(
        QRectF(0, (kBarsMm + 4) * dotsPerMm, sheet.width(), 30 * dotsPerMm),
        Qt::AlignHCenter | Qt::TextWordWrap,
        ScannerPage::tr("Check of the scanner: scan this code on the page of the same name. Its item "
                        "and serial are invented."));
    return painter.end();
}

} // namespace coldarc::ui
