#pragma once

#include "core/base/clock.h"
#include "core/base/result.h"

#include <QJsonArray>
#include <QJsonObject>
#include <QString>
#include <QStringList>
#include <QVarLengthArray>

#include <optional>

namespace coldarc {

/// Reads one JSON object strictly: every key must be asked for, every value must be of its kind and in range,
/// and each complaint names its place (`steps[3].effect: ...`). Complaints are collected, so that whoever
/// mends a file sees all of them at once.
///
/// Use: make one for the root, ask for the fields, call `finish()`; children made by `object()` and
/// `objects()` report to the same list and are finished by their own user.
class JsonReader {
public:
    /// @param place  what stands before the key in a complaint; empty for the root.
    /// @param complaints  where they go; outlives the reader.
    JsonReader(const QJsonObject& object, QString place, QStringList& complaints);

    [[nodiscard]] bool has(const QString& key) const { return m_object.contains(key); }
    /// A text that must be there and not be empty. Empty text after a complaint.
    QString text(const QString& key);
    /// A text that may be missing or empty.
    QString textOr(const QString& key, const QString& otherwise);
    /// A finite number within [least, most]. `least` after a complaint.
    double number(const QString& key, double least, double most);
    double numberOr(const QString& key, double least, double most, double otherwise);
    /// A whole number within [least, most]. `least` after a complaint.
    qint64 whole(const QString& key, qint64 least, qint64 most);
    qint64 wholeOr(const QString& key, qint64 least, qint64 most, qint64 otherwise);
    bool flag(const QString& key);
    bool flagOr(const QString& key, bool otherwise);
    /// A list of texts, none empty. `texts` must be there; `textsOr` may be missing.
    QStringList texts(const QString& key);
    QStringList textsOr(const QString& key, const QStringList& otherwise);
    /// A child object with its place, and the objects of an array with theirs. An empty object, or no
    /// objects, after a complaint.
    struct Child {
        QJsonObject object;
        QString place;
    };
    Child child(const QString& key);
    std::optional<Child> childOr(const QString& key);
    QList<Child> children(const QString& key);
    QList<Child> childrenOr(const QString& key);
    /// Any value, taken as it is.
    QJsonValue value(const QString& key);

    /// Complains of a value of this object that has the right kind but the wrong meaning.
    void complain(const QString& key, const QString& why);
    /// Complains of every key that nobody asked for.
    void finish();

    [[nodiscard]] QString placeOf(const QString& key) const;

private:
    std::optional<QJsonValue> take(const QString& key, bool needed);

    QJsonObject m_object;
    QString m_place;
    QStringList* m_complaints;
    QVarLengthArray<bool, 32> m_isAsked; ///< by place in the object
    qsizetype m_unasked;                 ///< how many are not
};

/// Parses UTF-8 bytes that must be one JSON object. Malformed names the offset; doubled keys are not seen by
/// Qt's parser (the last one wins).
[[nodiscard]] Result<QJsonObject> parseObject(const QByteArray& bytes);

/// A text as Qt writes it in JSON, with the quotation marks around it.
[[nodiscard]] QByteArray jsonText(const QString& text);

/// A stamp as an entry keeps it: wall time as ISO 8601 UTC with milliseconds, the rest as whole milliseconds.
[[nodiscard]] QJsonObject toJson(const Stamp& stamp);
[[nodiscard]] Stamp readStamp(JsonReader& reader);
[[nodiscard]] QString isoUtc(WallTime wall);
/// Nothing unless the text is an ISO 8601 moment with an offset or Z.
[[nodiscard]] std::optional<WallTime> wallFromIso(const QString& text);

} // namespace coldarc
