#pragma once

#include <string>

#include "cli/terminal_summary.h"
#include "record/kit/area_plan.h"

namespace tonemend {

struct PlanTextOptions {
    double square_centimetres = 500;
    bool us = false;  ///< fluid ounces in place of millilitres
    Swatches swatches = Swatches::none;
};

/// The plan for people: how it stands, the best schedules step by step, what to do when a step comes out off,
/// what is missing, what earlier coats were foretold to do, cautions. Ends with a newline.
std::string say_plan(const AreaPlan& plan, const PlanTextOptions& options);

}  // namespace tonemend
