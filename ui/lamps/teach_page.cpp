#include "ui/lamps/teach_page.h"

#include "ui/parts/combo_field.h"
#include "ui/parts/page_keys.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/show_text.h"
#include "ui/parts/text_label.h"

#include <QApplication>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kActionWidth = 400;

} // namespace

TeachPage::TeachPage(const Clock& clock, QWidget* parent)
    : SidePage(parent)
    , m_codes(new RowList(tr("Codes that no rule reads"), this))
    , m_pasted(new Field(Field::Kind::Text, this))
    , m_message(new TextLabel(TextRole::Strong, Ink::Text, this))
    , m_explains(new TextLabel(TextRole::Body, Ink::Quiet, this))
    , m_lesson(makeLesson())
    , m_rules(new CardLines(this))
    , m_action(new ActionButton(clock, this))
{
    setObjectName(u"teachPage"_s);
    m_pasted->setObjectName(u"pasted"_s);
    m_message->setObjectName(u"message"_s);
    m_rules->setObjectName(u"rules"_s);
    m_action->setObjectName(u"action"_s);
    auto* take = new PlainButton(tr("Take this code"), Reach::Hand, PlainButton::Weight::Quiet, this);
    take->setObjectName(u"take"_s);
    auto* scanner = new PlainButton(tr("Check the scanner"), Reach::Hand, PlainButton::Weight::Quiet, this);
    scanner->setObjectName(u"scanner"_s);
    side()->addWidget(new SectionLabel(tr("Nobody could read"), this));
    side()->addWidget(m_codes);
    side()->addSpacing(12);
    side()->addWidget(m_pasted);
    side()->addWidget(take);
    side()->addSpacing(12);
    side()->addWidget(scanner);
    side()->addStretch(1);

    auto* title = new TextLabel(TextRole::Title, Ink::Text, this);
    title->setText(tr("Codes of the makers"));
    m_explains->setText(
        tr("Choose a code at the left, and say which part of it is the type and which the serial. "
           "Until then the engineer types what stands on the label."));
    body()->addWidget(title);
    body()->addWidget(m_message);
    body()->addWidget(m_explains);
    body()->addWidget(m_lesson);
    body()->addSpacing(16);
    body()->addWidget(new SectionLabel(tr("Taught before"), this));
    body()->addWidget(m_rules);
    body()->addStretch(1);
    m_action->setFixedWidth(kActionWidth);
    foot()->addWidget(m_action, 0, Qt::AlignRight); // where the main action of every page is

    connect(m_codes, &RowList::rowChosen, this, &TeachPage::codeChosen);
    const auto give = [this] {
        const QString text = m_pasted->value();
        if (text.isEmpty())
            return;
        m_pasted->box()->clear();
        Q_EMIT codeGiven(text);
    };
    connect(take, &QAbstractButton::clicked, this, give);
    onEnter(*this, [this, give] {
        if (auto* button = qobject_cast<QAbstractButton*>(QApplication::focusWidget()))
            button->click();
        else if (m_pasted->value().isEmpty())
            m_action->click();
        else
            give();
    });
    connect(scanner, &QAbstractButton::clicked, this, &TeachPage::scannerRequested);
    connect(m_type, &ComboField::choiceChanged, this, &TeachPage::typeMarked);
    connect(m_serial, &ComboField::choiceChanged, this, &TeachPage::serialMarked);
    connect(m_lampType, &ComboField::choiceChanged, this, &TeachPage::lampTypeChosen);
    connect(m_rules, &CardLines::actRequested, this, &TeachPage::withdrawRequested);
    connect(m_action, &ActionButton::done, this, &TeachPage::keepRequested);
}

QWidget* TeachPage::makeLesson()
{
    auto* lesson = new QWidget(this);
    m_code = new TextLabel(TextRole::Heading, Ink::Text, lesson);
    m_type = new ComboField(lesson);
    m_serial = new ComboField(lesson);
    m_lampType = new ComboField(lesson);
    m_lampType->takeWholeTextsOnly();
    m_reads = new TextLabel(TextRole::Body, Ink::Text, lesson);
    m_faults = new TextLabel(TextRole::Strong, Ink::Text, lesson);
    m_code->setObjectName(u"code"_s);
    m_type->setObjectName(u"typePart"_s);
    m_serial->setObjectName(u"serialPart"_s);
    m_lampType->setObjectName(u"lampType"_s);
    m_reads->setObjectName(u"reads"_s);
    m_faults->setObjectName(u"faults"_s);
    m_reads->setLeading(4);
    m_faults->setLeading(4);
    auto* parts = new QHBoxLayout;
    parts->setSpacing(16);
    parts->addWidget(m_type, 1, Qt::AlignTop);
    parts->addWidget(m_serial, 1, Qt::AlignTop);
    auto* whose = new QHBoxLayout;
    whose->setSpacing(16);
    whose->addWidget(m_lampType, 1, Qt::AlignTop);
    whose->addStretch(1);
    auto* column = new QVBoxLayout(lesson);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(12);
    column->addWidget(m_code);
    column->addLayout(parts);
    column->addLayout(whose);
    column->addWidget(new SectionLabel(tr("How it would be read"), lesson));
    column->addWidget(m_reads);
    column->addWidget(m_faults);
    return lesson;
}

void TeachPage::setView(const TeachView& view)
{
    m_codes->setRows(view.codes, view.chosen, view.noCodes);
    m_pasted->setView(view.pasted);
    showText(m_message, view.message);
    m_explains->setVisible(view.code.isEmpty());
    m_lesson->setVisible(!view.code.isEmpty());
    m_code->setText(view.code);
    m_type->setView(view.typePart);
    m_serial->setView(view.serialPart);
    m_lampType->setView(view.lampType);
    showText(m_reads, view.reads.join(u'\n'));
    showText(m_faults, view.faults.join(u'\n'));
    m_rules->setLines(view.rules, view.noRules);
    m_action->setView(view.action);
}

void TeachPage::showEvent(QShowEvent* event)
{
    SidePage::showEvent(event);
    Q_EMIT inSight(true);
}

void TeachPage::hideEvent(QHideEvent* event)
{
    SidePage::hideEvent(event);
    Q_EMIT inSight(false);
}

} // namespace coldarc::ui
