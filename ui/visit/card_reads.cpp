#include "ui/visit/card_reads.h"

namespace coldarc::ui {

using namespace Qt::StringLiterals;
using label::Source;

void CardReads::begin(bool isBookIn)
{
    m_isBookIn = isBookIn;
    m_reads.clear();
}

QList<Source> CardReads::sources() const
{
    QList<Source> all{Source::Box, Source::Paper, Source::Entry};
    if (m_isBookIn)
        all.append(Source::OwnMarking);
    return all;
}

label::SourceRead CardReads::of(Source source) const
{
    label::SourceRead read = m_reads.value(source);
    read.reading.source = source;
    return read;
}

QList<label::SourceRead> CardReads::all() const
{
    QList<label::SourceRead> all;
    for (const Source source : sources())
        all.append(of(source));
    return all;
}

QList<label::Reading> CardReads::readings() const
{
    return label::readingsOf(all());
}

QString columnIdOf(Source source)
{
    switch (source) {
    case Source::OwnMarking:
        return u"marking"_s;
    case Source::Box:
        return u"box"_s;
    case Source::Paper:
        return u"paper"_s;
    case Source::Entry:
        return u"entry"_s;
    }
    Q_UNREACHABLE();
}

std::optional<Source> sourceOf(const QString& column)
{
    for (const Source source : {Source::OwnMarking, Source::Box, Source::Paper, Source::Entry}) {
        if (columnIdOf(source) == column)
            return source;
    }
    return std::nullopt;
}

} // namespace coldarc::ui
