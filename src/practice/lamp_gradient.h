#pragma once

#include "practice/scene.h"

namespace tonemend {

/// The scene as it would look if `lamp`, one of the scene's two, gave all of the scene's luminance: other
/// light on everything, the camera's settings as they are.
PracticeScene relit(const PracticeScene& scene, const std::string& lamp);

/// The second lamp's share of the luminance at column `x` (0: left edge): the scene's share in the middle,
/// more to the right by the scene's gradient, held to 0..1.
double second_share_at(const PracticeScene& scene, double x);

}  // namespace tonemend
