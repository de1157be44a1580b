// The findings of the card frame's paper on spots whose light is known by construction.
#include <cmath>
#include <numbers>

#include "calibrate/preflight/card_shadow.h"
#include "calibrate/preflight/light_bands.h"
#include "calibrate/preflight/light_mixture.h"
#include "tests/calibrate/paper_spots.h"
#include "tests/catch.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

Vector3 grey(double light) {
    return {light, light, light};
}

}  // namespace

TEST_CASE("Light that only slopes over the paper is neither a shadow nor banded nor mixed") {
    const auto spots =
        ring_of_paper([](const Point& p) { return grey(0.5 * std::exp(2e-4 * p.x - 1e-4 * p.y)); });
    CHECK(unevenness_of_paper(spots) < 1e-9);
    CHECK_FALSE(warn_of_shadow(spots));
    CHECK_FALSE(warn_of_bands(spots));
    CHECK_FALSE(warn_of_mixture(spots));
}

TEST_CASE("A shadow over a quarter of the paper is named with how much darker it is") {
    const auto spots = ring_of_paper([](const Point& p) { return grey(p.x < 250 ? 0.4 : 0.5); });
    const auto warning = warn_of_shadow(spots);
    REQUIRE(warning);
    CHECK(warning->code == "card-shadow");
    CHECK_FALSE(warn_of_bands(spots));
    // A plane takes part of the step: between half of its 20 % and all of it.
    CHECK(unevenness_of_paper(spots) > 0.10);
    CHECK(unevenness_of_paper(spots) < 0.25);
}

TEST_CASE("Paper that is 2 % uneven is not called a shadow: sheets are never quite flat") {
    // common practice, no source
    CHECK_FALSE(warn_of_shadow(ring_of_paper([](const Point& p) { return grey(p.x < 250 ? 0.49 : 0.5); })));
}

TEST_CASE("Bands over the rows are found with their swing and period, and bands over columns told apart") {
    for (const double period : {75.0, 120.0, 300.0}) {
        const auto wave = [&](double at) {
            return grey(0.5 * std::exp(0.03 * std::sin(2 * std::numbers::pi * at / period)));
        };
        const auto rows = find_bands(ring_of_paper([&](const Point& p) { return wave(p.y); }));
        const auto columns = find_bands(ring_of_paper([&](const Point& p) { return wave(p.x); }));
        INFO(period);
        REQUIRE(rows);
        REQUIRE(columns);
        CHECK(rows->in_rows);
        CHECK_FALSE(columns->in_rows);
        CHECK(std::abs(rows->swing - (std::exp(0.06) - 1)) < 0.004);
        CHECK(std::abs(rows->period / period - 1) < 0.05);
        CHECK(warn_of_bands(ring_of_paper([&](const Point& p) { return wave(p.y); })));
    }
}

TEST_CASE("Lamps of two colours are told by red and blue against green, brightness aside") {
    const auto spots = ring_of_paper([](const Point& p) {
        const double part = (p.x - 100) / 600, light = 0.5 + 0.2 * part;
        return Vector3{light * std::exp(-0.02 * part), light, light * std::exp(0.05 * part)};
    });
    const auto slope = find_hue_slope(spots);
    REQUIRE(slope);
    CHECK(std::abs(slope->red - 0.02) < 1e-6);
    CHECK(std::abs(slope->blue - 0.05) < 1e-6);
    const auto warning = warn_of_mixture(spots);
    REQUIRE(warning);
    CHECK(warning->code == "light-mixed");
    CHECK(warning->text.find("5.0 %") != std::string::npos);
}

TEST_CASE("Too little paper says nothing") {
    auto spots = ring_of_paper([](const Point& p) { return grey(p.x < 250 ? 0.3 : 0.5); });
    spots.resize(30);
    CHECK_FALSE(warn_of_shadow(spots));
    CHECK_FALSE(find_bands(spots));
    CHECK_FALSE(find_hue_slope(spots));
}
