#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "camera/practice_settings.h"

namespace tonemend {

/// What a person can change on the practice bench while it runs; each counts through a short list.
struct PracticeKnobs {
    std::size_t lamp = 0;    ///< index into practice_lamps
    std::size_t coat = 0;    ///< index into practice_coats
    std::size_t tilt = 0;    ///< index into practice_tilts
    bool wet = false;        ///< the repair under a film of liquid
    std::size_t camera = 0;  ///< index into practice_cameras
};

struct PracticeLamp {
    std::string_view lamp;  ///< as read_lamp takes it
    std::string_view word;
};
inline constexpr std::array practice_lamps{PracticeLamp{"CIE-D65", "daylight"},
                                           PracticeLamp{"led:4000", "LED"},
                                           PracticeLamp{"planckian:2856", "tungsten"}};
/// ΔE2000 of the repair's long-run mean from the original's after each coat.
inline constexpr std::array practice_coats{6.0, 3.0, 1.5, 0.3};
/// Degrees of the card out of the picture's plane.
inline constexpr std::array practice_tilts{0.0, 10.0, 25.0};
/// What the camera or its light does wrong.
inline constexpr std::array<std::string_view, 5> practice_cameras{"no fault", "bright", "uneven", "grainy",
                                                                  "flicker"};

/// The live bench with the knobs as they stand.
PracticeSettings to_settings(const PracticeKnobs& knobs);

}  // namespace tonemend
