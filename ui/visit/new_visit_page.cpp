#include "ui/visit/new_visit_page.h"

#include "ui/parts/combo_field.h"
#include "ui/parts/page_keys.h"
#include "ui/parts/plain_button.h"
#include "ui/parts/retire.h"
#include "ui/parts/show_text.h"
#include "ui/parts/text_label.h"

#include <QHBoxLayout>
#include <QVBoxLayout>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kActionWidth = 400;

} // namespace

/// The new lamp of one lamphouse.
class NewVisitPage::LampPanel final : public QWidget {
public:
    LampPanel(NewVisitPage* page, const LamphouseId& lamphouse)
        : QWidget(page)
        , m_lamphouse(lamphouse)
        , m_lamp(new ComboField(this))
        , m_typed(new QWidget(this))
        , m_type(new ComboField(m_typed))
        , m_serial(new Field(Field::Kind::Text, m_typed))
        , m_hours(new Field(Field::Kind::Number, m_typed))
    {
        const QString id = lamphouse.text();
        m_lamp->setObjectName(u"lamp-"_s + id);
        m_type->setObjectName(u"type-"_s + id);
        m_type->takeWholeTextsOnly();
        m_serial->setObjectName(u"serial-"_s + id);
        m_hours->setObjectName(u"hours-"_s + id);
        auto* row = new QHBoxLayout(m_typed);
        row->setContentsMargins(0, 0, 0, 0);
        row->setSpacing(16);
        row->addWidget(m_type, 1);
        row->addWidget(m_serial, 1);
        row->addWidget(m_hours, 1);
        auto* column = new QVBoxLayout(this);
        column->setContentsMargins(0, 0, 0, 0);
        column->setSpacing(8);
        column->addWidget(m_lamp);
        column->addWidget(m_typed);
        connect(m_lamp, &ComboField::choiceChanged, page,
                [page, id](const QString& lamp) { Q_EMIT page->lampChosen(id, lamp); });
        const auto typed = [this, page, id] {
            Q_EMIT page->lampTyped(id, m_type->chosen(), m_serial->value(), m_hours->value());
        };
        connect(m_type, &ComboField::choiceChanged, page, typed);
        connect(m_serial, &Field::valueChanged, page, typed);
        connect(m_hours, &Field::valueChanged, page, typed);
    }

    [[nodiscard]] const LamphouseId& lamphouse() const { return m_lamphouse; }

    void setView(const NewLampView& view)
    {
        m_lamp->setView(view.lamp);
        m_typed->setVisible(view.isTyped);
        m_type->setView(view.type);
        fillIn(view.serial, *m_serial, m_shown);
        fillIn(view.hours, *m_hours, m_shownHours);
    }

private:
    static void fillIn(FieldView view, Field& field, QString& shown)
    {
        if (view.value == field.value())
            shown = view.value; // as typed: the box is left alone
        view.value = shown;
        field.setView(view);
    }

    LamphouseId m_lamphouse;
    QString m_shown;
    QString m_shownHours;
    ComboField* m_lamp;
    QWidget* m_typed;
    ComboField* m_type;
    Field* m_serial;
    Field* m_hours;
};

NewVisitPage::NewVisitPage(const Clock& clock, QWidget* parent)
    : SidePage(parent)
    , m_sites(new RowList(tr("Sites"), this))
    , m_title(new TextLabel(TextRole::Title, Ink::Text, this))
    , m_sub(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_empty(new TextLabel(TextRole::Body, Ink::Quiet, this))
    , m_screens(new TickList(this))
    , m_owed(new TickList(this))
    , m_lampsColumn(new QVBoxLayout)
    , m_reason(new ChoiceRow(this))
    , m_others(new TickList(this))
    , m_time(new TextLabel(TextRole::Heading, Ink::Text, this))
    , m_verdict(new TextLabel(TextRole::Small, Ink::Quiet, this))
    , m_inTheWay(new TextLabel(TextRole::Strong, Ink::Text, this))
    , m_leave(new PlainButton(tr("Leave it"), Reach::Hand, PlainButton::Weight::Quiet, this))
    , m_action(new ActionButton(clock, this))
{
    setObjectName(u"newVisitPage"_s);
    m_screens->setObjectName(u"screens"_s);
    m_owed->setObjectName(u"owed"_s);
    m_reason->setObjectName(u"reason"_s);
    m_others->setObjectName(u"others"_s);
    m_inTheWay->setObjectName(u"inTheWay"_s);
    m_leave->setObjectName(u"leave"_s);
    m_lampsColumn->setSpacing(14);
    side()->addWidget(new SectionLabel(tr("Site"), this));
    side()->addWidget(m_sites);
    side()->addStretch(1);
    body()->addWidget(m_title);
    body()->addWidget(m_sub);
    body()->addWidget(m_empty);
    body()->addWidget(m_owed);
    body()->addWidget(m_screens);
    body()->addLayout(m_lampsColumn);
    body()->addWidget(m_reason);
    body()->addWidget(m_others);
    body()->addStretch(1);

    auto* words = new QVBoxLayout;
    words->setSpacing(4);
    words->addStretch(1);
    words->addWidget(m_inTheWay);
    words->addWidget(m_time);
    words->addWidget(m_verdict);
    auto* row = new QHBoxLayout;
    row->setSpacing(24);
    row->addWidget(m_leave, 0, Qt::AlignBottom);
    row->addLayout(words, 1);
    row->addWidget(m_action, 0, Qt::AlignBottom);
    m_action->setFixedWidth(kActionWidth);
    foot()->addLayout(row);

    connect(m_sites, &RowList::rowChosen, this, &NewVisitPage::siteChosen);
    connect(m_screens, &TickList::ticksChanged, this, &NewVisitPage::screensTicked);
    connect(m_owed, &TickList::ticksChanged, this, &NewVisitPage::owedTicked);
    connect(m_reason, &ChoiceRow::choiceChanged, this, &NewVisitPage::reasonChosen);
    connect(m_others, &TickList::ticksChanged, this, &NewVisitPage::othersTicked);
    connect(m_action, &ActionButton::done, this, &NewVisitPage::openRequested);
    connect(m_leave, &QAbstractButton::clicked, this, &NewVisitPage::leaveRequested);
    onEnter(*this, [this] {
        if (!pressWalkedTo(*this))
            m_action->click();
    });
    onEscape(*this, [this] { Q_EMIT leaveRequested(); });
}

void NewVisitPage::setView(const NewVisitView& view)
{
    m_view = view;
    m_sites->setRows(view.sites, view.site);
    showText(m_title, view.title);
    showText(m_sub, view.sub);
    showText(m_empty, view.empty);
    m_screens->setVisible(!view.screens.items.isEmpty());
    m_screens->setView(view.screens);
    m_owed->setVisible(!view.owed.items.isEmpty());
    m_owed->setView(view.owed);
    showLamps(view.lamps);
    m_reason->setVisible(!view.site.isEmpty());
    m_reason->setView(view.reason);
    m_others->setVisible(!view.site.isEmpty() && !view.others.items.isEmpty());
    m_others->setView(view.others);
    QStringList time{view.needs, view.gap};
    time.removeAll(QString());
    showText(m_time, time.join(u", "_s));
    showText(m_verdict, view.verdict);
    showText(m_inTheWay, view.inTheWay.join(u'\n'));
    m_action->setView(view.action);
}

void NewVisitPage::showLamps(const QList<NewLampView>& lamps)
{
    const auto isSame = [&] {
        if (lamps.size() != m_lamps.size())
            return false;
        for (qsizetype index = 0; index < lamps.size(); ++index) {
            if (m_lamps[index]->lamphouse() != lamps[index].lamphouse)
                return false;
        }
        return true;
    };
    if (!isSame()) {
        for (LampPanel* panel : std::as_const(m_lamps)) {
            m_lampsColumn->removeWidget(panel);
            retire(panel);
        }
        m_lamps.clear();
        for (const NewLampView& lamp : lamps) {
            auto* panel = new LampPanel(this, lamp.lamphouse);
            m_lampsColumn->addWidget(panel);
            panel->show();
            m_lamps.append(panel);
        }
    }
    for (qsizetype index = 0; index < lamps.size(); ++index)
        m_lamps[index]->setView(lamps[index]);
}

} // namespace coldarc::ui
