#pragma once

#include "core/base/words.h"

namespace coldarc::catalogue {

using coldarc::oneOf;
using coldarc::valueIn;
using coldarc::wordIn;
using coldarc::Words;

} // namespace coldarc::catalogue
