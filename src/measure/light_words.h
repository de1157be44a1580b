#pragma once

#include <string>
#include <string_view>

#include "measure/second_light.h"

namespace tonemend {

/// How the pair moves when the light changes, as a person at the bench would say it: "Under old bulb the
/// repair goes redder by 1.8, then darker by 0.6." Only what stands out of its own 95 % half width and is 0.1
/// or more is named, largest first; if nothing does, it says so.
std::string say_shift(const LightChange& change, const std::string& second_light);

/// What the verdict means and what to do, one sentence.
std::string say_verdict(const LightChange& change, const PairUnderOne& first, const PairUnderOne& second);

/// What no camera can tell about a match in another light; one line.
std::string_view beyond_the_camera();

}  // namespace tonemend
