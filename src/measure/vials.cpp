#include "measure/vials.h"

#include <algorithm>
#include <cmath>

#include "colour/difference.h"

namespace tonemend {
namespace {

constexpr double fine_scale = 3.0, coarse_scale = 10.0;

Lab moved(const Lab& from, std::size_t axis, double by) {
    return {from.L + (axis == 0 ? by : 0), from.a + (axis == 1 ? by : 0), from.b + (axis == 2 ? by : 0)};
}

double tolerated_along(const Lab& original, std::size_t axis, double tolerance) {
    double low = 0, high = 50;
    for (int i = 0; i < 50; ++i) {
        const double middle = 0.5 * (low + high);
        (ciede2000(original, moved(original, axis, middle)).value < tolerance ? low : high) = middle;
    }
    return low;
}

}  // namespace

std::array<Vial, 3> draw_vials(const Comparison& comparison) {
    const Difference& d = comparison.difference;
    std::array<Vial, 3> vials{Vial{"lighter", "darker", "L*"}, Vial{"greener", "redder", "a*"},
                              Vial{"bluer", "yellower", "b*"}};
    const std::array<double, 3> differences{d.dL, d.da, d.db};
    const std::array<double, 3> to_the_right{-d.dL, d.da, d.db};
    double largest = 0;
    for (const double difference : differences) largest = std::max(largest, std::abs(difference));
    for (std::size_t k = 0; k < 3; ++k) {
        Vial& vial = vials[k];
        vial.scale = largest <= fine_scale ? fine_scale : coarse_scale;
        vial.difference = differences[k];
        vial.u95 = d.lab_u95[k];
        vial.bubble = std::clamp(to_the_right[k] / vial.scale, -1.0, 1.0);
        vial.bubble_half_width = std::min(1.0, vial.u95 / vial.scale);
        vial.line =
            std::min(1.0, tolerated_along(comparison.original.lab, k, comparison.tolerance) / vial.scale);
    }
    return vials;
}

}  // namespace tonemend
