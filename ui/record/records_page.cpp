#include "ui/record/records_page.h"

#include "ui/parts/plain_button.h"
#include "ui/parts/show_text.h"

#include <QDragEnterEvent>
#include <QHBoxLayout>
#include <QMimeData>
#include <QUrl>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

RecordsPage::RecordsPage(QWidget* parent)
    : SidePage(parent)
    , m_take(new PlainButton(tr("Take records in"), Reach::Hand, PlainButton::Weight::Strong, this))
    , m_stop(new PlainButton(tr("Stop"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_progress(new TextLabel(TextRole::Strong, Ink::Text, this))
    , m_outcome(new TextLabel(TextRole::Strong, Ink::Text, this))
    , m_discard(new PlainButton(QString(), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_keep(new PlainButton(tr("Keep it"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_question(new TextLabel(TextRole::Small, Ink::Text, this))
    , m_notTakenTitle(new SectionLabel(tr("Not taken in"), this))
    , m_notTaken(new CardLines(this))
    , m_more(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_waiting(new CardLines(this))
    , m_moreWaiting(new TextLabel(TextRole::Small, Ink::Quiet, this))
{
    setObjectName(u"recordsPage"_s);
    setAcceptDrops(true);
    m_take->setObjectName(u"take"_s);
    m_stop->setObjectName(u"stop"_s);
    m_progress->setObjectName(u"progress"_s);
    m_outcome->setObjectName(u"outcome"_s);
    m_discard->setObjectName(u"discard"_s);
    m_keep->setObjectName(u"keep"_s);
    m_question->setObjectName(u"question"_s);
    m_notTaken->setObjectName(u"notTaken"_s);
    m_waiting->setObjectName(u"waiting"_s);
    m_moreWaiting->setObjectName(u"moreWaiting"_s);
    auto* note = new TextLabel(TextRole::Small, Ink::Quiet, this);
    note->setText(
        tr("A record is what another laptop saved of a visit. It is taken in as it was signed, or not at "
           "all. Files can be dropped here, many at once, in any order and more than once."));
    side()->addWidget(new SectionLabel(tr("Records of others"), this));
    side()->addWidget(m_take);
    side()->addWidget(m_stop);
    side()->addWidget(note);
    side()->addStretch(1);
    body()->addWidget(m_progress);
    body()->addWidget(m_outcome);
    body()->addWidget(m_question);
    auto* row = new QHBoxLayout;
    row->setSpacing(16);
    row->addWidget(m_discard);
    row->addWidget(m_keep);
    row->addStretch(1);
    body()->addLayout(row);
    body()->addWidget(m_notTakenTitle);
    body()->addWidget(m_notTaken);
    body()->addWidget(m_more);
    body()->addSpacing(12);
    body()->addWidget(new SectionLabel(tr("Waiting"), this));
    body()->addWidget(m_waiting);
    body()->addWidget(m_moreWaiting);
    body()->addStretch(1);
    connect(m_take, &QAbstractButton::clicked, this, &RecordsPage::filesRequested);
    connect(m_stop, &QAbstractButton::clicked, this, &RecordsPage::stopRequested);
    connect(m_discard, &QAbstractButton::clicked, this, &RecordsPage::discardRequested);
    connect(m_keep, &QAbstractButton::clicked, this, &RecordsPage::keepRequested);
    connect(m_waiting, &CardLines::actRequested, this, &RecordsPage::againRequested);
    setView({});
}

void RecordsPage::setView(const RecordsView& view)
{
    const bool isUnderWay = !view.progress.isEmpty();
    m_stop->setVisible(isUnderWay);
    showText(m_progress, view.progress);
    showText(m_outcome, view.outcome);
    const bool asks = !view.discardQuestion.isEmpty();
    const bool isNewQuestion = asks && !m_keep->isVisibleTo(this);
    showText(m_question, view.discardQuestion);
    m_discard->setText(view.discard);
    m_discard->setAccessibleName(view.discard);
    m_discard->updateGeometry();
    m_discard->setVisible(!view.discard.isEmpty());
    m_keep->setVisible(asks);
    if (isNewQuestion)
        m_keep->setFocus(); // to drop something is not the answer of a hasty Enter
    m_notTakenTitle->setVisible(!view.notTaken.isEmpty());
    m_notTaken->setVisible(!view.notTaken.isEmpty());
    m_notTaken->setLines(view.notTaken);
    showText(m_more, view.more);
    m_waiting->setLines(view.waiting, view.noWaiting);
    showText(m_moreWaiting, view.moreWaiting);
}

void RecordsPage::dragEnterEvent(QDragEnterEvent* event)
{
    if (event->mimeData()->hasUrls())
        event->acceptProposedAction();
}

void RecordsPage::dropEvent(QDropEvent* event)
{
    QStringList files;
    for (const QUrl& url : event->mimeData()->urls()) {
        if (url.isLocalFile())
            files << url.toLocalFile();
    }
    if (!files.isEmpty())
        Q_EMIT filesDropped(files);
}

} // namespace coldarc::ui
