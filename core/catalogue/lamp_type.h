#pragma once

#include "core/base/ids.h"
#include "core/catalogue/label_rule.h"
#include "core/catalogue/reading.h"

#include <QJsonObject>
#include <QList>
#include <QString>
#include <QStringList>

#include <cstdint>
#include <optional>

namespace coldarc::catalogue {

/// What is sealed in the lamp. It decides how the pieces of a burst lamp are cleaned up, so it is read from
/// the data sheet and never guessed.
enum class Fill : std::uint8_t {
    Xenon,
    MercuryXenon,
};
/// "xenon" or "mercury-xenon".
[[nodiscard]] QString wordOf(Fill fill);
[[nodiscard]] std::optional<Fill> fillFromWord(const QString& word);

/// One kind of lamp, as its data sheet tells it.
struct LampType {
    LampTypeId id;
    QString maker;
    QString name;
    QString code;             ///< printed on the lamp's own marking, on its box and in its paper
    QStringList packageCodes; ///< what the bar code on the box may hold besides `code`; may be empty
    double ratedWatts = 0;    ///< W, > 0
    double leastAmperes = 0;  ///< A, lower end of the current range, > 0
    double mostAmperes = 0;   ///< A, upper end, >= leastAmperes
    double warrantyHours = 0; ///< h on the lamp, > 0
    /// h, >= warrantyHours and at most 1.25 times that. Past them a lamp is neither lit again nor refitted.
    double replaceByHours = 0;
    double lengthMm = 0; ///< mm over both caps, > 0
    Fill fill = Fill::Xenon;
    bool thoriatedElectrodes = false; ///< how the pieces are picked up and where the lamp goes
    /// How this maker's bar codes are read; of several that fit, all must say the same. Empty: no code is
    /// known, texts are typed.
    QList<LabelRule> labels{};

    friend bool operator==(const LampType&, const LampType&) = default;
};

/// Reads a document of kind "lamp-type". Every key but `note` and `labels` is needed, a key that is none is
/// complained of.
[[nodiscard]] Reading<LampType> readLampType(const QJsonObject& document);
/// The document again: reading it gives an equal lamp type.
[[nodiscard]] QJsonObject toJson(const LampType& type);

/// How far beyond its warranty hours a lamp may be used at all: 1.25 times. Source: a trade text on
/// searchlight lamps gives this factor on the average life; on the warranty hours it is the stricter reading.
inline constexpr double kMostOfWarranty = 1.25;

} // namespace coldarc::catalogue
