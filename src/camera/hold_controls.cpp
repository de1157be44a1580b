#include "camera/hold_controls.h"

#include <cmath>

#include <fmt/format.h>

namespace tonemend {

namespace {

struct HeldControl {
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

ControlOutcome hold(CameraControls& camera, const HeldControl& control) {
    const auto refused = [&](const std::string& what) {
        return ControlOutcome{control.name, false, fmt::format("{}; {}", what, control.cure)};
    };
    const auto before = camera.read(control.value);
    const auto automatic = control.automatic ? camera.read(*control.automatic) : std::optional<double>();
    if (!before && !automatic) {
        if (control.value == tonemend_video_focus) return {control.name, true, "fixed by the lens"};
        return refused("the camera has no such control");
    }
    if (automatic.value_or(0) != 0) {
        camera.write(*control.automatic, 0);
        if (camera.read(*control.automatic).value_or(1) != 0) return refused("the camera stays automatic");
    }
    if (!before) return {control.name, true, "automatic is off"};
    // Some cameras jump to a default when automatic is switched off.
    camera.write(control.value, *before);
    const auto after = camera.read(control.value);
    if (!after || !near(*after, *before))
        return refused(fmt::format("the camera went from {:g} to {:g}", *before, after.value_or(0)));
    return {control.name, true, fmt::format("{:g}{}", *after, control.unit)};
}

}  // namespace

std::vector<ControlOutcome> hold_controls(CameraControls& camera) {
    const HeldControl controls[] = {
        {"exposure", "", tonemend_video_exposure_automatic, tonemend_video_exposure,
         "keep the light and the view as they are"},
        {"gain", "", std::nullopt, tonemend_video_gain, "keep the light as it is"},
        {"white balance", " K", tonemend_video_white_balance_automatic,
         tonemend_video_white_balance_temperature, "keep the card in the picture"},
        {"focus", "", tonemend_video_focus_automatic, tonemend_video_focus, "do not move the camera"},
    };
    std::vector<ControlOutcome> outcomes;
    for (const HeldControl& control : controls) outcomes.push_back(hold(camera, control));
    return outcomes;
}

}  // namespace tonemend
