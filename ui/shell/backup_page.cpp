#include "ui/shell/backup_page.h"

#include "ui/parts/plain_button.h"
#include "ui/parts/show_text.h"
#include "ui/parts/side_page.h"
#include "ui/parts/text_label.h"
#include "ui/parts/theme.h"

#include <QHBoxLayout>
#include <QLineEdit>
#include <QPainter>
#include <QScrollArea>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kColumn = 860;

} // namespace

Result<BackupCounts> backUpTo(store::Database& database, const QString& file)
{
    const auto census = store::backUp(database, file);
    if (!census)
        return tl::unexpected(census.error());
    return BackupCounts{census->visits, census->entries, census->signatures, census->pictures};
}

BackupPage::BackupPage(QWidget* parent)
    : QWidget(parent)
    , m_file(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_target(new Field(Field::Kind::Text, this))
    , m_backUp(new PlainButton(tr("Back up now"), Reach::Hand, PlainButton::Weight::Strong, this))
    , m_outcome(new TextLabel(TextRole::Strong, Ink::Text, this))
    , m_source(new Field(Field::Kind::Text, this))
    , m_note(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_restore(new PlainButton(tr("Restore"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_leave(new PlainButton(tr("Leave it"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_restoreOutcome(new TextLabel(TextRole::Strong, Ink::Text, this))
{
    setObjectName(u"backupPage"_s);
    m_target->setObjectName(u"target"_s);
    m_backUp->setObjectName(u"backUp"_s);
    m_outcome->setObjectName(u"outcome"_s);
    m_source->setObjectName(u"source"_s);
    m_restore->setObjectName(u"restore"_s);
    m_leave->setObjectName(u"leave"_s);
    m_restoreOutcome->setObjectName(u"restoreOutcome"_s);
    auto* content = new QWidget(this);
    content->setMaximumWidth(kColumn);
    auto* column = new QVBoxLayout(content);
    column->setContentsMargins(40, 26, 40, 26);
    column->setSpacing(12);
    auto* title = new TextLabel(TextRole::Title, Ink::Text, content);
    title->setText(tr("Workspace"));
    column->addWidget(title);
    column->addWidget(m_file);
    column->addSpacing(14);
    column->addWidget(new SectionLabel(tr("Back up now"), content));
    column->addWidget(m_target);
    auto* first = new QHBoxLayout;
    first->addWidget(m_backUp);
    first->addStretch(1);
    column->addLayout(first);
    column->addWidget(m_outcome);
    column->addSpacing(24);
    column->addWidget(new SectionLabel(tr("Restore"), content));
    column->addWidget(m_note);
    column->addWidget(m_source);
    auto* second = new QHBoxLayout;
    second->setSpacing(16);
    second->addWidget(m_restore);
    second->addWidget(m_leave);
    second->addStretch(1);
    column->addLayout(second);
    column->addWidget(m_restoreOutcome);
    column->addStretch(1);
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(0, 0, 0, 0);
    whole->addWidget(bareScroll(content, this));
    connect(m_backUp, &QAbstractButton::clicked, this, [this] { Q_EMIT backUpRequested(m_target->value()); });
    connect(m_restore, &QAbstractButton::clicked, this,
            [this] { Q_EMIT restoreRequested(m_source->value()); });
    connect(m_leave, &QAbstractButton::clicked, this, &BackupPage::restoreLeft);
}

void BackupPage::setView(const BackupView& view)
{
    m_view = view;
    m_file->setText(view.file);
    m_target->setView(view.target);
    showText(m_outcome, view.outcome);
    m_source->setView(view.source);
    m_note->setText(view.restoreNote);
    m_restore->setText(view.asksRestore ? tr("Yes, put this backup in its place") : tr("Restore"));
    m_restore->setAccessibleName(m_restore->text());
    m_restore->updateGeometry();
    m_restore->setEnabled(view.canWrite);
    m_leave->setVisible(view.asksRestore);
    showText(m_restoreOutcome, view.restoreOutcome);
}

void BackupPage::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.fillRect(rect(), tokensOf(*this).ground);
}

} // namespace coldarc::ui
