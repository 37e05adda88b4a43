#include "core/machine/effect.h"

namespace coldarc::machine {
namespace {

constexpr std::array<std::string_view, kEffects> kWords{
    "look",        "find",           "count-opening",  "count",        "extraction-on", "gear-off",
    "dowser-shut", "dowser-open",    "tell-before",    "tell-again",   "lamp-off",      "standby",
    "isolate",     "lock-on",        "relieve",        "try-start",    "prove-absence", "open-housing",
    "gear-on",     "enter-zone",     "expose-lamp",    "work-inside",  "lamp-out",      "unbox",
    "adaptor-off", "adaptor-on",     "lamp-in",        "clamp-lamp",   "box-lamp",      "shut-guard",
    "leave-zone",  "shut-housing",   "lock-off",       "job-lock-off", "restore",       "power-up",
    "match-box",   "book-in",        "key-controller", "strike",       "settle",        "peak",
    "peak-again",  "measure-screen", "tag-out",        "sign",
};

} // namespace

std::string_view wordOf(Effect effect)
{
    return kWords[static_cast<std::size_t>(effect)];
}

std::optional<Effect> effectFromWord(std::string_view word)
{
    for (std::size_t index = 0; index < kWords.size(); ++index) {
        if (kWords[index] == word)
            return static_cast<Effect>(index);
    }
    return std::nullopt;
}

} // namespace coldarc::machine
