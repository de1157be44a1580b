#include "practice/options.h"

#include <fmt/format.h>

#include "picture/input_error.h"

namespace tonemend {

namespace {

void require(const char* option, double value, double low, double high) {
    if (!(value >= low && value <= high))
        throw InputError(fmt::format("practice picture: {} is {}; give {} to {}", option, value, low, high));
}

void require(const char* option, const std::optional<double>& value, double low, double high) {
    if (value) require(option, *value, low, high);
}

}  // namespace

PracticeOptions accuracy_study(std::uint64_t seed) {
    PracticeOptions options;
    options.seed = seed;
    options.largest_black_level = 0.01;
    options.tone = CameraTone::mild_s_curve;
    return options;
}

void require_valid(const PracticeOptions& options) {
    require("width", options.width, 320, 20000);
    require("height", options.height, 240, 20000);
    require("grain strength", options.grain_strength, 0, 2);
    require("grain size", options.grain_size, 0.25, 10);
    require("streaks", options.streaks, 0, 0.9);
    require("difference", options.difference, 0, 60);
    require("smallest difference", options.smallest_difference, 0, options.largest_difference);
    require("largest difference", options.largest_difference, 0, 60);
    if (options.region_size) require("region size", *options.region_size, 1, 20000);
    require("second lamp's share", options.second_lamp_share, 0, 1);
    require("fall-off in percent", options.fall_off_percent, 0, 90);
    require("fall-off's direction", options.fall_off_direction, -360, 360);
    require("gloss in percent", options.repair_gloss_percent, 0, 50);
    require("exposure", options.exposure, 0.05, 2);
    require("black level", options.black_level, 0, 0.2);
    require("largest black level", options.largest_black_level, 0, 0.2);
    require("S-curve's strength", options.s_curve, 0, 0.9);
    require("blur", options.blur, 0, 20);
    require("noise", options.noise, 0, 100);
    if (options.bits != 8 && options.bits != 16)
        throw InputError(fmt::format("practice picture: bits is {}; give 8 or 16", options.bits));
    require("JPEG quality", options.jpeg_quality, 1, 100);
    require("rotation", options.rotation, -360, 360);
    require("tilt", options.tilt, 0, 60);
    require("tilt's direction", options.tilt_direction, -360, 360);
}

}  // namespace tonemend
