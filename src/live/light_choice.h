#pragma once

#include <array>
#include <string>
#include <string_view>

#include "calibrate/model/repair_colourants.h"

namespace tonemend {

/// A value as a control shows it: whole, and where room is short.
struct ControlWords {
    std::string whole, brief;
};

/// One of the lights that a key goes through.
struct LightChoice {
    std::string_view light;  ///< as parse_light takes it; empty: not stated
    std::string_view whole, brief;
};
inline constexpr std::array light_choices{LightChoice{"", "light unknown", "light ?"},
                                          LightChoice{"daylight:6500", "daylight 6500", "6500 K"},
                                          LightChoice{"daylight:5000", "daylight 5000", "5000 K"},
                                          LightChoice{"led:4000", "LED 4000", "LED 4000"},
                                          LightChoice{"led:2700", "LED 2700", "LED 2700"},
                                          LightChoice{"planckian:2856", "bulb 2856", "bulb"}};

/// The choice after `light`, around; the first one after a light that is none of them.
std::string light_after(const std::string& light);
/// Of a light that is none of the choices: as it was stated.
ControlWords light_words(const std::string& light);

/// Same, earth, other, around.
RepairColourants next(RepairColourants colourants);
ControlWords colourants_words(RepairColourants colourants);

}  // namespace tonemend
