// What a picture style leaves to be seen on greys and on colours; the pictures are painted, so it is exact.
#include <cmath>

#include "calibrate/preflight/colours_style.h"
#include "calibrate/preflight/exposure.h"
#include "calibrate/preflight/steps_tint.h"
#include "tests/catch.h"
#include "tests/support/painted_frame.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

// Patches side by side over the whole of 480 × 40 pixels, each painted as `shown` says.
struct Strip {
    Card card;

    Calibration calibrate(const std::function<Lab(const Patch&)>& shown) const {
        return calibrate_on_card(frame(shown), card,
                                 Quad{Point{0, 0}, Point{480, 0}, Point{480, 40}, Point{0, 40}});
    }
    Frame frame(const std::function<Lab(const Patch&)>& shown) const {
        return paint_frame(480, 40, [&](int x, int) {
            const std::size_t index = static_cast<std::size_t>(x) * card.patches.size() / 480;
            return shown(card.patches[index]);
        });
    }
};

Strip greys() {
    return {neutral_card({0.90, 0.55, 0.34, 0.18, 0.085, 0.035})};
}

Strip greys_and_colours() {
    Strip strip{neutral_card({0.90, 0.55, 0.34, 0.18, 0.085, 0.035, 0.2, 0.2, 0.2, 0.2})};
    const std::array<Lab, 4> colours{Lab{50, 25, 5}, Lab{55, 5, 30}, Lab{45, -22, 8}, Lab{45, 2, -25}};
    for (std::size_t i = 0; i < colours.size(); ++i) strip.card.patches[6 + i].lab = colours[i];
    return strip;
}

}  // namespace

TEST_CASE("A cast that all greys share is white balance, not a tint") {
    const Strip strip = greys();
    const auto cast = [](const Patch& patch) {
        XYZ xyz = to_xyz(patch.lab, d50_icc);
        xyz.X *= 0.8 * 1.04, xyz.Y *= 0.8, xyz.Z *= 0.8 * 0.85;
        return to_lab(xyz, d50_icc);
    };
    const auto tint = tint_of_steps(strip.frame(cast), strip.calibrate(cast));
    REQUIRE(tint);
    CHECK(*tint < 0.3);
}

TEST_CASE("Greys that turn yellow in the lights and blue in the shadows are a tint, with its size") {
    const Strip strip = greys();
    const auto toned = [](const Patch& patch) { return Lab{patch.lab.L, 0, (patch.lab.L - 50) / 10}; };
    const Calibration calibration = strip.calibrate(toned);
    const auto tint = tint_of_steps(strip.frame(toned), calibration);
    REQUIRE(tint);
    // b* runs from −2.8 to 4.6; the gain takes a middle, so the ends stand off by half of that or somewhat
    // more.
    CHECK(*tint > 2.5);
    CHECK(*tint < 7.4);
    const auto warning = warn_of_tint(strip.frame(toned), calibration);
    REQUIRE(warning);
    CHECK(warning->code == "steps-tinted");
}

TEST_CASE("Saturation and hue of a style are measured on coloured patches") {
    const Strip strip = greys_and_colours();
    const auto plain = find_colour_style(strip.calibrate([](const Patch& patch) { return patch.lab; }));
    REQUIRE(plain);
    CHECK(std::abs(plain->saturation - 1) < 0.01);
    CHECK(std::abs(plain->hue_degrees) < 0.5);
    const double turn = 15 * std::acos(-1.0) / 180;
    const auto styled = [turn](const Patch& patch) {
        const auto [L, a, b] = patch.lab;
        return Lab{L, 1.3 * (a * std::cos(turn) - b * std::sin(turn)),
                   1.3 * (a * std::sin(turn) + b * std::cos(turn))};
    };
    const Calibration calibration = strip.calibrate(styled);
    const auto style = find_colour_style(calibration);
    REQUIRE(style);
    CHECK(std::abs(style->saturation - 1.3) < 0.02);
    CHECK(std::abs(style->hue_degrees - 15) < 1);
    CHECK(warn_of_styled_colours(calibration));
}

TEST_CASE("Saturation cannot be seen on neutral steps alone, and nothing is said of it") {
    const Calibration calibration = greys().calibrate([](const Patch& patch) { return patch.lab; });
    CHECK_FALSE(find_colour_style(calibration));
    CHECK_FALSE(warn_of_styled_colours(calibration));
}

TEST_CASE("White at a fifth of the range is underexposed by 2.3 stops, at a half it is not") {
    const Strip strip = greys();
    const auto exposed = [](double exposure) {
        return [exposure](const Patch& patch) {
            const XYZ xyz = to_xyz(patch.lab, d50_icc);
            return to_lab({exposure * xyz.X, exposure * xyz.Y, exposure * xyz.Z}, d50_icc);
        };
    };
    const Calibration dark = strip.calibrate(exposed(0.2));
    CHECK(std::abs(recorded_white(dark) - 0.2) < 0.005);
    const auto warning = warn_of_underexposure(dark);
    REQUIRE(warning);
    CHECK(warning->code == "underexposed");
    CHECK(warning->text.find("2.3 stops") != std::string::npos);
    CHECK_FALSE(warn_of_underexposure(strip.calibrate(exposed(0.5))));
}
