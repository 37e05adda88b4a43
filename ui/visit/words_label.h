#pragma once

#include "core/catalogue/catalogue.h"
#include "core/label/agreement.h"
#include "core/label/source_read.h"

#include <QString>
#include <QStringList>

namespace coldarc::ui {

/// "box", "paper", "entry", "own marking": where a text stands.
[[nodiscard]] QString nameOf(label::Source source);

/// What Matched waits for, and what would answer it.
[[nodiscard]] QString wordsOf(const label::Wait& wait);

/// The difference, character by character, in words: "4th: 8 here, B in the entry; these two are often
/// mistaken". The first `kMostDifferences` and how many more there are.
/// @param entry, here  the texts as they stand; `difference.a` is the entry.
[[nodiscard]] QString wordsOf(const label::Difference& difference, const QString& entry, const QString& here);
inline constexpr int kMostDifferences = 3;

/// The same where there is no entry: "place 9: B there, 8 here".
/// @param here, there  the texts as they stand; `difference.a` is `here`.
[[nodiscard]] QString wordsApart(const label::Difference& difference, const QString& here,
                                 const QString& there);

/// Types that lie near a text which names none: "Did you mean HVQ30-40B? There place 9: ...". They are to be
/// typed by whoever looked, never put in. Empty where there are none.
[[nodiscard]] QString nearWords(const QString& text, const QList<label::Suggestion>& near,
                                const QList<catalogue::LampType>& lampTypes);

/// How what stands at a source came there: "typed", "scanned, Data Matrix", "chosen"; and whether a picture
/// of it is kept. Empty where nothing stands there.
[[nodiscard]] QString howWords(const label::SourceRead& read);

/// How one field agrees: "agrees", "not read yet", "differs: ...".
[[nodiscard]] QString wordsOf(const label::FieldVerdict& verdict, const QString& entry, const QString& here);

/// A type beside the one that it is easily taken for: "HVQ30-408: place 9 is the figure 8".
[[nodiscard]] QString apartWords(const QString& code, const QString& other);

/// What would follow if the lamp were one type and the controller told another, for each pair that was named.
[[nodiscard]] QStringList wrongTypeWords(const label::Agreement& agreement,
                                         const QList<catalogue::LampType>& lampTypes);

} // namespace coldarc::ui
