#include "ui/people/office_page.h"

#include "ui/parts/page_keys.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/show_text.h"
#include "ui/parts/tab_stops.h"
#include "ui/parts/text_label.h"
#include "ui/people/people_words.h"
#include "ui/people/secret_words.h"

#include <QClipboard>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QScrollArea>
#include <QVBoxLayout>

#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

OfficePage::OfficePage(QWidget* parent)
    : SidePage(parent)
    , m_message(new TextLabel(TextRole::Strong, Ink::Text, this))
    , m_card(new QWidget(this))
{
    setObjectName(u"officePage"_s);
    m_message->setObjectName(u"message"_s);
    side()->addWidget(new SectionLabel(tr("Whose the keys are"), this));
    auto* back = quietButton(tr("Back to the people"), u"back"_s, this);
    m_found = quietButton(tr("Make an office"), u"found"_s, this);
    m_take = quietButton(tr("Take a file that somebody brought"), u"take"_s, this);
    m_reseal = quietButton(tr("Change the office's passphrase"), u"reseal"_s, this);
    for (PlainButton* each : {back, m_found, m_take, m_reseal})
        side()->addWidget(each);
    side()->addStretch(1);
    makeCard();
    m_form = makeForm();
    body()->addWidget(m_message);
    body()->addWidget(m_card);
    body()->addWidget(m_form);
    body()->addStretch(1);
    back->setKeyCap(u"Esc"_s);
    connect(back, &QAbstractButton::clicked, this, &OfficePage::leaveRequested);
    onEscape(*this, [this, back] { (m_form->isVisible() ? m_leave : back)->click(); });
    connect(m_found, &QAbstractButton::clicked, this, [this] { Q_EMIT formRequested(OfficeForm::Found); });
    connect(m_take, &QAbstractButton::clicked, this, &OfficePage::fileRequested);
    connect(m_reseal, &QAbstractButton::clicked, this, [this] { Q_EMIT formRequested(OfficeForm::Reseal); });
    connect(m_keys, &CardLines::actRequested, this, &OfficePage::keyActed);
    connect(m_offices, &CardLines::actRequested, this, &OfficePage::officeDropped);
}

void OfficePage::makeCard()
{
    m_name = new TextLabel(TextRole::Title, Ink::Text, m_card);
    m_thumbprint = new TextLabel(TextRole::Code, Ink::Text, m_card);
    m_note = new TextLabel(TextRole::Small, Ink::Quiet, m_card);
    m_keys = new CardLines(m_card);
    m_offices = new CardLines(m_card);
    m_name->setObjectName(u"officeTitle"_s);
    m_thumbprint->setObjectName(u"thumbprint"_s);
    m_note->setObjectName(u"note"_s);
    m_keys->setObjectName(u"keys"_s);
    m_offices->setObjectName(u"offices"_s);
    auto* copy = quietButton(tr("Copy the thumbprint"), u"copy"_s, this);
    connect(copy, &QAbstractButton::clicked, this,
            [this] { QGuiApplication::clipboard()->setText(m_view.thumbprint); });

    auto* column = new QVBoxLayout(m_card);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(10);
    column->addWidget(new SectionLabel(tr("The office of this workspace"), m_card));
    column->addWidget(m_name);
    auto* row = new QHBoxLayout;
    row->setSpacing(16);
    row->addWidget(m_thumbprint, 1);
    row->addWidget(copy);
    column->addLayout(row);
    column->addWidget(m_note);
    column->addSpacing(12);
    column->addWidget(new SectionLabel(tr("Keys"), m_card));
    column->addWidget(m_keys);
    column->addSpacing(12);
    column->addWidget(new SectionLabel(tr("Offices of others that are believed"), m_card));
    column->addWidget(m_offices);
}

QWidget* OfficePage::makeForm()
{
    auto* form = new QWidget(this);
    m_formTitle = new TextLabel(TextRole::Title, Ink::Text, form);
    m_formNote = new TextLabel(TextRole::Small, Ink::Quiet, form);
    m_formThumbprint = new TextLabel(TextRole::Code, Ink::Text, form);
    m_officeName = new Field(Field::Kind::Text, form);
    m_old = new Field(Field::Kind::Secret, form);
    m_passphrase = new Field(Field::Kind::Secret, form);
    m_again = new Field(Field::Kind::Secret, form);
    m_from = new Field(Field::Kind::Text, form);
    m_until = new Field(Field::Kind::Text, form);
    m_busy = new TextLabel(TextRole::Small, Ink::Quiet, form);
    m_keep = new PlainButton(QString(), Reach::Hand, PlainButton::Weight::Strong, form);
    m_leave = new PlainButton(tr("Leave it"), Reach::Hand, PlainButton::Weight::Quiet, form);
    const std::initializer_list<std::pair<QWidget*, QString>> names{{m_formTitle, u"formTitle"_s},
                                                                    {m_formThumbprint, u"formThumbprint"_s},
                                                                    {m_officeName, u"officeName"_s},
                                                                    {m_old, u"old"_s},
                                                                    {m_passphrase, u"passphrase"_s},
                                                                    {m_again, u"again"_s},
                                                                    {m_from, u"from"_s},
                                                                    {m_until, u"until"_s},
                                                                    {m_busy, u"busy"_s},
                                                                    {m_keep, u"keep"_s},
                                                                    {m_leave, u"leave"_s}};
    for (const auto& [widget, name] : names)
        widget->setObjectName(name);
    auto* column = new QVBoxLayout(form);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(14);
    for (QWidget* widget :
         std::initializer_list<QWidget*>{m_formTitle, m_formThumbprint, m_formNote, m_officeName, m_from,
                                         m_until, m_old, m_passphrase, m_again, m_busy})
        column->addWidget(widget);
    auto* row = new QHBoxLayout;
    row->setSpacing(16);
    row->addWidget(m_keep);
    row->addWidget(m_leave);
    row->addStretch(1);
    column->addLayout(row);
    connect(m_keep, &QAbstractButton::clicked, this, [this] {
        Q_EMIT formKept({m_officeName->value(), typedIn(*m_passphrase), typedIn(*m_again), m_from->value(),
                         m_until->value(), typedIn(*m_old)});
    });
    connect(m_leave, &QAbstractButton::clicked, this, [this] { Q_EMIT formRequested(OfficeForm::None); });
    goOnByEnter(*form, *m_keep);
    return form;
}

void OfficePage::setView(const OfficeView& view)
{
    const bool isEmptied = view.emptied != m_view.emptied;
    const bool isNewForm = view.form != m_view.form;
    m_view = view;
    m_found->setVisible(view.canFound);
    m_take->setVisible(view.canTakeUp);
    m_reseal->setVisible(view.canReseal);
    showText(m_message, view.message);
    showText(m_name, view.name);
    showText(m_thumbprint, inGroups(view.thumbprint));
    m_card->findChild<PlainButton*>(u"copy"_s)->setVisible(!view.thumbprint.isEmpty());
    m_note->setText(view.note);
    m_keys->setLines(view.keys, view.noKeys);
    m_offices->setLines(view.offices, view.noOffices);
    m_card->setVisible(view.form == OfficeForm::None);
    m_form->setVisible(view.form != OfficeForm::None);
    showForm(view);
    if (isEmptied || !view.busy.isEmpty()) {
        for (Field* field : {m_old, m_passphrase, m_again})
            field->wipe();
    }
    if (isEmptied) {
        m_officeName->box()->clear();
        m_from->box()->setText(view.from.value);
        m_until->box()->setText(view.until.value);
    }
    if (isNewForm) {
        bodyScroll()->ensureVisible(0, 0);
        if (view.form == OfficeForm::Found)
            m_officeName->box()->setFocus();
        else if (view.form == OfficeForm::Vouch)
            m_passphrase->box()->setFocus();
        else if (view.form == OfficeForm::Reseal)
            m_old->box()->setFocus();
        else if (view.form == OfficeForm::TakeUp || view.form == OfficeForm::Retire)
            m_leave->setFocus(); // to believe somebody is not the answer of a hasty Enter
    }
}

void OfficePage::showForm(const OfficeView& view)
{
    m_formTitle->setText(view.formTitle);
    showText(m_formNote, view.formNote);
    showText(m_formThumbprint, inGroups(view.formThumbprint));
    m_officeName->setView(view.officeName);
    m_old->setView(view.old);
    m_passphrase->setView(view.passphrase);
    m_again->setView(view.again);
    m_from->setView(view.from);
    m_until->setView(view.until);
    showText(m_busy, view.busy);
    m_keep->setText(view.formAct);
    m_keep->setAccessibleName(view.formAct);
    m_keep->setEnabled(view.busy.isEmpty());
    m_leave->setEnabled(view.busy.isEmpty()); // a key that is on its way signs what was in sight at the press
    const bool isNewSecret = view.form == OfficeForm::Found || view.form == OfficeForm::Reseal;
    m_officeName->setVisible(view.form == OfficeForm::Found);
    m_old->setVisible(view.form == OfficeForm::Reseal);
    const bool isOpened = view.form == OfficeForm::Vouch || view.form == OfficeForm::Retire;
    m_passphrase->setVisible(isNewSecret || isOpened);
    m_again->setVisible(isNewSecret);
    m_from->setVisible(isOpened);
    m_until->setVisible(view.form == OfficeForm::Vouch);
}

} // namespace coldarc::ui
