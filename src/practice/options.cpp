#include "practice/options.h"

#include <fmt/format.h>

#include <algorithm>

#include "picture/input_error.h"
#include "practice/require_range.h"

namespace tonemend {

PracticeOptions accuracy_study(std::uint64_t seed) {
    PracticeOptions options;
    options.seed = seed;
    options.largest_black_level = 0.01;
    options.tone = CameraTone::mild_s_curve;
    return options;
}

void require_valid(const PracticeOptions& options) {
    require_range("width", options.width, 320, 20000);
    require_range("height", options.height, 240, 20000);
    require_range("grain strength", options.grain_strength, 0, 2);
    require_range("grain size", options.grain_size, 0.25, 10);
    require_range("streaks", options.streaks, 0, 0.9);
    require_range("difference", options.difference, 0, 60);
    require_range("smallest difference", options.smallest_difference, 0, options.largest_difference);
    require_range("largest difference", options.largest_difference, 0, 60);
    if (options.region_size) require_range("region size", *options.region_size, 1, 20000);
    require_range("second lamp's share", options.second_lamp_share, 0, 1);
    require_range("fall-off in percent", options.fall_off_percent, 0, 90);
    require_range("fall-off's direction", options.fall_off_direction, -360, 360);
    require_range("gloss in percent", options.repair_gloss_percent, 0, 50);
    require_range("original's gloss in percent", options.original_gloss_percent, 0, 50);
    require_range("lamp's direction", options.lamp_from, -360, 360);
    require_range("original's shimmer in percent", options.original_shimmer_percent, 0, 20);
    require_range("repair's shimmer in percent", options.repair_shimmer_percent, 0, 20);
    if (!options.lamp_from && std::max(options.original_shimmer_percent, options.repair_shimmer_percent) > 0)
        throw InputError(
            "practice picture: shimmer shows by the lamp's direction; say where the lamp stands "
            "(--lamp-from)");
    require_range("exposure", options.exposure, 0.05, 2);
    require_range("black level", options.black_level, 0, 0.2);
    require_range("largest black level", options.largest_black_level, 0, 0.2);
    require_range("S-curve's strength", options.s_curve, 0, 0.9);
    require_range("blur", options.blur, 0, 20);
    require_range("noise", options.noise, 0, 100);
    if (options.bits != 8 && options.bits != 16)
        throw InputError(fmt::format("practice picture: bits is {}; give 8 or 16", options.bits));
    require_range("JPEG quality", options.jpeg_quality, 1, 100);
    require_range("card's place across", options.card_x, 0, 1);
    require_range("card's place down", options.card_y, 0, 1);
    if (options.card_x.has_value() != options.card_y.has_value())
        throw InputError(
            "practice picture: the card's place is given by half; give both its shares, across and down");
    require_range("rotation", options.rotation, -360, 360);
    require_range("tilt", options.tilt, 0, 60);
    require_range("tilt's direction", options.tilt_direction, -360, 360);
    require_valid(options.faults);
    if (options.faults.lamp_gradient > 0 && options.second_lamp.empty())
        throw InputError("practice picture: a gradient between lamps needs two; name the second lamp");
}

}  // namespace tonemend
