#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <vector>

#include "measure/normal_draws.h"
#include "measure/reading.h"
#include "measure/uncertainty.h"
#include "tests/catch.h"
#include "tests/support/painted_frame.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

const std::vector<double> card_steps{0.88, 0.55, 0.32, 0.17, 0.08, 0.035};

Lab paint_even_scene(int x, int y) {
    if (y < 60) return neutral_card(card_steps).patches[static_cast<std::size_t>(std::min(x / 60, 5))].lab;
    return x < 180 ? Lab{52, 14, 27} : Lab{46, 17, 25};
}

// What is uncertain in this test: the card as a whole, the black level, two coefficients of the camera's
// model, and the noise of each region's three channels; standard normal numbers, one each.
constexpr std::size_t inputs_count = 1 + 1 + 2 + 3 + 3;
using Inputs = std::array<double, inputs_count>;
constexpr double card_u = 0.01, black_u = 0.001, noise_u = 0.0015;

Calibration uncertain_calibration(const Frame& frame) {
    Calibration calibration =
        calibrate_on_card(frame, neutral_card(card_steps), Quad{{{0, 0}, {360, 0}, {360, 60}, {0, 60}}});
    calibration.uncertainty = {0, card_u, 0, black_u};
    calibration.light = {};
    calibration.coding = {};
    Characterisation& model = calibration.characterisation;
    model.contrast = 0;
    model.unexplained = {};
    model.doubt.assign(2, {});
    model.doubt[0].linear.m[0] = {0.02, -0.02, 0};
    model.doubt[1].linear.m[2] = {0, -0.03, 0.03};
    return calibration;
}

// CIELAB of original and repair when the inputs are off by so many standard uncertainties.
std::array<double, 6> colours(const Calibration& calibration, const Reading& original, const Reading& repair,
                              const Inputs& off) {
    std::array<double, 6> result{};
    for (const std::size_t which : {0U, 1U}) {
        const Vector3& mean = (which == 0 ? original : repair).sampled.mean;
        Vector3 rgb{};
        for (std::size_t c = 0; c < 3; ++c)
            rgb[c] = (mean[c] + noise_u * off[4 + 3 * which + c]) * (1 + card_u * off[0]) +
                     black_u * off[1] * (1 - mean[c]);
        XYZ xyz = calibration.to_xyz(rgb);
        const Vector3 working = calibration.characterisation.model.to_working * rgb;
        xyz.X += off[2] * 0.02 * (working[0] - working[1]);
        xyz.Z += off[3] * 0.03 * (working[2] - working[1]);
        const Lab lab = to_lab(xyz, d50_icc);
        result[3 * which] = lab.L, result[3 * which + 1] = lab.a, result[3 * which + 2] = lab.b;
    }
    return result;
}

// Original, repair, and repair − original, each along L*, a*, b*.
std::array<double, 9> with_difference(const std::array<double, 6>& lab) {
    return {lab[0], lab[1],          lab[2],          lab[3],         lab[4],
            lab[5], lab[3] - lab[0], lab[4] - lab[1], lab[5] - lab[2]};
}

}  // namespace

TEST_CASE("Intervals agree with linear propagation and with 100,000 draws within 5 %") {
    const Frame frame = paint_frame(360, 240, paint_even_scene);
    const Calibration calibration = uncertain_calibration(frame);
    Reading original = read_region(frame, calibration, rectangle({10, 80, 150, 150}), "--original");
    Reading repair = read_region(frame, calibration, rectangle({200, 80, 150, 150}), "--repair");
    for (Reading* reading : {&original, &repair}) {
        reading->sampled.covariance = {};
        for (std::size_t c = 0; c < 3; ++c) reading->sampled.covariance.m[c][c] = noise_u * noise_u;
    }
    const auto at = [&](const Inputs& off) {
        return with_difference(colours(calibration, original, repair, off));
    };
    const std::array<double, 9> middle = at({});

    // JCGM 100:2008, equation (10): u² is the sum of (∂f/∂x · u(x))²; k = 1.96 for 95 % of a normal number.
    std::array<double, 9> linear{};
    for (std::size_t input = 0; input < inputs_count; ++input) {
        Inputs up{}, down{};
        up[input] = 1e-3, down[input] = -1e-3;
        const auto high = at(up), low = at(down);
        for (std::size_t k = 0; k < 9; ++k) linear[k] += std::pow((high[k] - low[k]) / 2e-3, 2);
    }
    for (double& u : linear) u = 1.959964 * std::sqrt(u);

    // JCGM 101:2008, 7: the model at 100,000 draws of all inputs.
    constexpr std::size_t draws = 100'000;
    NormalDraws normal(7);
    std::array<std::vector<double>, 9> distances;
    for (std::size_t i = 0; i < draws; ++i) {
        Inputs off{};
        for (double& value : off) value = normal();
        const auto drawn = at(off);
        for (std::size_t k = 0; k < 9; ++k) distances[k].push_back(std::abs(drawn[k] - middle[k]));
    }

    const PairUncertainty stated = propagate(calibration, original, repair);
    for (std::size_t k = 0; k < 9; ++k) {
        const auto place = distances[k].begin() + static_cast<std::ptrdiff_t>(0.95 * draws);
        std::nth_element(distances[k].begin(), place, distances[k].end());
        const double library = k < 3   ? stated.original_u95[k]
                               : k < 6 ? stated.repair_u95[k - 3]
                                       : stated.difference_u95[k - 6];
        CAPTURE(k, linear[k], *place, library);
        CHECK(linear[k] == Approx(*place).epsilon(0.05));
        CHECK(library == Approx(*place).epsilon(0.05));
    }
}
