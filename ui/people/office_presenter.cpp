#include "ui/people/office_presenter.h"

#include "core/people/jws.h"
#include "core/people/read_holders.h"
#include "core/people/read_trust.h"
#include "ui/parts/not_written.h"
#include "ui/parts/quantities.h"
#include "ui/people/people_words.h"
#include "ui/people/secret_words.h"

#include <algorithm>
#include <memory>
#include <utility>

namespace coldarc::ui {

using namespace Qt::StringLiterals;

namespace {

constexpr auto kDays = std::chrono::days(365); ///< that are proposed

QString idOf(const people::PublicKey& key)
{
    return QString::fromLatin1(key.bytes().toHex());
}

} // namespace

OfficePresenter::OfficePresenter(people::PeopleStore& people, people::KeyStore& keys,
                                 people::OfficeStore& offices, const Clock& clock, Behind behind,
                                 QObject* parent)
    : QObject(parent)
    , m_people(people)
    , m_keys(keys)
    , m_offices(offices)
    , m_clock(clock)
    , m_behind(std::move(behind))
{
}

people::Day OfficePresenter::today() const
{
    return people::utcDayOf(m_clock.now().wall);
}

std::optional<people::Office> OfficePresenter::own() const
{
    const auto own = m_offices.own();
    return own ? std::optional(*own) : std::nullopt;
}

bool OfficePresenter::mayVouch() const
{
    const auto everybody = people::readHolders(m_people, m_keys);
    return everybody && people::isAllowed(people::grantVerdict(people::Grant::Vouch, m_by, m_by, *everybody,
                                                               dayOf(m_clock.now().wall)));
}

bool OfficePresenter::isRefused()
{
    if (mayVouch())
        return false;
    say(tr("Nothing was changed. Whoever supervises does this."));
    return true;
}

void OfficePresenter::refresh()
{
    OfficeView view = m_view;
    fill(view);
    show(view);
}

void OfficePresenter::fill(OfficeView& view) const
{
    const auto office = own();
    const bool may = mayVouch();
    view.name = office ? office->name : QString();
    view.thumbprint = office ? people::thumbprint(office->key) : QString();
    if (office)
        view.note =
            tr("Tell this thumbprint to whoever checks your records, by telephone or on paper: it is how "
               "they know that the office is yours.");
    else
        view.note =
            tr("There is none. An office vouches for keys: it says whose a key is, so that a record says "
               "who signed it to people who know nothing of this workspace. Without one, records are as "
               "good, and whose the keys are has to be told beside them.");
    if (!may)
        view.note += u' ' + tr("Whoever supervises makes it, and vouches with it.");
    view.canFound = !office && may;
    view.canVouch = office && may;
    view.canTakeUp = may;
    view.canReseal = office && may;
    fillKeys(view);
    fillOffices(view);
    fillForm(view);
}

QString OfficePresenter::standingOf(const people::PublicKey& key) const
{
    const auto trust = people::readTrust(m_offices, m_keys, {key});
    const auto offices = m_offices.believed();
    if (!trust || !offices)
        return tr("who vouches for it could not be read");
    QStringList parts;
    for (const people::Certified& one : trust->of(people::thumbprint(key), {}, {}).vouchedBy) {
        const auto office = std::ranges::find(
            *offices, one.office, [](const people::Office& known) { return people::thumbprint(known.key); });
        if (office == offices->end())
            continue; // dropped between the two readings
        const people::Enrolment& enrolment = one.enrolment;
        const bool isOver = enrolment.until < today();
        parts << (isOver ? tr("%1 vouched for it until %2") : tr("%1 vouches for it until %2"))
                     .arg(office->name, people::isoText(enrolment.until));
    }
    if (parts.isEmpty())
        parts << tr("nobody vouches for it");
    if (const auto since = outOfUseSince(key))
        parts << tr("out of use from %1").arg(people::isoText(*since));
    return parts.join(u", "_s);
}

/// As a believed office says; the earliest. Nothing where none does.
std::optional<people::Day> OfficePresenter::outOfUseSince(const people::PublicKey& key) const
{
    const auto trust = people::readTrust(m_offices, m_keys, {key});
    const auto known = trust ? trust->of(people::thumbprint(key), {}, {}) : people::KnownOfKey();
    const auto first = std::ranges::min_element(
        known.outOfUse, {}, [](const people::Retired& one) { return one.retirement.since; });
    return first == known.outOfUse.end() ? std::nullopt : std::optional(first->retirement.since);
}

/// Keys of other laptops, and keys that were in use here: nobody but the office says of them that they count
/// no more.
void OfficePresenter::addCertifiedKeys(OfficeView& view) const
{
    const auto office = own();
    if (!office)
        return;
    const auto isListed = [&](const people::PublicKey& key) {
        return std::ranges::find(view.keys, idOf(key), &CardLine::id) != view.keys.end();
    };
    const auto given = m_offices.certificatesBy(office->key);
    for (const people::Certificate& one : given ? *given : std::vector<people::Certificate>()) {
        const auto said = people::saidBy(one);
        if (!said || isListed(said->enrolment.key))
            continue;
        const people::Enrolment& enrolment = said->enrolment;
        const bool canRetire = view.canVouch && !outOfUseSince(enrolment.key);
        view.keys.append({idOf(enrolment.key), u"%1 \u00b7 %2"_s.arg(enrolment.name, wordFor(enrolment.role)),
                          standingOf(enrolment.key), canRetire ? tr("Take it out of use") : QString(),
                          inGroups(people::thumbprint(enrolment.key))});
    }
}

std::optional<OfficePresenter::Subject> OfficePresenter::certifiedSubject(const QString& key) const
{
    const auto office = own();
    if (!office)
        return std::nullopt;
    const auto given = m_offices.certificatesBy(office->key);
    for (const people::Certificate& one : given ? *given : std::vector<people::Certificate>()) {
        const auto said = people::saidBy(one);
        if (!said || idOf(said->enrolment.key) != key || outOfUseSince(said->enrolment.key))
            continue;
        const people::Enrolment& enrolment = said->enrolment;
        const auto enrolled = m_keys.ownerOf(enrolment.key);
        const bool isKnown = enrolled && enrolled->retiredAt;
        return Subject{{enrolment.key, enrolment.person, enrolment.name, enrolment.role},
                       false,
                       isKnown ? people::utcDayOf(*enrolled->retiredAt) : today()};
    }
    return std::nullopt;
}

void OfficePresenter::fillKeys(OfficeView& view) const
{
    view.keys.clear();
    const auto all = m_people.all();
    for (const people::Person& person : all ? *all : std::vector<people::Person>()) {
        const auto sealed = m_keys.sealedKey(person.id);
        if (!sealed)
            continue;
        const QString act = view.canVouch         ? tr("Vouch for it")
                            : view.name.isEmpty() ? tr("Save it for an office")
                                                  : QString();
        view.keys.append({idOf(sealed->publicKey), u"%1 \u00b7 %2"_s.arg(person.name, wordFor(person.role)),
                          standingOf(sealed->publicKey), act,
                          inGroups(people::thumbprint(sealed->publicKey))});
    }
    addCertifiedKeys(view);
    view.noKeys = all ? tr("Nobody here has a key.") : tr("The keys could not be read. Nothing was changed.");
}

void OfficePresenter::fillOffices(OfficeView& view) const
{
    view.offices.clear();
    const auto offices = m_offices.offices();
    for (const people::Office& office : offices ? *offices : std::vector<people::Office>()) {
        if (!office.isOwn && !office.droppedAt)
            view.offices.append({idOf(office.key), office.name, QString(),
                                 view.canTakeUp ? tr("Believe it no longer") : QString(),
                                 inGroups(people::thumbprint(office.key))});
    }
    view.noOffices = offices ? tr("None. An office is made known by a certificate that it gave.")
                             : tr("The offices could not be read. Nothing was changed.");
}

void OfficePresenter::fillForm(OfficeView& view) const
{
    view.officeName.label = tr("What it is called, as it stands under a record");
    view.old.label = tr("The office's passphrase as it is");
    const bool isOpened = view.form == OfficeForm::Vouch || view.form == OfficeForm::Retire;
    view.passphrase.label =
        isOpened ? tr("The office's passphrase") : tr("A passphrase for the office, not your own");
    view.again.label = tr("The same again");
    view.from.label = view.form == OfficeForm::Retire
                          ? tr("From, the first day on which what it signs counts no more")
                          : tr("From, the first day on which what it signed counts");
    view.from.value = people::isoText(m_subject ? m_subject->from : today());
    view.until.label = tr("Until, that day included");
    view.until.value = people::isoText(people::Day(std::chrono::sys_days(today()) + kDays));
    view.formNote.clear();
    view.formThumbprint.clear();
    switch (view.form) {
    case OfficeForm::None:
        break;
    case OfficeForm::Found:
        view.formTitle = tr("The office of this workspace");
        view.formNote = passphraseRule();
        view.formAct = tr("Make the office");
        break;
    case OfficeForm::Vouch:
        view.formTitle = tr("Vouch for the key of %1").arg(m_subject->request.name);
        view.formNote =
            tr("Let %1 read the thumbprint from their own screen, in person or by telephone. Where it is "
               "another one, the key is not theirs.")
                .arg(m_subject->request.name);
        view.formThumbprint = people::thumbprint(m_subject->request.key);
        view.formAct = tr("It is theirs: vouch for it");
        break;
    case OfficeForm::TakeUp:
        view.formTitle = tr("An office that is not known here: %1").arg(m_brought->officeName);
        view.formNote =
            tr("Let the office itself tell its thumbprint, by telephone or on paper. Where it is another "
               "one, somebody else calls themselves so.");
        view.formThumbprint = people::thumbprint(m_brought->office);
        view.formAct = tr("It is theirs: believe it");
        break;
    case OfficeForm::Reseal:
        view.formTitle = tr("Another passphrase for the office");
        view.formNote =
            tr("The key stays the same, and so does what it vouched for. A copy of this workspace that was "
               "made before still opens with the old passphrase.") +
            u' ' + passphraseRule();
        view.formAct = tr("Change it");
        break;
    case OfficeForm::Retire:
        view.formTitle = tr("Take the key of %1 out of use").arg(m_subject->request.name);
        view.formNote =
            tr("It cannot be taken back. What it signed before that day stays good; a record that it signed "
               "from then on is not taken in where this is known. It goes along with every record that the "
               "key signed.");
        view.formThumbprint = people::thumbprint(m_subject->request.key);
        view.formAct = tr("It is out of use: say so");
        break;
    }
}

void OfficePresenter::openForm(OfficeForm form)
{
    if (!m_view.busy.isEmpty())
        return;
    OfficeView view = m_view;
    view.form = form;
    view.message.clear();
    for (FieldView* field :
         {&view.officeName, &view.old, &view.passphrase, &view.again, &view.from, &view.until})
        field->error.clear();
    ++view.emptied;
    fill(view);
    show(view);
}

void OfficePresenter::keepForm(const OfficeAnswers& answers)
{
    if (!m_view.busy.isEmpty() || m_view.form == OfficeForm::None || isRefused())
        return;
    switch (m_view.form) {
    case OfficeForm::None:
        break;
    case OfficeForm::Found:
        return found(answers);
    case OfficeForm::Vouch:
        return vouch(answers);
    case OfficeForm::TakeUp:
        return takeUp();
    case OfficeForm::Reseal:
        return reseal(answers);
    case OfficeForm::Retire:
        return retire(answers);
    }
}

std::optional<people::KeyRequest> OfficePresenter::requestFor(const QString& key) const
{
    for (const people::Person& person : m_people.all().value_or(std::vector<people::Person>())) {
        const auto sealed = m_keys.sealedKey(person.id);
        if (sealed && idOf(sealed->publicKey) == key)
            return people::KeyRequest{sealed->publicKey, person.id, person.name, person.role};
    }
    return std::nullopt;
}

void OfficePresenter::act(const QString& key)
{
    if (!m_view.busy.isEmpty())
        return;
    const auto request = requestFor(key);
    if (const auto subject = request ? std::nullopt : certifiedSubject(key)) {
        if (isRefused())
            return;
        m_subject = *subject;
        return openForm(OfficeForm::Retire);
    }
    if (!request)
        return say(tr("This key is out of use by now. Look again."));
    if (!own()) {
        Q_EMIT saveRequested(tr("key-of-%1.json").arg(request->name), people::bytesOf(*request));
        return;
    }
    if (isRefused())
        return;
    const auto enrolled = m_keys.ownerOf(request->key);
    m_subject = Subject{*request, false, enrolled ? people::utcDayOf(enrolled->enrolledAt) : today()};
    openForm(OfficeForm::Vouch);
}

void OfficePresenter::drop(const QString& office)
{
    const auto key = people::PublicKey::fromBytes(QByteArray::fromHex(office.toLatin1()));
    if (!key || !m_view.busy.isEmpty() || isRefused())
        return;
    settle(m_offices.drop(*key, m_clock.now()),
           tr("Believed no longer. What it vouched for is kept, and counts again if the office is."));
}

void OfficePresenter::take(const QByteArray& file)
{
    if (!m_view.busy.isEmpty() || isRefused())
        return;
    if (const auto request = people::keyRequestFrom(file)) {
        if (!own())
            return say(
                tr("This is a key that asks to be vouched for, and there is no office here that could."));
        m_subject = Subject{*request, true, today()};
        return openForm(OfficeForm::Vouch);
    }
    const auto brought = people::certificateFileFrom(file);
    if (!brought)
        return say(tr("This file is neither a key that asks to be vouched for nor a certificate, or it was "
                      "altered. Nothing was changed. Let whoever made it save it once more."));
    const auto kept = m_offices.keep(brought->certificate, m_clock.now());
    if (!kept && kept.error().kind == Error::Kind::NotFound) {
        m_brought = *brought;
        return openForm(OfficeForm::TakeUp);
    }
    settle(kept, tr("The certificate is kept. It goes along with each record from now on."));
}

void OfficePresenter::takeUp()
{
    const Stamp now = m_clock.now();
    const auto known = m_offices.takeUp(m_brought->office, m_brought->officeName, m_by, now);
    settle(known ? m_offices.keep(m_brought->certificate, now) : known,
           tr("The office is believed from now on, and its certificate is kept."));
}

void OfficePresenter::found(const OfficeAnswers& answers)
{
    OfficeView view = m_view;
    view.officeName.error = answers.officeName.trimmed().isEmpty() ? tr("The name is needed.") : QString();
    auto passphrase = people::Passphrase::accept(answers.passphrase);
    view.passphrase.error = passphrase ? QString() : wordsFor(passphrase.error());
    view.again.error = answers.passphrase == answers.again ? QString() : tr("The two differ.");
    const bool isWhole = view.officeName.error.isEmpty() && passphrase && view.again.error.isEmpty();
    if (isWhole)
        view.busy = tr("Making the key and sealing it. This takes a second or two, on purpose.");
    show(view);
    if (!isWhole)
        return;
    const auto shared = std::make_shared<people::Passphrase>(std::move(*passphrase));
    const auto sealed =
        std::make_shared<Result<people::SealedKey>>(fail(Error::Kind::Storage, u"not tried"_s));
    m_behind(
        [shared, sealed, cost = m_cost] {
            *sealed = people::sealKey(people::SigningKey::generate(), people::officeHolder(), *shared, cost);
        },
        [this, sealed, name = answers.officeName] {
            if (!*sealed)
                return say(
                    tr("The key could not be sealed: this computer has too little memory free. Nothing "
                       "was kept."));
            settle(m_offices.found(name, **sealed, m_by, m_clock.now()),
                   tr("Made. Keep its passphrase with you and one other: without it nobody can vouch any "
                      "more."));
        });
}

void OfficePresenter::vouch(const OfficeAnswers& answers)
{
    OfficeView view = m_view;
    const auto from = people::dayFromIso(answers.from);
    const auto until = people::dayFromIso(answers.until);
    view.from.error = from ? QString() : tr("A day like 2026-12-31.");
    view.until.error = until ? QString() : tr("A day like 2027-12-31.");
    if (until && *until < today())
        view.until.error = tr("That day is over.");
    if (from && until && *until < *from)
        view.until.error = tr("It ends before it begins.");
    show(view);
    if (!from || !view.until.error.isEmpty())
        return;
    openOffice(answers.passphrase, {*m_subject, *from, *until, m_by, m_view.name});
}

void OfficePresenter::retire(const OfficeAnswers& answers)
{
    OfficeView view = m_view;
    const auto from = people::dayFromIso(answers.from);
    view.from.error = from ? QString() : tr("A day like 2026-12-31.");
    show(view);
    if (from)
        openOffice(answers.passphrase, {*m_subject, *from, {}, m_by, m_view.name, true});
}

/// Opens the office's key behind, and signs with it what `vouching` says.
void OfficePresenter::openOffice(const people::TypedSecret& passphrase, const Vouching& vouching)
{
    const Stamp now = m_clock.now();
    const auto begun = tryBegun(now);
    if (!begun)
        return;
    const auto started = std::make_shared<people::OpenTry>(*begun);
    const auto key = std::make_shared<Result<people::SigningKey>>(fail(Error::Kind::Storage, u"not tried"_s));
    m_behind([started, key,
              secret = passphrase] { *key = people::openKey(started->sealed, started->person, secret); },
             [this, started, key, now, vouching] { opened(*started, std::move(*key), now, vouching); });
}

/// Writes down a try at the office's passphrase, which is under way from then on; nothing where none is free.
std::optional<people::OpenTry> OfficePresenter::tryBegun(const Stamp& now)
{
    const auto begun = people::beginTry(m_offices, people::officeHolder(), now);
    if (!begun) {
        settle(tl::unexpected(begun.error()), {});
        return std::nullopt;
    }
    if (const auto* away = std::get_if<people::TurnedAway>(&*begun)) {
        say(waitWords(away->next));
        return std::nullopt;
    }
    OfficeView view = m_view;
    view.busy = tr("Opening the office's key. This takes a second or two, on purpose.");
    view.message.clear();
    show(view);
    return std::get<people::OpenTry>(*begun);
}

/// Says so where the passphrase did not open the key.
bool OfficePresenter::isTurnedAway(const Result<std::variant<people::SignedIn, people::TurnedAway>>& outcome,
                                   const QString& nothing)
{
    if (!outcome) {
        settle(tl::unexpected(outcome.error()), {});
        return true;
    }
    const auto* away = std::get_if<people::TurnedAway>(&*outcome);
    if (!away)
        return false;
    OfficeView view = m_view;
    view.busy.clear();
    view.message = tr("That is not the office's passphrase.") + u' ' + nothing;
    if (const QString wait = waitWords(away->next); !wait.isEmpty())
        view.message += u' ' + wait;
    ++view.emptied;
    show(view);
    return true;
}

void OfficePresenter::reseal(const OfficeAnswers& answers)
{
    OfficeView view = m_view;
    auto passphrase = people::Passphrase::accept(answers.passphrase);
    view.old.error = answers.old.isEmpty() ? tr("The passphrase as it is.") : QString();
    view.passphrase.error = passphrase ? QString() : wordsFor(passphrase.error());
    view.again.error = answers.passphrase == answers.again ? QString() : tr("The two differ.");
    show(view);
    if (!view.old.error.isEmpty() || !passphrase || !view.again.error.isEmpty())
        return;
    const Stamp now = m_clock.now();
    const auto begun = tryBegun(now);
    if (!begun)
        return;
    struct Work {
        people::OpenTry started;
        people::Passphrase fresh;
        Result<people::SigningKey> key = fail(Error::Kind::Storage, u"not tried"_s);
        Result<people::SealedKey> sealed = fail(Error::Kind::Storage, u"not tried"_s);
    };
    const auto work = std::make_shared<Work>(Work{*begun, std::move(*passphrase)});
    m_behind(
        [work, old = answers.old, cost = m_cost] {
            work->key = people::openKey(work->started.sealed, work->started.person, old);
            if (work->key)
                work->sealed = people::sealKey(*work->key, people::officeHolder(), work->fresh, cost);
        },
        [this, work, now, by = m_by] {
            const auto outcome = people::endTry(m_offices, work->started, std::move(work->key), now);
            if (isTurnedAway(outcome, tr("Nothing was changed.")))
                return;
            if (m_by != by)
                return say(tr("Nothing was changed: somebody else works here by now. Let them look again."));
            if (!work->sealed)
                return say(
                    tr("The key could not be sealed: this computer has too little memory free. Nothing "
                       "was changed."));
            settle(m_offices.reseal(*work->sealed),
                   tr("Changed. Keep the new passphrase with you and one other."));
        });
}

void OfficePresenter::opened(const people::OpenTry& started, Result<people::SigningKey> key, const Stamp& now,
                             const Vouching& vouching)
{
    const auto outcome = people::endTry(m_offices, started, std::move(key), now);
    if (isTurnedAway(outcome, tr("Nothing was signed.")))
        return;
    if (m_by != vouching.by)
        return say(tr("Nothing was signed: somebody else works here by now. Let them look again."));
    const people::SigningKey& office = std::get<people::SignedIn>(*outcome).key;
    if (vouching.isRetired)
        sayOutOfUse(office, vouching);
    else
        certify(office, vouching);
}

void OfficePresenter::sayOutOfUse(const people::SigningKey& office, const Vouching& vouching)
{
    const people::KeyRequest& request = vouching.subject.request;
    const Stamp now = m_clock.now();
    const auto paper = people::retire({request.key, vouching.from, now.wall}, office);
    if (!paper)
        return settle(tl::unexpected(paper.error()), {});
    settle(m_offices.keep(*paper, now),
           tr("The key of %1 is out of use from %2.").arg(request.name, people::isoText(vouching.from)));
}

void OfficePresenter::certify(const people::SigningKey& office, const Vouching& vouching)
{
    const people::KeyRequest& request = vouching.subject.request;
    const Stamp now = m_clock.now();
    const auto certificate = people::certify(
        {request.key, request.person, request.name, request.role, vouching.from, vouching.until, now.wall},
        office);
    if (!certificate)
        return settle(tl::unexpected(certificate.error()), {});
    const auto kept = m_offices.keep(*certificate, now);
    settle(kept,
           tr("Vouched for the key of %1 until %2.").arg(request.name, people::isoText(vouching.until)));
    if (kept && vouching.subject.isForeign)
        Q_EMIT saveRequested(
            tr("certificate-of-%1.json").arg(request.name),
            people::bytesOf(people::CertificateFile{office.publicKey(), vouching.office, *certificate}));
}

void OfficePresenter::settle(const Result<void>& outcome, const QString& done)
{
    OfficeView view = m_view;
    view.busy.clear();
    if (outcome) {
        view.form = OfficeForm::None;
        view.message = done;
        ++view.emptied;
    } else {
        view.message =
            outcome.error().kind == Error::Kind::Conflict
                ? tr("Somebody else was first: nothing was changed. Look again.")
                : notWritten(outcome.error(), tr("Nothing was changed; what stood there is kept."));
    }
    fill(view);
    show(view);
}

void OfficePresenter::say(const QString& message)
{
    OfficeView view = m_view;
    view.busy.clear();
    view.message = message;
    show(view);
}

void OfficePresenter::show(OfficeView view)
{
    if (view == m_view)
        return;
    m_view = std::move(view);
    Q_EMIT viewChanged(m_view);
}

} // namespace coldarc::ui
