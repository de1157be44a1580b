#pragma once

#include <string>

#include "record/kit/area_plan.h"

namespace tonemend {

/// The plan as the "tonemend.plan/1" object that DEVELOPERS.md describes. Ends with a newline.
std::string plan_json(const AreaPlan& plan, double square_centimetres);

}  // namespace tonemend
