#include "measure/comparison.h"

#include <algorithm>
#include <cmath>
#include <future>

#include "colour/difference.h"
#include "measure/region_warnings.h"

namespace tonemend {
namespace {

Difference difference_of(const Reading& original, const Reading& repair, const PairUncertainty& uncertainty) {
    Difference d;
    d.de2000 = ciede2000(original.lab, repair.lab).value;
    d.de2000_u95 = uncertainty.de2000_u95;
    d.lab_u95 = uncertainty.difference_u95;
    d.dL = repair.lab.L - original.lab.L;
    d.da = repair.lab.a - original.lab.a;
    d.db = repair.lab.b - original.lab.b;
    const double c1 = std::hypot(original.lab.a, original.lab.b), c2 = std::hypot(repair.lab.a, repair.lab.b);
    d.dC = c2 - c1;
    const double across =
        original.lab.a * repair.lab.b - repair.lab.a * original.lab.b;  // > 0: hue angle grew
    d.dH = std::copysign(std::sqrt(std::max(0.0, d.da * d.da + d.db * d.db - d.dC * d.dC)), across);
    const bool figured = original.figure_share > 0 && repair.figure_share > 0;
    d.ground_de2000 = figured ? ciede2000(original.ground, repair.ground).value : d.de2000;
    d.figure_de2000 = figured ? ciede2000(original.figure, repair.figure).value : d.de2000;
    return d;
}

}  // namespace

bool Comparison::unfit() const {
    return std::any_of(warnings.begin(), warnings.end(),
                       [](const Warning& warning) { return warning.unfit; });
}

void conclude(Comparison& comparison, const PairUncertainty& uncertainty) {
    comparison.original.lab_u95 = uncertainty.original_u95;
    comparison.repair.lab_u95 = uncertainty.repair_u95;
    comparison.difference = difference_of(comparison.original, comparison.repair, uncertainty);
    comparison.verdict =
        judge(comparison.difference.de2000, comparison.difference.de2000_u95, comparison.tolerance);
    comparison.direction =
        find_direction(comparison.original.lab, comparison.repair.lab, uncertainty.difference_u95);
}

Comparison compare_regions(const Frame& frame, const Calibration& calibration, const Region& original,
                           const Region& repair, double tolerance) {
    Comparison result;
    result.tolerance = tolerance;
    // The regions share nothing but what is only read, so the second core takes one of them.
    auto other = std::async(std::launch::async, [&] {
        return read_region(frame, calibration, repair, "--repair", SampleSide::repair);
    });
    result.original = read_region(frame, calibration, original, "--original", SampleSide::original);
    result.repair = other.get();
    conclude(result, propagate(calibration, result.original, result.repair));
    result.warnings = calibration.warnings;
    const auto more = warn_of_regions(calibration, result);
    result.warnings.insert(result.warnings.end(), more.begin(), more.end());
    std::stable_partition(result.warnings.begin(), result.warnings.end(),
                          [](const Warning& w) { return w.unfit; });
    return result;
}

}  // namespace tonemend
