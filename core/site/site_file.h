#pragma once

#include "core/base/result.h"
#include "core/site/site.h"

#include <QJsonObject>

namespace coldarc::site {

/// The whole site as an object of kind "site". An unknown lamp, or hours that the site did not say, are left
/// out.
[[nodiscard]] QJsonObject toJson(const SiteDocument& document);

/// The other way round; reading what toJson wrote gives an equal document. Malformed lists everything that is
/// missing, unknown or of the wrong kind, one line each. Whether the parts fit together is another question:
/// see `problemsOf`.
[[nodiscard]] Result<SiteDocument> siteFromJson(const QJsonObject& object);

} // namespace coldarc::site
