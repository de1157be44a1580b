#include "calibrate/tone/tone_curve.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "colour/srgb_curve.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

// Six reflectances, from a light grey to a dark one: our own choice, about even in lightness.
const std::vector<double> reflectances{0.88, 0.55, 0.32, 0.17, 0.08, 0.035};

std::vector<CurvePoint> seen_through(const auto& camera) {
    std::vector<CurvePoint> points;
    for (const double truth : reflectances) points.push_back({camera(truth), truth});
    return points;
}

double lightness_error(double measured, double truth) {
    const auto lightness = [](double y) { return 116.0 * std::cbrt(std::max(y, 0.0)) - 16.0; };
    return std::abs(lightness(measured) - lightness(truth));
}

double worst_lightness_error(const ToneCurve& curve, const auto& camera, double low, double high) {
    double worst = 0;
    for (int i = 0; i <= 1000; ++i) {
        const double truth = low + (high - low) * i / 1000.0;
        worst = std::max(worst, lightness_error(curve(camera(truth)), truth));
    }
    return worst;
}

// A camera that lifts black by 1 % and bends its tones into a mild S before the sRGB curve is taken off
// again.
double s_curve(double light) {
    const double encoded = encode_srgb((light + 0.01) / 1.01);
    const double bent =
        encoded + 0.06 * std::sin(2 * 3.14159265358979 * (encoded - 0.1)) * encoded * (1 - encoded) * 2;
    return decode_srgb(bent);
}

}  // namespace

TEST_CASE("One step gives a gain, and black at the level that is known") {
    const ToneCurve curve({{0.1, 0.18}}, 0.01);
    CHECK(curve.kind() == CurveKind::gain);
    CHECK(curve(0.1) == Approx(0.18).epsilon(1e-12));
    CHECK(curve(0.01) == Approx(0.0).margin(1e-12));
}

TEST_CASE("Three steps recover the offset and gain of a linear camera exactly") {
    const auto camera = [](double light) { return 0.02 + 0.6 * light; };
    const ToneCurve curve({{camera(0.9), 0.9}, {camera(0.18), 0.18}, {camera(0.04), 0.04}});
    CHECK(curve.kind() == CurveKind::offset_and_gain);
    CHECK(curve.offset() == Approx(0.02).epsilon(1e-9));
    CHECK(1.0 / curve.gain() == Approx(0.6).epsilon(1e-9));
    for (const double light : {0.0, 0.3, 1.0, 1.4}) CHECK(curve(camera(light)) == Approx(light).margin(1e-9));
}

TEST_CASE("Six steps of a linear camera leave no correction over the line") {
    const auto camera = [](double light) { return 0.013 + 0.7 * light; };
    const ToneCurve curve(seen_through(camera));
    CHECK(curve.kind() == CurveKind::monotone);
    CHECK(worst_lightness_error(curve, camera, 0.003, 1.0) < 1e-4);
    for (const double miss : curve.leave_one_out()) CHECK(std::abs(miss) < 1e-6);
}

TEST_CASE("Six steps undo a mild unknown S-curve with a lifted black") {
    const ToneCurve curve(seen_through(s_curve));
    const double within = worst_lightness_error(curve, s_curve, 0.035, 0.88);
    const double below = worst_lightness_error(curve, s_curve, 0.02, 0.035);
    const double uncorrected = lightness_error(s_curve(0.3), 0.3);
    INFO("worst L* error within the steps " << within << ", below the darkest " << below << ", uncorrected "
                                            << uncorrected);
    CHECK(within < 0.12);
    CHECK(within > 0.12 / 4);
    CHECK(below < 1.2);
    CHECK(uncorrected > 4 * within);
}

TEST_CASE("A tone curve passes through every step and rises everywhere") {
    for (const double bend : {0.5, 0.8, 1.3, 2.0}) {
        const auto camera = [bend](double light) { return std::pow(light, bend); };
        const ToneCurve curve(seen_through(camera));
        for (const double truth : reflectances) CHECK(curve(camera(truth)) == Approx(truth).epsilon(1e-9));
        double last = -1;
        for (int i = 0; i <= 2000; ++i) {
            const double value = curve(i / 2000.0 * 1.5);
            CHECK(value > last);
            last = value;
        }
    }
}

TEST_CASE("Steps that do not darken in order are recognised") {
    CHECK(steps_in_order({{0.1, 0.2}, {0.3, 0.5}, {0.2, 0.3}}));
    CHECK_FALSE(steps_in_order({{0.1, 0.2}, {0.3, 0.5}, {0.4, 0.3}}));
    CHECK_FALSE(steps_in_order({{0.1, 0.2}, {0.1, 0.5}}));
    CHECK_FALSE(steps_in_order({{0.1, 0.2}, {0.3, 0.2}}));
}
