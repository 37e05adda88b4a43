#include "ui/photometry/own_limits.h"

#include "core/photometry/typed.h"
#include "ui/parts/quantities.h"
#include "ui/photometry/words_sheet.h"

#include <QCoreApplication>

#include <algorithm>

namespace coldarc::ui {

using namespace Qt::StringLiterals;
using namespace photometry;

namespace {

const QString kLeast = u"least:"_s;
const QString kMost = u"most:"_s;

QString words(const char* text)
{
    return QCoreApplication::translate("sheet", text);
}

/// The limit that the set has as it is shipped.
Limit shippedOf(const ToleranceSet& set, const Limit& limit, const OwnLimits::Sets& shipped)
{
    const auto found = std::ranges::find(shipped, set.id, &ToleranceSet::id);
    const Limit* before = found == shipped.end() ? nullptr : found->limitOn(limit.quantity);
    Limit none;
    none.quantity = limit.quantity;
    none.absence = Absence::Unset;
    return before ? *before : none;
}

/// Nobody holds an offset, or a dark screen, against a least one.
bool hasLeast(Quantity quantity)
{
    return quantity != Quantity::CornerColourOffset && quantity != Quantity::LargestColourDistance &&
           quantity != Quantity::DarkLuminance;
}

} // namespace

void OwnLimits::use(const Limit& limit, const Sets& shipped, Used& used) const
{
    const QString word = wordOf(limit.quantity);
    bool isReadable = true;
    const auto figure = [&](const QString& key, const std::optional<double>& before) {
        const QString text = m_texts.value(key).trimmed();
        if (!m_texts.contains(key) || text.isEmpty())
            return m_texts.contains(key) ? std::nullopt : before;
        const auto number = numberFrom(text);
        if (number)
            return std::optional(*number);
        used.faults.insert(key, faultWords(number.error(), text));
        isReadable = false;
        return before;
    };
    const auto least = figure(kLeast + word, limit.least);
    const auto most = figure(kMost + word, limit.most);
    if (!isReadable)
        return;
    if (!least && !most) {
        used.set = withLimit(*used.set, shippedOf(*used.set, limit, shipped));
        return;
    }
    if (const auto set = withOwnLimit(*used.set, limit.quantity, least, most)) {
        used.set = *set;
        return;
    }
    for (const QString& key : {kLeast + word, kMost + word}) {
        if (!m_texts.value(key).trimmed().isEmpty())
            used.faults.insert(key, words("No limit can stand there."));
    }
}

OwnLimits::Used OwnLimits::usedOn(const Set& set, const Sets& shipped) const
{
    Used used{set, {}};
    for (const Limit& limit : set ? set->limits : std::vector<Limit>()) {
        const QString word = wordOf(limit.quantity);
        if (m_texts.contains(kLeast + word) || m_texts.contains(kMost + word))
            use(limit, shipped, used);
    }
    return used;
}

QList<SheetField> OwnLimits::fields(const Set& set, const Sets& shipped) const
{
    QList<SheetField> fields;
    const QMap<QString, QString> faults = usedOn(set, shipped).faults;
    for (const Limit& limit : set ? set->limits : std::vector<Limit>()) {
        if (limit.absence != Absence::Unset && limit.standing != Standing::Own)
            continue;
        const QString word = wordOf(limit.quantity);
        const auto field = [&](const QString& id, const QString& label, const std::optional<double>& figure) {
            SheetField one;
            one.id = id;
            one.field.label = label.arg(nameOf(limit.quantity));
            one.field.value = m_texts.value(id, figure ? plainText(*figure) : QString());
            const bool isLight =
                limit.quantity == Quantity::CentreLuminance || limit.quantity == Quantity::DarkLuminance;
            one.field.unit = isLight ? u"cd/m²"_s : QString();
            one.field.error = faults.value(id);
            fields.append(one);
        };
        if (hasLeast(limit.quantity))
            field(kLeast + word, words("%1: at least"), limit.least);
        field(kMost + word, words("%1: at most"), limit.most);
    }
    return fields;
}

} // namespace coldarc::ui
