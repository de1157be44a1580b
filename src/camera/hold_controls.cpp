#include "camera/hold_controls.h"

#include <cmath>

#include <fmt/format.h>

namespace tonemend {

namespace {

struct Pair {
    const char* name;
    const char* unit;
    std::optional<TonemendVideoControl> automatic;
    TonemendVideoControl value;
    const char* cure;
};

// Drivers round to their own steps; further off than this is another value.
bool near(double a, double b) {
    return std::abs(a - b) <= 1 + 0.02 * std::abs(b);
}

ControlOutcome hold(CameraControls& camera, const Pair& pair) {
    const auto refused = [&](const std::string& what) {
        return ControlOutcome{pair.name, false, fmt::format("{}; {}", what, pair.cure)};
    };
    const auto before = camera.read(pair.value);
    const auto automatic = pair.automatic ? camera.read(*pair.automatic) : std::optional<double>();
    if (!before && !automatic) {
        if (pair.value == tonemend_video_focus) return {pair.name, true, "fixed by the lens"};
        return refused("the camera has no such control");
    }
    if (automatic.value_or(0) != 0) {
        camera.write(*pair.automatic, 0);
        if (camera.read(*pair.automatic).value_or(1) != 0) return refused("the camera stays automatic");
    }
    if (!before) return {pair.name, true, "automatic is off"};
    // Some cameras jump to a default when automatic is switched off.
    camera.write(pair.value, *before);
    const auto after = camera.read(pair.value);
    if (!after || !near(*after, *before))
        return refused(fmt::format("the camera went from {:g} to {:g}", *before, after.value_or(0)));
    return {pair.name, true, fmt::format("{:g}{}", *after, pair.unit)};
}

}  // namespace

std::vector<ControlOutcome> hold_controls(CameraControls& camera) {
    const Pair pairs[] = {
        {"exposure", "", tonemend_video_exposure_automatic, tonemend_video_exposure,
         "keep the light and the view as they are"},
        {"gain", "", std::nullopt, tonemend_video_gain, "keep the light as it is"},
        {"white balance", " K", tonemend_video_white_balance_automatic,
         tonemend_video_white_balance_temperature, "keep the card in the picture"},
        {"focus", "", tonemend_video_focus_automatic, tonemend_video_focus, "do not move the camera"},
    };
    std::vector<ControlOutcome> outcomes;
    for (const Pair& pair : pairs) outcomes.push_back(hold(camera, pair));
    return outcomes;
}

}  // namespace tonemend
