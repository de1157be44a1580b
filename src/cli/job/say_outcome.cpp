#include "cli/job/say_outcome.h"

#include <fmt/format.h>

namespace tonemend {

std::string say_outcome(const CopyOutcome& outcome, const std::string& done) {
    constexpr std::size_t most = 20;
    std::string text = fmt::format("  {}\n", done);
    for (const auto* lines : {&outcome.notes, &outcome.losses}) {
        for (std::size_t i = 0; i < lines->size() && i < most; ++i)
            text += fmt::format("  {}\n", lines->at(i));
        if (lines->size() > most) text += fmt::format("  and {} more\n", lines->size() - most);
    }
    return text;
}

}  // namespace tonemend
