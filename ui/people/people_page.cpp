#include "ui/people/people_page.h"

#include "ui/parts/combo_field.h"
#include "ui/parts/filled_in.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/show_text.h"
#include "ui/parts/tab_stops.h"
#include "ui/parts/text_label.h"
#include "ui/people/secret_words.h"

#include <QHBoxLayout>
#include <QLineEdit>
#include <QScrollArea>
#include <QVBoxLayout>

#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

PeoplePage::PeoplePage(QWidget* parent)
    : SidePage(parent)
    , m_people(new RowList(tr("People"), this))
    , m_title(new TextLabel(TextRole::Title, Ink::Text, this))
    , m_sub(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_key(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_message(new TextLabel(TextRole::Strong, Ink::Text, this))
    , m_authorisations(new CardLines(this))
    , m_gear(new CardLines(this))
    , m_giving(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_card(new QWidget(this))
{
    setObjectName(u"peoplePage"_s);
    m_message->setObjectName(u"message"_s);
    m_authorisations->setObjectName(u"authorisations"_s);
    m_gear->setObjectName(u"gear"_s);
    m_giving->setObjectName(u"giving"_s);
    side()->addWidget(new SectionLabel(tr("People"), this));
    side()->addWidget(m_people);
    side()->addSpacing(8);
    side()->addWidget(formButton(tr("Add a person"), PeopleForm::NewPerson));
    side()->addStretch(1);
    makeCard();
    m_form = makeForm();
    body()->addWidget(m_message);
    body()->addWidget(m_card);
    body()->addWidget(m_form);
    body()->addStretch(1);
    connect(m_people, &RowList::rowChosen, this, [this](const QString& id) {
        if (mayLeaveForm())
            Q_EMIT personChosen(id);
    });
    connect(m_authorisations, &CardLines::actRequested, this, &PeoplePage::withdrawRequested);
    connect(m_gear, &CardLines::actRequested, this, &PeoplePage::gearWithdrawRequested);
}

PlainButton* PeoplePage::formButton(const QString& text, PeopleForm form)
{
    auto* button = quietButton(text, u"form-%1"_s.arg(static_cast<int>(form)), this);
    connect(button, &QAbstractButton::clicked, this, [this, form] {
        if (mayLeaveForm())
            Q_EMIT formRequested(form);
    });
    return button;
}

bool PeoplePage::mayLeaveForm()
{
    if (m_form->isHidden() || filledIn(*m_form) == m_asOpened)
        return true;
    showText(m_message, formStays());
    bodyScroll()->ensureVisible(0, 0);
    return false;
}

void PeoplePage::makeCard()
{
    m_addKey = formButton(tr("Make a key"), PeopleForm::Key);
    m_changePassphrase = formButton(tr("Change the passphrase"), PeopleForm::Passphrase);
    m_retireKey = quietButton(tr("Take the key out of use"), u"retireKey"_s, this);
    m_retire = quietButton(tr("Retire this person"), u"retire"_s, this);
    auto* office = quietButton(tr("Who vouches for it"), u"office"_s, this);
    connect(office, &QAbstractButton::clicked, this, &PeoplePage::officeRequested);
    connect(m_retireKey, &QAbstractButton::clicked, this, &PeoplePage::keyRetireRequested);
    connect(m_retire, &QAbstractButton::clicked, this, &PeoplePage::retireRequested);

    auto* column = new QVBoxLayout(m_card);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(10);
    column->addWidget(m_title);
    column->addWidget(m_sub);
    column->addSpacing(12);
    column->addWidget(new SectionLabel(tr("May do"), m_card));
    column->addWidget(m_authorisations);
    column->addWidget(m_giving);
    auto* give = new QHBoxLayout;
    m_give = formButton(tr("Give an authorisation"), PeopleForm::Authorisation);
    give->addWidget(m_give);
    give->addStretch(1);
    column->addLayout(give);
    column->addSpacing(12);
    column->addWidget(new SectionLabel(tr("Gear"), m_card));
    column->addWidget(m_gear);
    auto* addGear = new QHBoxLayout;
    addGear->addWidget(formButton(tr("Add a piece of gear"), PeopleForm::Gear));
    addGear->addStretch(1);
    column->addLayout(addGear);
    column->addSpacing(12);
    column->addWidget(new SectionLabel(tr("Key"), m_card));
    column->addWidget(m_key);
    auto* keys = new QHBoxLayout;
    keys->setSpacing(12);
    keys->addWidget(m_addKey);
    keys->addWidget(m_changePassphrase);
    keys->addWidget(m_retireKey);
    keys->addWidget(m_retire);
    keys->addWidget(office);
    keys->addStretch(1);
    column->addLayout(keys);
}

QWidget* PeoplePage::makeForm()
{
    auto* form = new QWidget(this);
    form->setObjectName(u"form"_s);
    m_formTitle = new TextLabel(TextRole::Title, Ink::Text, form);
    m_formNote = new TextLabel(TextRole::Small, Ink::Quiet, form);
    m_name = new Field(Field::Kind::Text, form);
    m_role = new ChoiceRow(form);
    m_phone = new Field(Field::Kind::Text, form);
    m_old = new Field(Field::Kind::Secret, form);
    m_passphrase = new Field(Field::Kind::Secret, form);
    m_again = new Field(Field::Kind::Secret, form);
    m_duty = new ChoiceRow(form);
    m_model = new ComboField(form);
    m_from = new Field(Field::Kind::Text, form);
    m_until = new Field(Field::Kind::Text, form);
    m_kind = new ComboField(form);
    m_marking = new Field(Field::Kind::Text, form);
    m_identifier = new Field(Field::Kind::Text, form);
    m_made = new Field(Field::Kind::Text, form);
    m_expires = new Field(Field::Kind::Text, form);
    m_busy = new TextLabel(TextRole::Small, Ink::Quiet, form);
    m_keep = new PlainButton(QString(), Reach::Hand, PlainButton::Weight::Strong, form);
    m_leave = new PlainButton(tr("Leave it"), Reach::Hand, PlainButton::Weight::Quiet, form);
    const std::initializer_list<std::pair<QWidget*, QString>> names{{m_name, u"name"_s},
                                                                    {m_role, u"role"_s},
                                                                    {m_phone, u"phone"_s},
                                                                    {m_old, u"old"_s},
                                                                    {m_passphrase, u"passphrase"_s},
                                                                    {m_again, u"again"_s},
                                                                    {m_duty, u"duty"_s},
                                                                    {m_model, u"model"_s},
                                                                    {m_from, u"from"_s},
                                                                    {m_until, u"until"_s},
                                                                    {m_kind, u"kind"_s},
                                                                    {m_marking, u"marking"_s},
                                                                    {m_identifier, u"identifier"_s},
                                                                    {m_made, u"made"_s},
                                                                    {m_expires, u"expires"_s},
                                                                    {m_keep, u"keep"_s},
                                                                    {m_leave, u"leave"_s},
                                                                    {m_busy, u"busy"_s}};
    for (const auto& [widget, name] : names)
        widget->setObjectName(name);

    auto* column = new QVBoxLayout(form);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(14);
    column->addWidget(m_formTitle);
    column->addWidget(m_formNote);
    column->addWidget(m_name);
    column->addWidget(m_role);
    column->addWidget(m_phone);
    column->addWidget(m_old);
    column->addLayout(besides(m_passphrase, m_again));
    column->addWidget(m_duty);
    column->addWidget(m_model);
    column->addLayout(besides(m_from, m_until));
    column->addWidget(m_kind);
    column->addLayout(besides(m_marking, m_identifier));
    column->addLayout(besides(m_made, m_expires));
    column->addWidget(m_busy);
    auto* row = new QHBoxLayout;
    row->setSpacing(16);
    row->addWidget(m_keep);
    row->addWidget(m_leave);
    row->addStretch(1);
    column->addLayout(row);
    connect(m_keep, &QAbstractButton::clicked, this, [this] { Q_EMIT formKept(answers()); });
    connect(m_leave, &QAbstractButton::clicked, this, [this] { Q_EMIT formRequested(PeopleForm::None); });
    goOnByEnter(*form, *m_keep);
    return form;
}

PeopleAnswers PeoplePage::answers() const
{
    return {m_name->value(),       m_role->chosen(), m_phone->value(),  typedIn(*m_passphrase),
            typedIn(*m_again),     typedIn(*m_old),  m_duty->chosen(),  m_model->chosen(),
            m_from->value(),       m_until->value(), m_kind->chosen(),  m_marking->value(),
            m_identifier->value(), m_made->value(),  m_expires->value()};
}

void PeoplePage::setView(const PeopleView& view)
{
    const bool isEmptied = view.emptied != m_view.emptied;
    const bool isNewForm = view.form != m_view.form;
    m_view = view;
    m_people->setRows(view.people, view.chosen);
    m_title->setText(view.title);
    showText(m_sub, view.sub);
    m_key->setText(view.keyText);
    m_addKey->setVisible(view.canAddKey);
    m_changePassphrase->setVisible(view.canChangePassphrase);
    m_retireKey->setVisible(view.canRetireKey);
    m_retire->setVisible(view.canRetire);
    m_authorisations->setLines(view.authorisations, view.noAuthorisations);
    showText(m_giving, view.giving);
    m_give->setVisible(view.canGive);
    m_gear->setLines(view.gear, view.noGear);
    showText(m_message, view.message);
    m_card->setVisible(view.form == PeopleForm::None);
    m_form->setVisible(view.form != PeopleForm::None);
    showForm(view);
    if (isEmptied || !view.busy.isEmpty()) {
        for (Field* field : {m_old, m_passphrase, m_again})
            field->wipe();
    }
    if (isEmptied) {
        for (Field* field : {m_name, m_phone, m_until, m_marking, m_identifier, m_made, m_expires})
            field->box()->clear();
        m_from->box()->setText(view.from.value);
    }
    if (isEmptied || isNewForm)
        m_asOpened = filledIn(*m_form);
    if (!isNewForm)
        return;
    bodyScroll()->ensureVisible(0, 0);
    if (view.form != PeopleForm::None)
        focusFirst(*m_form);
    else if (isVisible())
        setFocus(Qt::OtherFocusReason);
}

void PeoplePage::showForm(const PeopleView& view)
{
    m_formTitle->setText(view.formTitle);
    showText(m_formNote, view.formNote);
    m_name->setView(view.name);
    m_role->setView(view.role);
    m_phone->setView(view.phone);
    m_old->setView(view.old);
    m_passphrase->setView(view.passphrase);
    m_again->setView(view.again);
    m_duty->setView(view.duty);
    m_model->setView(view.model);
    m_from->setView(view.from);
    m_until->setView(view.until);
    m_kind->setView(view.kind);
    m_marking->setView(view.marking);
    m_identifier->setView(view.identifier);
    m_made->setView(view.made);
    m_expires->setView(view.expires);
    showText(m_busy, view.busy);
    m_keep->setText(view.formAct);
    m_keep->setAccessibleName(view.formAct);
    m_keep->setEnabled(view.busy.isEmpty());
    const auto only = [&view](PeopleForm form) { return view.form == form; };
    for (QWidget* widget :
         {static_cast<QWidget*>(m_name), static_cast<QWidget*>(m_role), static_cast<QWidget*>(m_phone)})
        widget->setVisible(only(PeopleForm::NewPerson));
    for (Field* field : {m_passphrase, m_again})
        field->setVisible(only(PeopleForm::NewPerson) || only(PeopleForm::Key) ||
                          only(PeopleForm::Passphrase));
    m_old->setVisible(only(PeopleForm::Passphrase));
    for (QWidget* widget : {static_cast<QWidget*>(m_duty), static_cast<QWidget*>(m_model),
                            static_cast<QWidget*>(m_from), static_cast<QWidget*>(m_until)})
        widget->setVisible(only(PeopleForm::Authorisation));
    for (QWidget* widget : {static_cast<QWidget*>(m_kind), static_cast<QWidget*>(m_marking),
                            static_cast<QWidget*>(m_identifier), static_cast<QWidget*>(m_made),
                            static_cast<QWidget*>(m_expires)})
        widget->setVisible(only(PeopleForm::Gear));
}

} // namespace coldarc::ui
