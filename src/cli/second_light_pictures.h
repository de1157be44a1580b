#pragma once

#include "cli/second_light_options.h"

namespace tonemend {

/// One of the pictures, measured.
struct LightPicture {
    Frame frame;
    PairUnderOne pair;
};

/// Reads, calibrates and compares each picture as the options say; a region that is not given is carried over
/// from the first picture. Throws InputError: as read_picture, calibrate_on_card, carry_region and
/// compare_regions do.
std::vector<LightPicture> read_light_pictures(const SecondLightOptions& options);

}  // namespace tonemend
