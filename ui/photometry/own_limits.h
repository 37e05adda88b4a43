#pragma once

#include "core/photometry/tolerance_set.h"
#include "ui/photometry/sheet_view.h"

#include <QMap>

#include <optional>
#include <vector>

namespace coldarc::ui {

/// The limits that somebody types in place of those of a set. What is typed stays, right or wrong.
class OwnLimits {
public:
    using Set = std::optional<photometry::ToleranceSet>;
    using Sets = std::vector<photometry::ToleranceSet>;

    void set(const QString& id, const QString& text) { m_texts.insert(id, text); }
    void clear() { m_texts.clear(); }

    /// The set with what is typed for it, and what is wrong with that, by field. A limit with something wrong
    /// stays as it was.
    struct Used {
        Set set;
        QMap<QString, QString> faults;
    };
    /// @param shipped  every set as it is shipped: a limit that is cleared becomes the one there.
    [[nodiscard]] Used usedOn(const Set& set, const Sets& shipped) const;
    [[nodiscard]] QList<SheetField> fields(const Set& set, const Sets& shipped) const;

private:
    void use(const photometry::Limit& limit, const Sets& shipped, Used& used) const;

    QMap<QString, QString> m_texts;
};

} // namespace coldarc::ui
