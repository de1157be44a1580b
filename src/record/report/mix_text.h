#pragma once

#include "record/report/report_options.h"
#include "record/store/job_types.h"

namespace tonemend {

/// A US fluid ounce in millilitres (NIST Special Publication 811, appendix B.8: 29.573 53).
inline constexpr double ml_in_us_fluid_ounce = 29.57353;
/// How much a recipe makes: millilitres, or US fluid ounces.
inline constexpr double metric_batch_ml = 100, us_batch_fluid_ounces = 4;

/// How a step's colourant is thinned, by volume: "2 parts alcohol to 1 part walnut dye. For 100 ml: 66.7 ml
/// alcohol, 33.3 ml walnut dye", in US units "For 4 fl oz: 2.67 fl oz (79 ml) …". "undiluted" where no
/// thinner is in it; empty when nothing is said; what is no dilution is given as it was written.
std::string mix_text(const FinishingStep& step, Units units);

}  // namespace tonemend
