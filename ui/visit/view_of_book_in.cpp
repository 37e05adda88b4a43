#include "ui/visit/view_of_book_in.h"

#include "core/label/normalise.h"
#include "ui/visit/words_label.h"

#include <QCoreApplication>

#include <algorithm>

namespace coldarc::ui {

using namespace Qt::StringLiterals;
using label::Source;
using Mark = BookInColumn::Mark;

namespace {

QString words(const char* text)
{
    return QCoreApplication::translate("book-in", text);
}

Mark markOf(const label::FieldVerdict& verdict)
{
    using State = label::FieldVerdict::State;
    if (verdict.state == State::Agrees || verdict.state == State::Passed)
        return Mark::Agrees;
    return verdict.state == State::Differs || verdict.state == State::DiffersBySuffix ? Mark::Differs
                                                                                      : Mark::Open;
}

const label::FieldVerdict* verdictOf(const QList<label::FieldVerdict>& verdicts, Source source)
{
    const auto found = std::ranges::find(verdicts, source, &label::FieldVerdict::source);
    return found == verdicts.end() ? nullptr : &*found;
}

} // namespace

BookInColumn agreementColumn(const CardReads& reads, Source source, const label::Agreement& agreed,
                             const catalogue::Catalogue& catalogue)
{
    const label::SourceRead read = reads.of(source);
    const label::Reading& typed = read.reading;
    const label::Reading entry = reads.of(Source::Entry).reading;
    BookInColumn column;
    column.id = columnIdOf(source);
    column.title = nameOf(source);
    column.how = howWords(read);
    column.hasPicture = read.picture.has_value();
    column.type = {typed.type, QString(), Mark::Open};
    column.serial = {typed.serial, QString(), Mark::Open};
    if (source == Source::Entry)
        column.type.words = column.serial.words = words("what you say yourself");
    if (const auto* verdict = verdictOf(agreed.types, source)) {
        column.type.words = wordsOf(*verdict, entry.type, typed.type);
        column.type.mark = markOf(*verdict);
        const catalogue::LampType* named =
            verdict->namedType ? catalogue.lampType(*verdict->namedType) : nullptr;
        if (named && label::normalise(named->code) != label::normalise(typed.type))
            column.type.words = words("%1 (it stands for %2)").arg(column.type.words, named->code);
    }
    if (const auto* verdict = verdictOf(agreed.serials, source)) {
        column.serial.words = wordsOf(*verdict, entry.serial, typed.serial);
        column.serial.mark = markOf(*verdict);
    }
    if (source == Source::Entry && !agreed.didYouMean.isEmpty())
        column.type.words = nearWords(typed.type, agreed.didYouMean, catalogue.lampTypes());
    return column;
}

// Nothing preselected, in the catalogue's order: whichever is expected must not be the easier press.
CaptureView sisterAsk(const QString& id, const CardReads& reads, const LampTypeId& agreed,
                      const catalogue::Catalogue& catalogue)
{
    const QList<LampTypeId> sisters = label::sistersOf(agreed, catalogue.lampTypes());
    const QString own = catalogue.lampType(agreed)->code;
    CaptureView ask;
    ask.id = id;
    ask.label = words("Look at the lamp's own marking once more: which stands there?");
    for (const catalogue::LampType& type : catalogue.lampTypes()) {
        if (type.id == agreed)
            ask.options.append(
                {type.code, apartWords(type.code, catalogue.lampType(sisters.value(0, type.id))->code), {}});
        else if (sisters.contains(type.id))
            ask.options.append({type.code, apartWords(type.code, own), {}});
    }
    if (const label::Reading marking = reads.of(Source::OwnMarking).reading;
        marking.means == label::Means::Chosen)
        ask.value = {marking.type};
    return ask;
}

std::optional<Source> sourceToPass(const CardReads& reads, const label::Agreement& agreed)
{
    const int needed = reads.isBookIn() ? 2 : 1;
    for (const label::Wait& wait : agreed.waits) {
        if (wait.canBePassedWithReason() && wait.step <= needed)
            return wait.source;
    }
    return std::nullopt;
}

QList<CaptureView> passAsks(const CardReads& reads, Source source)
{
    CaptureView evidence;
    evidence.id = u"evidence"_s;
    evidence.label = words("%1: the serial may pass, if this stands behind it").arg(nameOf(source));
    evidence.options.append({u"picture"_s,
                             reads.of(source).picture ? words("The picture that is kept here")
                                                      : words("A picture of it, on another device"),
                             {}});
    for (const Source other : reads.sources()) {
        if (other != Source::Entry && other != source)
            evidence.options.append(
                {columnIdOf(other), words("Typed again from: %1").arg(nameOf(other)), {}});
    }
    return {evidence, textCapture(u"again"_s, words("The serial, typed again")),
            textCapture(u"reason"_s, words("Why it may pass"))};
}

QString countersOf(const visit::SwapState& swap)
{
    for (const procedure::Step& step : swap.steps) {
        const QJsonObject answers = swap.record(step.id).answers;
        const QString hours = answers.value(u"hours"_s).toString();
        const QString strikes = answers.value(u"strikes"_s).toString();
        if (step.effect != machine::Effect::Look || hours.isEmpty())
            continue;
        return strikes.isEmpty() ? words("old lamp read at %1 h").arg(hours)
                                 : words("old lamp read at %1 h, %2 strikes").arg(hours, strikes);
    }
    return {};
}

CaptureView textCapture(const QString& id, const QString& label)
{
    CaptureView view;
    view.id = id;
    view.kind = CaptureView::Kind::Text;
    view.label = label;
    return view;
}

} // namespace coldarc::ui
