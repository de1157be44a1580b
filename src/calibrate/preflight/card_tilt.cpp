#include "calibrate/preflight/card_tilt.h"

#include <fmt/format.h>

namespace tonemend {
namespace {

// The estimate is good to a few degrees, and a hand holds a camera level to less than ten (common practice,
// no source).
constexpr double most_degrees = 16;

}  // namespace

std::optional<Warning> warn_of_tilt(const FoundCard& found) {
    if (found.tilt_degrees <= most_degrees) return std::nullopt;
    return Warning{
        "card-tilted",
        fmt::format("the card leans by about {:.0f}° against the camera; lay it flat on the wood and "
                    "hold the camera straight above, or it gets other light than the wood",
                    found.tilt_degrees),
        false};
}

}  // namespace tonemend
