#include "app/trouble_window.h"

#include "ui/parts/field.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/show_text.h"
#include "ui/parts/text_label.h"
#include "ui/shell/backup_page.h"

#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QVBoxLayout>

namespace coldarc::app {

using namespace Qt::StringLiterals;

TroubleWindow::TroubleWindow(const ui::Trouble& trouble, const QString& file, MayRestore may,
                             const Clock& clock)
    : m_folder(QFileInfo(file).absolutePath())
    , m_backup(QFileInfo(file).absoluteFilePath(), m_folder, clock, QTimeZone::systemTimeZone(),
               {{}, ui::lookAtBackup}, true)
{
    setWindowTitle(u"Coldarc"_s);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(56, 48, 56, 48);
    column->setSpacing(14);
    auto* title = new ui::TextLabel(ui::TextRole::Title, ui::Ink::Text, this);
    title->setText(trouble.happened);
    column->addWidget(title);
    for (const QString& sentence : {trouble.kept, trouble.todo, file})
        addSentence(*column, sentence);
    if (may == MayRestore::Yes)
        addRestore(*column);
    column->addStretch(1);
    resize(may == MayRestore::Yes ? QSize(960, 700) : QSize(820, 360));
}

void TroubleWindow::addSentence(QVBoxLayout& column, const QString& text)
{
    if (text.isEmpty())
        return;
    auto* label = new ui::TextLabel(ui::TextRole::Body, ui::Ink::Text, this);
    label->setText(text);
    column.addWidget(label);
}

void TroubleWindow::addRestore(QVBoxLayout& column)
{
    using ui::PlainButton;
    const auto button = [this](const QString& text, const QString& name) {
        auto* one = new PlainButton(text, ui::Reach::Hand, PlainButton::Weight::Quiet, this);
        one->setObjectName(name);
        return one;
    };
    m_source = new ui::Field(ui::Field::Kind::Text, this);
    m_source->setObjectName(u"source"_s);
    auto* choose = button(tr("Choose a file"), u"chooseSource"_s);
    auto* restore = button(tr("Restore"), u"restore"_s);
    m_question = new ui::TextLabel(ui::TextRole::Strong, ui::Ink::Text, this);
    m_question->setObjectName(u"question"_s);
    m_yes = button(tr("Yes, put this backup in its place"), u"yes"_s);
    m_leave = button(tr("Leave it"), u"leave"_s);
    m_outcome = new ui::TextLabel(ui::TextRole::Strong, ui::Ink::Text, this);
    m_outcome->setObjectName(u"restoreOutcome"_s);
    column.addSpacing(10);
    addSentence(column, m_backup.view().restoreNote);
    column.addWidget(m_source);
    for (const auto& [first, second] : {std::pair(restore, choose), std::pair(m_yes, m_leave)}) {
        auto* row = new QHBoxLayout;
        row->setSpacing(16);
        row->addWidget(first);
        row->addWidget(second);
        row->addStretch(1);
        column.addLayout(row);
        if (first == restore)
            column.addWidget(m_question);
    }
    column.addWidget(m_outcome);
    connect(choose, &QAbstractButton::clicked, this, &TroubleWindow::choose);
    connect(restore, &QAbstractButton::clicked, this, [this] { m_backup.restore(m_source->value()); });
    connect(m_source->box(), &QLineEdit::returnPressed, restore, &QAbstractButton::click);
    connect(m_source, &ui::Field::valueChanged, &m_backup, &ui::BackupPresenter::leaveRestore);
    connect(m_yes, &QAbstractButton::clicked, &m_backup, &ui::BackupPresenter::confirmRestore);
    connect(m_leave, &QAbstractButton::clicked, &m_backup, &ui::BackupPresenter::leaveRestore);
    connect(&m_backup, &ui::BackupPresenter::viewChanged, this, &TroubleWindow::setView);
    connect(&m_backup, &ui::BackupPresenter::restoreRequested, this, &TroubleWindow::restoreRequested);
    setView(m_backup.view());
}

void TroubleWindow::choose()
{
    const QString file = QFileDialog::getOpenFileName(this, tr("Which backup?"), m_folder,
                                                      tr("Backup (*.backup);;Every file (*)"));
    if (!file.isEmpty())
        m_source->box()->setText(file);
}

void TroubleWindow::setView(const ui::BackupView& view)
{
    m_source->setView(view.source);
    ui::showText(m_question, view.question);
    m_yes->setVisible(!view.question.isEmpty());
    m_leave->setVisible(!view.question.isEmpty());
    ui::showText(m_outcome, view.restoreOutcome);
}

} // namespace coldarc::app
