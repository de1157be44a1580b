#pragma once

#include "measure/comparison.h"
#include "tests/support/painted_frame.h"

namespace tonemend::testing {

/// A painted scene of 360 × 240 pixels: a row of neutral steps along the top, 60 pixels high, below it the
/// original on the left and the repair on the right.
struct BenchScene {
    std::vector<double> steps{0.88, 0.55, 0.32, 0.17, 0.08, 0.035};
    std::function<Lab(int, int)> wood = [](int x, int) {
        return x < 180 ? Lab{52, 14, 27} : Lab{48, 16, 25};
    };
    std::function<double(int, int)> light = [](int, int) { return 1.0; };
    Region original = rectangle({10, 80, 150, 150}), repair = rectangle({200, 80, 150, 150});

    static constexpr Quad card_corners{Point{0, 0}, Point{360, 0}, Point{360, 60}, Point{0, 60}};

    Frame frame() const {
        const Card card = neutral_card(steps);
        return paint_frame(360, 240, [&](int x, int y) {
            const std::size_t step =
                std::min(static_cast<std::size_t>(x) * steps.size() / 360, steps.size() - 1);
            const Lab lab = y < 60 ? card.patches[step].lab : wood(x, y);
            const XYZ xyz = to_xyz(lab, d50_icc);
            const double l = light(x, y);
            return to_lab({l * xyz.X, l * xyz.Y, l * xyz.Z}, d50_icc);
        });
    }
    Comparison compare() const {
        const Frame picture = frame();
        return compare_regions(picture, calibrate_on_card(picture, neutral_card(steps), card_corners),
                               original, repair);
    }
};

inline const Warning* find_warning(const std::vector<Warning>& warnings, const std::string& code) {
    for (const Warning& warning : warnings) {
        if (warning.code == code) return &warning;
    }
    return nullptr;
}

}  // namespace tonemend::testing
