#include "ui/shell/backup_page.h"

#include "ui/parts/plain_button.h"
#include "ui/parts/show_text.h"
#include "ui/parts/side_page.h"
#include "ui/parts/text_label.h"
#include "ui/parts/theme.h"

#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPainter>
#include <QScrollArea>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kColumn = 860;

BackupCounts countsOf(const store::Census& census)
{
    return {census.visits, census.entries, census.signatures, census.pictures};
}

QHBoxLayout* rowOf(const QList<QWidget*>& widgets)
{
    auto* row = new QHBoxLayout;
    row->setSpacing(16);
    for (QWidget* one : widgets)
        row->addWidget(one);
    row->addStretch(1);
    return row;
}

} // namespace

Result<BackupCounts> backUpTo(store::Database& database, const QString& file)
{
    const auto census = store::backUp(database, file);
    if (!census)
        return tl::unexpected(census.error());
    return countsOf(*census);
}

Result<BackupCounts> lookAtBackup(const QString& file)
{
    const auto census = store::lookAtBackup(file);
    if (!census)
        return tl::unexpected(census.error());
    return countsOf(*census);
}

BackupPage::BackupPage(QWidget* parent)
    : QWidget(parent)
    , m_file(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_target(new Field(Field::Kind::Text, this))
    , m_chooseTarget(new PlainButton(tr("Choose a place"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_backUp(new PlainButton(tr("Back up now"), Reach::Hand, PlainButton::Weight::Strong, this))
    , m_outcome(new TextLabel(TextRole::Strong, Ink::Text, this))
    , m_source(new Field(Field::Kind::Text, this))
    , m_chooseSource(new PlainButton(tr("Choose a file"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_note(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_restore(new PlainButton(tr("Restore"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_askBox(new QWidget(this))
    , m_question(new TextLabel(TextRole::Strong, Ink::Text, m_askBox))
    , m_yes(new PlainButton(tr("Yes, put this backup in its place"), Reach::Hand, PlainButton::Weight::Quiet,
                            m_askBox))
    , m_leave(new PlainButton(tr("Leave it"), Reach::Hand, PlainButton::Weight::Quiet, m_askBox))
    , m_restoreOutcome(new TextLabel(TextRole::Strong, Ink::Text, this))
{
    setObjectName(u"backupPage"_s);
    m_target->setObjectName(u"target"_s);
    m_backUp->setObjectName(u"backUp"_s);
    m_outcome->setObjectName(u"outcome"_s);
    m_source->setObjectName(u"source"_s);
    m_chooseTarget->setObjectName(u"chooseTarget"_s);
    m_chooseSource->setObjectName(u"chooseSource"_s);
    m_restore->setObjectName(u"restore"_s);
    m_question->setObjectName(u"question"_s);
    m_yes->setObjectName(u"yes"_s);
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
    column->addLayout(rowOf({m_backUp, m_chooseTarget}));
    column->addWidget(m_outcome);
    column->addSpacing(24);
    column->addWidget(new SectionLabel(tr("Restore"), content));
    column->addWidget(m_note);
    column->addWidget(m_source);
    column->addLayout(rowOf({m_restore, m_chooseSource}));
    auto* ask = new QVBoxLayout(m_askBox);
    ask->setContentsMargins(0, 0, 0, 0);
    ask->setSpacing(12);
    ask->addWidget(m_question);
    ask->addLayout(rowOf({m_yes, m_leave}));
    column->addWidget(m_askBox);
    column->addWidget(m_restoreOutcome);
    column->addStretch(1);
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(0, 0, 0, 0);
    whole->addWidget(bareScroll(content, this));
    connect(m_backUp, &QAbstractButton::clicked, this, [this] { Q_EMIT backUpRequested(m_target->value()); });
    connect(m_restore, &QAbstractButton::clicked, this,
            [this] { Q_EMIT restoreRequested(m_source->value()); });
    connect(m_yes, &QAbstractButton::clicked, this, &BackupPage::restoreConfirmed);
    connect(m_leave, &QAbstractButton::clicked, this, &BackupPage::restoreLeft);
    // The question is about the file that it names: with another name it is asked anew.
    connect(m_source, &Field::valueChanged, this, &BackupPage::restoreLeft);
    connect(m_chooseTarget, &QAbstractButton::clicked, this, &BackupPage::chooseTarget);
    connect(m_chooseSource, &QAbstractButton::clicked, this, &BackupPage::chooseSource);
}

void BackupPage::chooseTarget()
{
    const QString file = QFileDialog::getSaveFileName(this, tr("Where to?"), m_target->value(), QString(),
                                                      nullptr, QFileDialog::DontConfirmOverwrite);
    if (!file.isEmpty())
        m_target->box()->setText(file);
}

void BackupPage::chooseSource()
{
    const QString folder = QFileInfo(m_target->value()).absolutePath();
    const QString file = QFileDialog::getOpenFileName(this, tr("Which backup?"), folder,
                                                      tr("Backup (*.backup);;Every file (*)"));
    if (file.isEmpty())
        return;
    m_source->box()->setText(file);
    Q_EMIT restoreLeft();
}

void BackupPage::setView(const BackupView& view)
{
    m_view = view;
    m_file->setText(view.file);
    m_target->setView(view.target);
    showText(m_outcome, view.outcome);
    m_source->setView(view.source);
    m_note->setText(view.restoreNote);
    m_restore->setEnabled(view.canWrite);
    m_question->setText(view.question);
    m_askBox->setVisible(!view.question.isEmpty());
    showText(m_restoreOutcome, view.restoreOutcome);
}

void BackupPage::paintEvent(QPaintEvent* /*event*/)
{
    QPainter painter(this);
    painter.fillRect(rect(), tokensOf(*this).ground);
}

} // namespace coldarc::ui
