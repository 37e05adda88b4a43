#pragma once

#include "core/label/source_read.h"

#include <QHash>

namespace coldarc::ui {

/// What the sources of a lamp say by now on one card: at the match of box and paper, or at the book-in, where
/// the lamp's own marking comes to them.
class CardReads {
public:
    void begin(bool isBookIn);
    [[nodiscard]] bool isBookIn() const { return m_isBookIn; }
    [[nodiscard]] QList<label::Source> sources() const;
    void put(const label::SourceRead& read) { m_reads.insert(read.reading.source, read); }
    [[nodiscard]] label::SourceRead of(label::Source source) const;
    [[nodiscard]] QList<label::SourceRead> all() const;
    /// All, without what they rest on.
    [[nodiscard]] QList<label::Reading> readings() const;

private:
    bool m_isBookIn = false;
    QHash<label::Source, label::SourceRead> m_reads;
};

/// "box", "paper", "entry", "marking": the id of its column.
[[nodiscard]] QString columnIdOf(label::Source source);
[[nodiscard]] std::optional<label::Source> sourceOf(const QString& column);

} // namespace coldarc::ui
