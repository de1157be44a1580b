#include "live/held_light.h"

#include <algorithm>
#include <utility>

#include "calibrate/preflight/light_temperature.h"

namespace tonemend {
namespace {

PairUnderOne pair_of(const char* name, const Frame& frame,
                     const std::shared_ptr<const Calibration>& calibration, const Comparison& comparison,
                     const std::optional<StatedLight>& stated) {
    KnownLight light{stated ? stated->text : name, stated, temperature_of_white(frame, *calibration)};
    return {std::move(light), calibration, comparison};
}

bool is_another(const HeldLight& held, const PictureLight& now, const std::optional<StatedLight>& stated) {
    const auto& before = held.pair.light.stated;
    if (before && stated && before->text != stated->text) return true;
    const std::vector<Warning> warnings = compare_light(held.light, now);
    return std::any_of(warnings.begin(), warnings.end(),
                       [](const Warning& warning) { return warning.code == "light-changed"; });
}

}  // namespace

std::shared_ptr<const HeldLight> hold_light(const Frame& frame,
                                            const std::shared_ptr<const Calibration>& calibration,
                                            const Comparison& comparison,
                                            const std::optional<StatedLight>& stated) {
    return std::make_shared<const HeldLight>(HeldLight{
        pair_of("light one", frame, calibration, comparison, stated), light_of(frame, *calibration)});
}

PairUnderLights under_both(const HeldComparison& held, const Frame& frame,
                           const std::shared_ptr<const Calibration>& calibration,
                           const Comparison& comparison) {
    return {
        {held.first->pair, pair_of("light two", frame, calibration, comparison, calibration->stated.light)},
        {*held.change},
        {}};
}

HeldComparison compare_with_held(const std::shared_ptr<const HeldLight>& held, LampSaid said,
                                 const Frame& frame, const std::shared_ptr<const Calibration>& calibration,
                                 const Comparison& comparison, const std::optional<StatedLight>& stated) {
    HeldComparison result{held, std::nullopt, comparison.difference.de2000, comparison.difference.de2000_u95};
    if (said == LampSaid::changed || is_another(*held, light_of(frame, *calibration), stated))
        result.change =
            compare_lights(held->pair, pair_of("this light", frame, calibration, comparison, stated));
    return result;
}

}  // namespace tonemend
