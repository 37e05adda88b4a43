#include "ui/lamps/teach_presenter.h"

#include "ui/label/words_picture.h"
#include "ui/lamps/words_teach.h"
#include "ui/parts/not_written.h"

#include <QLocale>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr int kMostCodes = 200;

QString dayText(WallTime at)
{
    const auto ms = msOf(at);
    return QLocale().toString(QDateTime::fromMSecsSinceEpoch(ms).date(), QLocale::ShortFormat);
}

} // namespace

TeachPresenter::TeachPresenter(lamps::TaughtRuleStore& rules, const people::PeopleStore& people,
                               std::function<const catalogue::Catalogue&()> catalogue, const Clock& clock,
                               IdSource& ids, QObject* parent)
    : QObject(parent)
    , m_rules(rules)
    , m_people(people)
    , m_catalogue(std::move(catalogue))
    , m_clock(clock)
    , m_ids(ids)
{
}

people::Day TeachPresenter::today() const
{
    return people::Day(std::chrono::floor<std::chrono::days>(m_clock.now().wall));
}

people::Holder TeachPresenter::holder() const
{
    people::Holder holder;
    if (const auto person = m_people.person(m_who))
        holder.person = *person;
    if (const auto held = m_people.authorisationsOf(m_who))
        holder.authorisations = *held;
    return holder;
}

QList<catalogue::LampType> TeachPresenter::lampTypes() const
{
    return m_catalogue().lampTypes();
}

void TeachPresenter::setWho(const PersonId& who)
{
    m_who = who;
    m_message.clear();
    begin({});
    refresh();
}

void TeachPresenter::refresh()
{
    m_onRecord = m_rules.onRecord(lamps::TaughtRuleStore::kMostOnRecord);
    show();
}

void TeachPresenter::begin(const QString& scanned)
{
    m_scanned = scanned;
    m_typePart.clear();
    m_serialPart.clear();
    m_lampType.clear();
}

void TeachPresenter::chooseCode(const QString& id)
{
    takeCode(id);
}

void TeachPresenter::takeCode(const QString& scanned)
{
    m_message.clear();
    begin(scanned);
    show();
}

void TeachPresenter::markType(const QString& id)
{
    m_typePart = id;
    m_message.clear();
    show();
}

void TeachPresenter::markSerial(const QString& id)
{
    m_serialPart = id;
    m_message.clear();
    show();
}

void TeachPresenter::chooseLampType(const QString& id)
{
    m_lampType = id;
    m_message.clear();
    show();
}

/// The id of an option is its place among the parts.
QString TeachPresenter::partOf(const QString& id) const
{
    const QList<label::MarkablePart> parts =
        label::markableParts(label::readPayload(m_scanned, yearOf(m_clock.now().wall)));
    bool isNumber = false;
    const int at = id.toInt(&isNumber);
    return isNumber && at >= 0 && at < parts.size() ? parts.at(at).value : QString();
}

label::Lesson TeachPresenter::lesson() const
{
    return {m_scanned, partOf(m_typePart), partOf(m_serialPart), LampTypeId(m_lampType)};
}

/// As the store will say it, to be seen beforehand.
label::TeachAnswer TeachPresenter::answer() const
{
    return label::teach(lesson(), m_onRecord.value_or(QStringList()), lampTypes(),
                        yearOf(m_clock.now().wall));
}

void TeachPresenter::keep()
{
    refresh(); // a code may have been met meanwhile: what is said against the rule is in sight
    if (!m_onRecord)
        return;
    settle(m_rules.teach(lamps::TaughtRuleId(m_ids.next()), lesson(), lampTypes(), holder(), today(),
                         m_clock.now().wall),
           tr("Kept. It holds for every visit that is opened from now on; one that is open keeps what it was "
              "opened with."));
}

void TeachPresenter::withdraw(const QString& rule)
{
    settle(m_rules.withdraw(lamps::TaughtRuleId(rule), holder(), today(), m_clock.now().wall),
           tr("Withdrawn. It stays on record, and is not used for visits that are opened from now on."));
}

void TeachPresenter::settle(const Result<lamps::TeachingAnswer>& outcome, const QString& done)
{
    const bool isDone = outcome && std::holds_alternative<lamps::RuleKept>(*outcome);
    if (isDone) {
        m_message = done;
        begin({});
        Q_EMIT taught();
    } else if (outcome && std::holds_alternative<lamps::LessonNotTaken>(*outcome)) {
        m_message = tr("Not kept, see below. Nothing was changed.");
    } else if (outcome) {
        m_message =
            tr("Only somebody who is authorised to supervise teaches or withdraws a rule. Nothing was "
               "changed.");
    } else {
        m_message = notWritten(outcome.error(), tr("Nothing was changed."));
    }
    show();
}

void TeachPresenter::fillCodes(TeachView& view) const
{
    const QList<catalogue::LampType> types = lampTypes();
    const auto unread = m_rules.unread(kMostCodes);
    for (const QString& scanned : unread ? *unread : QStringList()) {
        const label::Payload payload = label::readPayload(scanned, yearOf(m_clock.now().wall));
        if (label::labelText(payload, types).verdict != label::LabelText::Verdict::Unknown)
            continue; // taught since
        view.codes.append({scanned, visibleText(payload.text), {}, {}});
        if (scanned == m_scanned)
            view.chosen = scanned;
    }
    view.noCodes = unread ? tr("No code was met that no rule reads.")
                          : tr("The codes that were met could not be read. Nothing was changed.");
    view.pasted.label = tr("Or paste a code, or scan one");
}

void TeachPresenter::fillLesson(TeachView& view) const
{
    view.action = {u"teach"_s, tr("Keep this rule"), tr("Choose a code first"), ActionView::Stand::Waits};
    if (m_scanned.isEmpty())
        return;
    const label::Payload payload = label::readPayload(m_scanned, yearOf(m_clock.now().wall));
    view.code = visibleText(m_scanned);
    view.typePart.label = tr("The type in it");
    view.serialPart.label = tr("The serial in it");
    view.lampType.label = tr("Whose code it is");
    const ChoiceOption none{QString(), tr("not in it")};
    view.typePart.options = view.serialPart.options = {none};
    const QList<label::MarkablePart> parts = label::markableParts(payload);
    for (qsizetype at = 0; at < parts.size(); ++at) {
        const label::MarkablePart& part = parts.at(at);
        const bool isGs1 = payload.form == label::Form::Gs1;
        const QString name = isGs1 ? tr("(%1)").arg(part.name) : part.name;
        const QString text = part.name.isEmpty() ? part.value : tr("%1  %2").arg(name, part.value);
        view.typePart.options.append({QString::number(at), text});
        view.serialPart.options.append({QString::number(at), text});
    }
    view.typePart.chosen = m_typePart;
    view.serialPart.chosen = m_serialPart;
    view.lampType.chosen = m_lampType;
    for (const catalogue::LampType& type : lampTypes())
        view.lampType.options.append({type.id.text(), type.code});
    const label::TeachAnswer taught = answer();
    view.reads = wordsOf(taught.rereads, yearOf(m_clock.now().wall));
    for (const label::TeachFault fault : taught.faults)
        view.faults.append(wordsOf(fault));
    if (!people::supervises(holder(), today())) {
        view.action.waits = tr("A supervisor keeps it");
        view.faults.prepend(tr("You are not authorised to supervise: you can look how it would be read, and "
                               "somebody who is keeps it."));
    } else if (!m_onRecord) {
        view.action.waits = tr("The codes on record have to be read first");
        view.faults.prepend(
            tr("The codes that were met before could not be read, so nobody can tell whether this rule "
               "would read one of them otherwise. Nothing was changed. Go to another page and come back."));
    } else if (taught.teaching) {
        view.action.stand = ActionView::Stand::Ready;
    } else {
        view.action.waits = tr("Not yet: see above");
    }
}

void TeachPresenter::fillRules(TeachView& view) const
{
    const auto rules = m_rules.all();
    view.noRules = rules ? tr("Nothing was taught in this workspace.")
                         : tr("What was taught could not be read. Nothing was changed.");
    const QList<catalogue::LampType> types = lampTypes();
    for (const lamps::TaughtRule& rule : rules ? *rules : std::vector<lamps::TaughtRule>()) {
        const catalogue::LampType* type = m_catalogue().lampType(rule.teaching.lampType);
        const auto nameOf = [this](const PersonId& id) {
            const auto person = m_people.person(id);
            return person ? person->name : id.text();
        };
        QStringList sub{tr("%1, %2").arg(nameOf(rule.by), dayText(rule.at))};
        if (!rule.teaching.packageCode.isEmpty())
            sub << tr("%1 stands for it").arg(rule.teaching.packageCode);
        if (rule.withdrawn)
            sub << tr("withdrawn by %1, %2").arg(nameOf(rule.withdrawn->by), dayText(rule.withdrawn->at));
        else if (!label::isInUse(rule.teaching, types))
            sub << tr("no longer in use: it does not fit the types of today's catalogue");
        view.rules.append(
            {rule.id.text(),
             tr("%1: %2").arg(type ? type->code : rule.teaching.lampType.text(), wordsOf(rule.teaching.rule)),
             sub.join(u" \u00b7 "_s), rule.withdrawn ? QString() : tr("Withdraw")});
    }
}

void TeachPresenter::show()
{
    TeachView view;
    fillCodes(view);
    fillLesson(view);
    fillRules(view);
    view.message = m_message;
    if (view == m_view)
        return;
    m_view = std::move(view);
    Q_EMIT viewChanged(m_view);
}

} // namespace coldarc::ui
