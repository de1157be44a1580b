// What the overlays' double-precision side says of itself: published sources are named at each check.
#include <cmath>

#include "colour/difference.h"
#include "colour/rgb_space.h"
#include "live/overlay_calibration.h"
#include "live/overlay_colours.h"
#include "live/overlay_math.h"
#include "live/overlay_pixel.h"
#include "measure/glare.h"
#include "picture/linear_picture.h"
#include "picture/standard_encodings.h"
#include "tests/catch.h"
#include "tests/support/check_tight.h"

using namespace tonemend;

namespace {

Vector3 linear_srgb(const XYZ& colour) {
    return inverse(rgb_to_xyz_d50(srgb)) * Vector3{colour.X, colour.Y, colour.Z};
}

// Dichromatic sight of linear RGB (Viénot, Brettel, Mollon, Color Res. Appl. 24 (1999) 243, the matrices from
// memory).
enum class Missing { long_cones, middle_cones };
Vector3 as_seen_without(Missing missing, const Vector3& rgb) {
    const Matrix3 to_lms{
        {{{17.8824, 43.5161, 4.11935}, {3.45565, 27.1554, 3.86714}, {0.0299566, 0.184309, 1.46709}}}};
    Vector3 lms = to_lms * rgb;
    if (missing == Missing::long_cones)
        lms[0] = 2.02344 * lms[1] - 2.52581 * lms[2];
    else
        lms[1] = 0.494207 * lms[0] + 1.24827 * lms[2];
    return inverse(to_lms) * lms;
}

Lab lab_of_linear(const Vector3& rgb) {
    const Vector3 xyz = rgb_to_xyz_d50(srgb) * rgb;
    return to_lab({xyz[0], xyz[1], xyz[2]}, d50_icc);
}

}  // namespace

TEST_CASE(
    "The map of amounts lies in sRGB, and equal steps of it are equal steps of CIELAB that only grow "
    "lighter") {
    double before = -1;
    const double step = delta_e_76(to_lab(amount_colour(0), d50_icc), to_lab(amount_colour(0.05), d50_icc));
    for (int i = 0; i <= 20; ++i) {
        const Lab lab = to_lab(amount_colour(i / 20.0), d50_icc);
        CHECK(lab.L > before + 3);
        before = lab.L;
        if (i > 0)
            CHECK(delta_e_76(lab, to_lab(amount_colour((i - 1) / 20.0), d50_icc)) ==
                  Approx(step).epsilon(1e-9));
        for (const double channel : linear_srgb(amount_colour(i / 20.0))) CHECK((channel > 0 && channel < 1));
    }
    CHECK(to_lab(amount_colour(-3), d50_icc).L == Approx(22));
    CHECK(to_lab(amount_colour(3), d50_icc).L == Approx(92));
}

TEST_CASE("Eyes without long or middle cones still see eleven marks of each map apart and in order") {
    for (const Missing missing : {Missing::long_cones, Missing::middle_cones}) {
        double least = 1e9, least_both = 1e9;
        Lab before{}, before_both{};
        for (int i = 0; i <= 10; ++i) {
            const Lab lab = lab_of_linear(as_seen_without(missing, linear_srgb(amount_colour(i / 10.0))));
            const Lab both =
                lab_of_linear(as_seen_without(missing, linear_srgb(departure_colour(i / 5.0 - 1))));
            if (i > 0) {
                CHECK(lab.L > before.L);
                least = std::fmin(least, delta_e_76(lab, before));
                least_both = std::fmin(least_both, delta_e_76(both, before_both));
            }
            before = lab, before_both = both;
        }
        std::printf("  least ΔE*ab between marks: amounts %.2f, departures %.2f\n", least, least_both);
        CHECK(least > 9);
        CHECK(least_both > 8);
        // The two ends of a departure are told apart, not only from the middle.
        const Lab low = lab_of_linear(as_seen_without(missing, linear_srgb(departure_colour(-1))));
        const Lab high = lab_of_linear(as_seen_without(missing, linear_srgb(departure_colour(1))));
        CHECK(delta_e_76(low, high) > 50);
    }
}

TEST_CASE("A legend's marks carry the colours that the map gives their values") {
    const auto stops = difference_legend(8, 5);
    REQUIRE(stops.size() == 5);
    CHECK(stops.front().value == 0);
    CHECK(stops.back().value == 8);
    CHECK(stops[1].value == 2);
    CHECK(stops[1].colour.Y == amount_colour(0.25).Y);
    const auto both = departure_legend(0.2, 5);
    REQUIRE(both.size() == 5);
    CHECK(both[0].value == -0.2);
    CHECK(both[2].value == 0);
    CHECK(to_lab(both[2].colour, d50_icc).L == Approx(88));
}

TEST_CASE(
    "The curves of codes agree with the light that readings are made from, at 8 and at 16 bits, calibrated "
    "or not") {
    Calibration calibration;
    for (std::size_t c = 0; c < 3; ++c) {
        std::vector<CurvePoint> points;
        for (const double truth : {0.9, 0.6, 0.36, 0.19, 0.09, 0.03}) {
            CurvePoint point;
            point.truth = truth;
            point.seen = 0.01 + 0.8 * std::pow(truth, 1.1 + 0.02 * static_cast<double>(c));
            points.push_back(point);
        }
        calibration.curves[c] = ToneCurve(points);
    }
    calibration.characterisation.model = ColourModel::of_matrix(rgb_to_xyz_d50(srgb));
    for (const bool calibrated : {false, true}) {
        Frame frame;
        frame.width = 256, frame.height = 256, frame.type = SampleType::uint16;
        frame.encoding = srgb_encoding(Provenance::stated);
        frame.samples.resize(65536 * 6);
        auto* codes = reinterpret_cast<std::uint16_t*>(frame.samples.data());
        for (std::size_t i = 0; i < 3 * 65536; ++i) codes[i] = static_cast<std::uint16_t>(i / 3);
        const ChannelCurves curves = calibration.channel_curves();
        const LinearPicture truth = linear_light(frame, {0, 0, 256, 256}, calibrated ? &curves : nullptr);
        const CodeCurves ours = make_code_curves(frame.encoding, calibrated ? &calibration : nullptr);
        double worst = 0, worst8 = 0;
        for (std::size_t code = 0; code < 65536; ++code) {
            const double at = static_cast<double>(code) / 65535;
            const Vector3 light = ours.light_of({at, at, at});
            for (std::size_t c = 0; c < 3; ++c) {
                const double error = std::abs(light[c] - static_cast<double>(truth.rgb[3 * code + c]));
                worst = std::fmax(worst, error);
                if (code % 257 == 0) worst8 = std::fmax(worst8, error);
            }
        }
        check_tight("16 bits, share of white", worst, calibrated ? 1e-6 : 5e-7);
        CHECK(worst8 < 1e-7);  // every 8-bit code meets an entry
    }
}

TEST_CASE("A code beyond the range is held at its end, and one that is no number gives none") {
    const CodeCurves curves = make_code_curves(srgb_encoding(Provenance::stated), nullptr);
    CHECK(curves.light_of({-1, 2, 0.5})[0] == 0);
    CHECK(curves.light_of({-1, 2, 0.5})[1] == Approx(1));
    CHECK(std::isnan(curves.light_of({NAN, 0, 0})[0]));
    CHECK(std::isnan(curves.light_of({0, INFINITY, 0})[1]));
    CHECK_FALSE(has_value({0, NAN, 0}));
    CHECK_FALSE(has_value({0, 0, -INFINITY}));
    CHECK(has_value({-5, 0, 1e30}));
}

TEST_CASE("Clipping is what a reading rejects: the top of any channel before the bottom of another") {
    CHECK(clipping_of({0.5, 0.5, 0.5}) == Clipping::none);
    CHECK(clipping_of({0.5, 0, 0.5}) == Clipping::dark);
    CHECK(clipping_of({1, 0, 0.5}) == Clipping::bright);
    CHECK(clipping_of({254.0 / 255, 1.0 / 255, 0.5}) == Clipping::none);
}

TEST_CASE("The excess of neutral light is 1 exactly where a reading rejects the pixel as glare") {
    // Wood with a veil that grows from left to right.
    RegionPixels pixels;
    pixels.picture.window = {0, 0, 400, 10};
    pixels.used = 4000;
    pixels.state.assign(4000, PixelState::used);
    for (int i = 0; i < 4000; ++i) {
        const float grain = 1 + 0.02F * static_cast<float>(i * 37 % 11 - 5) / 5;
        const float veil = i % 400 > 300 ? static_cast<float>(i % 400 - 300) * 0.001F : 0.0F;
        for (const float colour : {0.42F, 0.25F, 0.13F}) pixels.picture.rgb.push_back(colour * grain + veil);
    }
    const GlareGauge gauge = gauge_glare(pixels);
    const std::size_t marked = mark_glare(pixels, gauge);
    CHECK(marked > 500);
    CHECK(marked < 1000);
    for (std::size_t i = 0; i < 4000; ++i) {
        const float* rgb = pixels.picture.rgb.data() + 3 * i;
        const double excess = neutral_excess(
            gauge, {static_cast<double>(rgb[0]), static_cast<double>(rgb[1]), static_cast<double>(rgb[2])});
        // Single precision may settle a pixel on the very limit either way.
        if (std::abs(excess - 1) > 1e-4) REQUIRE((excess > 1) == (pixels.state[i] == PixelState::glare));
    }
    CHECK(neutral_excess(gauge, {0, 0, 0}) == 0);
}

TEST_CASE(
    "Light on the plane departs by nothing, ten per cent more by a tenth, and where no light can be, nothing "
    "is said") {
    const LightPlane plane{0.4, 100, 50, 0.001, -0.002};
    // L* 50 is the luminance 0.184187 (CIE 15:2018, 8.2.1: ((50 + 16) / 116)³).
    CHECK(lightness_over(50, 0.1841865185) == Approx(0).margin(1e-6));
    CHECK(lightness_over(30, 0.1841865185) == Approx(20).margin(1e-6));
    CHECK(light_departure(plane, 0.4, 100, 50) == 0);
    CHECK(light_departure(plane, 0.4 * 1.1, 200, 50) == Approx(0).margin(1e-12));
    CHECK(light_departure(plane, 0.44, 100, 50) == Approx(0.1));
    CHECK(light_departure(plane, 0.4, 100, 1000) == 0);
}

TEST_CASE("The figure overlay parts ground from figure where the reading did") {
    const FigureGauge gauge{{0.3, 0.6, 0.1}, 0.2};
    CHECK(is_figure(gauge, {0.1, 0.1, 0.1}));
    CHECK_FALSE(is_figure(gauge, {0.3, 0.3, 0.3}));
    CHECK_FALSE(is_figure(FigureGauge{}, {0, 0, 0}));  // plain wood is all ground
}
