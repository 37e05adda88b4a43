#include "ui/site/sites_page.h"

#include "ui/parts/combo_field.h"
#include "ui/parts/filled_in.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/show_text.h"
#include "ui/parts/tab_stops.h"
#include "ui/parts/text_label.h"

#include <QHBoxLayout>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QScrollArea>
#include <QVBoxLayout>

#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kShowsHeight = 260;

} // namespace

SitesPage::SitesPage(QWidget* parent)
    : SidePage(parent)
    , m_sites(new RowList(tr("Sites"), this))
    , m_message(new TextLabel(TextRole::Strong, Ink::Text, this))
    , m_empty(new TextLabel(TextRole::Body, Ink::Quiet, this))
{
    setObjectName(u"sitesPage"_s);
    m_message->setObjectName(u"message"_s);
    m_empty->setObjectName(u"empty"_s);
    side()->addWidget(new SectionLabel(tr("Sites"), this));
    side()->addWidget(m_sites);
    side()->addSpacing(8);
    side()->addWidget(formButton(tr("Add a site"), SiteForm::NewSite));
    side()->addStretch(1);
    m_card = makeCard();
    m_form = makeForm();
    body()->addWidget(m_message);
    body()->addWidget(m_empty);
    body()->addWidget(m_card);
    body()->addWidget(m_form);
    body()->addStretch(1);
    connect(m_sites, &RowList::rowChosen, this, [this](const QString& id) {
        if (mayLeaveForm())
            Q_EMIT siteChosen(id);
    });
}

PlainButton* SitesPage::formButton(const QString& text, SiteForm form)
{
    auto* button = quietButton(text, u"form-%1"_s.arg(static_cast<int>(form)), this);
    connect(button, &QAbstractButton::clicked, this, [this, form] { askForForm(form); });
    return button;
}

void SitesPage::askForForm(SiteForm form)
{
    if (mayLeaveForm())
        Q_EMIT formRequested(form);
}

bool SitesPage::mayLeaveForm()
{
    if (m_form->isHidden() || filledIn(*m_form) == m_asOpened)
        return true;
    showText(m_message, formStays());
    bodyScroll()->ensureVisible(0, 0);
    return false;
}

QWidget* SitesPage::makeCard()
{
    auto* card = new QWidget(this);
    m_title = new TextLabel(TextRole::Title, Ink::Text, card);
    m_sub = new TextLabel(TextRole::Small, Ink::Quiet, card);
    m_problemsName = new SectionLabel(tr("Before a visit"), card);
    m_problems = new TextLabel(TextRole::Small, Ink::Text, card);
    m_problems->setObjectName(u"problems"_s);
    m_problems->setLeading(4);
    m_screens = new CardLines(card);
    m_lamphouses = new CardLines(card);
    m_points = new CardLines(card);
    m_house = new CardLines(card);
    m_screens->setObjectName(u"screens"_s);
    m_lamphouses->setObjectName(u"lamphouses"_s);
    m_points->setObjectName(u"points"_s);
    m_house->setObjectName(u"house"_s);
    auto* column = new QVBoxLayout(card);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(10);
    column->addWidget(m_title);
    column->addWidget(m_sub);
    column->addWidget(m_problemsName);
    column->addWidget(m_problems);
    column->addSpacing(8);
    column->addWidget(new SectionLabel(tr("Screens"), card));
    column->addWidget(m_screens);
    auto* add = new QHBoxLayout;
    add->setSpacing(12);
    add->addWidget(formButton(tr("Add a screen"), SiteForm::Screen));
    add->addWidget(formButton(tr("Paste a table"), SiteForm::Paste));
    add->addStretch(1);
    column->addLayout(add);
    const std::initializer_list<std::pair<QString, CardLines*>> parts{
        {tr("Lamphouses"), m_lamphouses}, {tr("Breakers"), m_points}, {tr("The house"), m_house}};
    for (const auto& [name, lines] : parts) {
        column->addSpacing(8);
        column->addWidget(new SectionLabel(name, card));
        column->addWidget(lines);
    }
    connect(m_screens, &CardLines::actRequested, this, &SitesPage::showsRequested);
    connect(m_lamphouses, &CardLines::actRequested, this, &SitesPage::lampRequested);
    connect(m_points, &CardLines::actRequested, this, &SitesPage::breakerRequested);
    connect(m_house, &CardLines::actRequested, this, [this] { Q_EMIT formRequested(SiteForm::House); });
    return card;
}

QWidget* SitesPage::makeForm()
{
    auto* form = new QWidget(this);
    form->setObjectName(u"form"_s);
    const auto field = [form](const QString& name) {
        auto* one = new Field(Field::Kind::Text, form);
        one->setObjectName(name);
        return one;
    };
    m_formTitle = new TextLabel(TextRole::Title, Ink::Text, form);
    m_formNote = new TextLabel(TextRole::Small, Ink::Quiet, form);
    m_name = field(u"name"_s);
    m_town = field(u"town"_s);
    m_contact = field(u"contact"_s);
    m_contactPhone = field(u"contactPhone"_s);
    m_prover = new ChoiceRow(form);
    m_prover->setObjectName(u"prover"_s);
    m_rules = field(u"rules"_s);
    m_locks = field(u"locks"_s);
    m_weeklyHours = field(u"weeklyHours"_s);
    m_model = new ComboField(form);
    m_model->setObjectName(u"model"_s);
    m_projector = field(u"projector"_s);
    m_type = new ComboField(form);
    m_type->setObjectName(u"type"_s);
    m_serial = field(u"serial"_s);
    m_hours = field(u"hours"_s);
    m_counter = field(u"counter"_s);
    m_shows = new QPlainTextEdit(form);
    m_shows->setObjectName(u"shows"_s);
    m_shows->setAccessibleName(tr("Show starts, one a line"));
    m_shows->setPlaceholderText(tr("Show starts, one a line"));
    m_shows->setFixedHeight(kShowsHeight);
    m_shows->setTabChangesFocus(true);
    m_paste = new PastePanel(form);
    m_keep = new PlainButton(QString(), Reach::Hand, PlainButton::Weight::Strong, form);
    m_keep->setObjectName(u"keep"_s);
    m_leave = quietButton(tr("Leave it"), u"leave"_s, form);

    auto* column = new QVBoxLayout(form);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(14);
    column->addWidget(m_formTitle);
    column->addWidget(m_formNote);
    column->addLayout(besides(m_name, m_town));
    column->addLayout(besides(m_contact, m_contactPhone));
    column->addWidget(m_prover);
    column->addWidget(m_rules);
    column->addWidget(m_locks);
    column->addLayout(besides(m_model, m_projector));
    column->addWidget(m_weeklyHours);
    for (int index = 0; index < SitesPresenter::kMostBreakers; ++index) {
        m_panels.append(field(u"panel-%1"_s.arg(index)));
        m_circuits.append(field(u"circuit-%1"_s.arg(index)));
        column->addLayout(besides(m_panels.last(), m_circuits.last()));
    }
    m_takesLock = new ChoiceRow(form);
    m_takesLock->setObjectName(u"takes-lock"_s);
    column->addWidget(m_takesLock);
    column->addLayout(besides(m_type, m_serial));
    column->addLayout(besides(m_hours, m_counter));
    column->addWidget(m_shows);
    column->addWidget(m_paste);
    auto* row = new QHBoxLayout;
    row->setSpacing(16);
    row->addWidget(m_keep);
    row->addWidget(m_leave);
    row->addStretch(1);
    column->addLayout(row);
    connect(m_model, &ComboField::choiceChanged, this, &SitesPage::modelChosen);
    connect(m_keep, &QAbstractButton::clicked, this, [this] { Q_EMIT formKept(answers()); });
    connect(m_leave, &QAbstractButton::clicked, this, [this] { Q_EMIT formRequested(SiteForm::None); });
    connect(m_paste, &PastePanel::pasted, this, &SitesPage::pasted);
    goOnByEnter(*form, *m_keep);
    return form;
}

SiteAnswers SitesPage::answers() const
{
    SiteAnswers answers;
    answers.name = m_name->value();
    answers.town = m_town->value();
    answers.contact = m_contact->value();
    answers.contactPhone = m_contactPhone->value();
    answers.prover = m_prover->chosen();
    answers.rules = m_rules->value();
    answers.locks = m_locks->value();
    answers.weeklyHours = m_weeklyHours->value();
    answers.model = m_model->chosen();
    answers.projector = m_projector->value();
    for (qsizetype index = 0; index < m_panels.size(); ++index) {
        answers.panels << m_panels[index]->value();
        answers.circuits << m_circuits[index]->value();
    }
    answers.takesLock = m_takesLock->chosen();
    answers.type = m_type->chosen();
    answers.serial = m_serial->value();
    answers.hours = m_hours->value();
    answers.counter = m_counter->value();
    answers.shows = m_shows->toPlainText();
    return answers;
}

void SitesPage::setView(const SitesView& view)
{
    const bool isEmptied = view.emptied != m_view.emptied;
    const bool isNewForm = view.form != m_view.form;
    m_view = view;
    m_sites->setRows(view.sites, view.chosen);
    showText(m_message, view.message);
    showText(m_empty, view.form == SiteForm::None ? view.empty : QString());
    m_card->setVisible(view.form == SiteForm::None && !view.title.isEmpty());
    m_title->setText(view.title);
    showText(m_sub, view.sub);
    m_problemsName->setVisible(!view.problems.isEmpty());
    showText(m_problems, view.problems.join(u'\n'));
    m_screens->setLines(view.screens, tr("None yet."));
    m_lamphouses->setLines(view.lamphouses, tr("None yet; they come with the screens."));
    m_points->setLines(view.points, tr("None yet; they come with the screens."));
    m_house->setLines(view.house);
    m_form->setVisible(view.form != SiteForm::None);
    showForm(view);
    if (isNewForm && view.form == SiteForm::None && isVisible())
        setFocus(Qt::OtherFocusReason);
    if (!isEmptied)
        return;
    const std::initializer_list<std::pair<Field*, QString>> values{{m_name, view.name.value},
                                                                   {m_town, view.town.value},
                                                                   {m_contact, view.contact.value},
                                                                   {m_contactPhone, view.contactPhone.value},
                                                                   {m_rules, view.rules.value},
                                                                   {m_locks, view.locks.value},
                                                                   {m_weeklyHours, view.weeklyHours.value},
                                                                   {m_projector, {}},
                                                                   {m_serial, {}},
                                                                   {m_hours, {}},
                                                                   {m_counter, {}}};
    for (const auto& [field, value] : values)
        field->box()->setText(value);
    for (qsizetype index = 0; index < m_panels.size(); ++index) {
        const BreakerFields breaker = view.breakers.value(index);
        m_panels[index]->box()->setText(breaker.panel.value);
        m_circuits[index]->box()->setText(breaker.circuit.value);
    }
    m_shows->setPlainText(view.shows);
    m_asOpened = filledIn(*m_form);
    focusFirst(*m_form);
}

void SitesPage::showForm(const SitesView& view)
{
    m_formTitle->setText(view.formTitle);
    showText(m_formNote, view.formNote);
    m_name->setView(view.name);
    m_town->setView(view.town);
    m_contact->setView(view.contact);
    m_contactPhone->setView(view.contactPhone);
    m_prover->setView(view.prover);
    m_takesLock->setView(view.takesLock);
    m_rules->setView(view.rules);
    m_locks->setView(view.locks);
    m_weeklyHours->setView(view.weeklyHours);
    m_model->setView(view.model);
    m_projector->setView(view.projector);
    m_type->setView(view.type);
    m_serial->setView(view.serial);
    m_hours->setView(view.hours);
    m_counter->setView(view.counter);
    m_paste->setView(view.paste);
    m_keep->setText(view.formAct);
    m_keep->setAccessibleName(view.formAct);
    const auto is = [&view](SiteForm form) { return view.form == form; };
    m_name->setVisible(is(SiteForm::NewSite) || is(SiteForm::House) || is(SiteForm::Screen) ||
                       is(SiteForm::Shows));
    m_town->setVisible(is(SiteForm::NewSite) || is(SiteForm::House));
    for (QWidget* widget :
         {static_cast<QWidget*>(m_contact), static_cast<QWidget*>(m_contactPhone),
          static_cast<QWidget*>(m_prover), static_cast<QWidget*>(m_rules), static_cast<QWidget*>(m_locks)})
        widget->setVisible(is(SiteForm::House));
    m_weeklyHours->setVisible(is(SiteForm::Screen) || is(SiteForm::Shows));
    for (QWidget* widget : {static_cast<QWidget*>(m_model), static_cast<QWidget*>(m_projector)})
        widget->setVisible(is(SiteForm::Screen));
    for (qsizetype index = 0; index < m_panels.size(); ++index) {
        const bool isAsked = (is(SiteForm::Screen) || is(SiteForm::Breaker)) && index < view.breakers.size();
        m_panels[index]->setVisible(isAsked);
        m_circuits[index]->setVisible(isAsked);
        if (isAsked) {
            m_panels[index]->setView(view.breakers[index].panel);
            m_circuits[index]->setView(view.breakers[index].circuit);
        }
    }
    m_takesLock->setVisible(is(SiteForm::Breaker));
    for (QWidget* widget : {static_cast<QWidget*>(m_type), static_cast<QWidget*>(m_serial),
                            static_cast<QWidget*>(m_hours), static_cast<QWidget*>(m_counter)})
        widget->setVisible(is(SiteForm::Lamp));
    m_shows->setVisible(is(SiteForm::Shows));
    m_paste->setVisible(is(SiteForm::Paste));
    m_keep->setVisible(!is(SiteForm::Paste));
}

} // namespace coldarc::ui
