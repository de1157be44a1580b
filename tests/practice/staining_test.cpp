// Facts of the finishing trade: common practice, no source.
#include <cmath>

#include "practice/lamp.h"
#include "practice/recipe.h"
#include "tests/support/check_tight.h"

using namespace tonemend;

namespace {

Lab colour_of(const char* wood, const Recipe& recipe, double darkness = 0) {
    static const Lamp daylight = make_lamp("CIE-D65");
    return daylight.lab(stained_reflectance(find_wood(wood), recipe, darkness));
}

Recipe one_step(const char* colourant, const Application& application, Finish finish = Finish::raw) {
    return {{{&find_colourant(colourant), 1, application}}, finish, {}};
}

double lightness(const char* wood, const char* colourant, const Application& application) {
    return colour_of(wood, one_step(colourant, application)).L;
}

double chroma(const Lab& lab) {
    return std::hypot(lab.a, lab.b);
}

}  // namespace

TEST_CASE("Coarser sanding takes more pigment stain on soft even-grained wood and makes it darker") {
    double before = 0;
    for (const double grit : {80.0, 120.0, 180.0, 240.0, 320.0}) {
        const double now = lightness("pine", "Umber Yard stain", {grit, 1, 1});
        CHECK(now > before + 1);
        before = now;
    }
    const auto gain = [](const char* wood) {
        return lightness(wood, "Umber Yard stain", {320, 1, 1}) -
               lightness(wood, "Umber Yard stain", {80, 1, 1});
    };
    CHECK(gain("pine") > 2 * gain("oak"));
}

TEST_CASE("Dye hardly cares for the sanding grit") {
    for (const WoodKind& wood : wood_kinds()) {
        const double change = lightness(wood.name.c_str(), "Walnut Dusk dye", {320, 1, 1}) -
                              lightness(wood.name.c_str(), "Walnut Dusk dye", {80, 1, 1});
        INFO(wood.name);
        CHECK(change > 0);
        CHECK(change < 0.8);
    }
}

TEST_CASE("Each coat of dye goes darker, by less each time") {
    for (const WoodKind& wood : wood_kinds()) {
        double before = colour_of(wood.name.c_str(), {{}, Finish::raw, {}}).L;
        double last_gain = 100;
        for (int coats = 1; coats <= 5; ++coats) {
            const double now = lightness(wood.name.c_str(), "Old Cellar dye", {180, coats, 1});
            INFO(wood.name << ", coat " << coats);
            CHECK(now < before);
            CHECK(before - now < last_gain);
            last_gain = before - now;
            before = now;
        }
    }
}

TEST_CASE("Thinning a colourant makes it lighter") {
    CHECK(lightness("maple", "Walnut Dusk dye", {180, 1, 4}) >
          lightness("maple", "Walnut Dusk dye", {180, 1, 1}) + 5);
}

TEST_CASE("A second wiped coat of pigment adds far less than the first") {
    const double bare = colour_of("maple", {{}, Finish::raw, {}}).L;
    const double one = lightness("maple", "Bog Oak stain", {180, 1, 1});
    const double two = lightness("maple", "Bog Oak stain", {180, 2, 1});
    CHECK(one - two < 0.4 * (bare - one));
    CHECK(two < one);
}

TEST_CASE("Pigment lodges in the figure and brings it out, dye leaves its contrast") {
    const auto contrast = [](const Recipe& recipe) {
        return colour_of("oak", recipe, 0).L - colour_of("oak", recipe, 1).L;
    };
    const double stained = contrast(one_step("Bog Oak stain", {180, 1, 1}));
    const double dyed = contrast(one_step("Soot dye", {180, 1, 1}));
    CHECK(stained > 1.25 * dyed);
}

TEST_CASE("Clear finish darkens and saturates") {
    for (const WoodKind& wood : wood_kinds()) {
        const Lab raw = colour_of(wood.name.c_str(), {{}, Finish::raw, {}});
        const Lab finished = colour_of(wood.name.c_str(), {{}, Finish::clear_coat, {}});
        INFO(wood.name);
        CHECK(finished.L < raw.L - 3);
        // Chroma relative to lightness: the eye's saturation. Dark woods have little chroma left to gain.
        CHECK(chroma(finished) / finished.L > 1.1 * chroma(raw) / raw.L);
    }
    CHECK(chroma(colour_of("pine", {{}, Finish::clear_coat, {}})) >
          chroma(colour_of("pine", {{}, Finish::raw, {}})) + 4);
}

// Saunderson 1942 with k1 = 0.04, k2 = 0.6 and no specular part: (0.96 · 0.4 · R)/(1 − 0.6 R), worked by
// hand.
TEST_CASE("The clear coat's correction has the worked values") {
    const ClearCoat water_white{0.04, 0.6, 0};
    Bands half;
    half.fill(0.5);
    Bands white;
    white.fill(1);
    for (const double value : under_clear_coat(half, water_white))
        CHECK(value == Approx(0.192 / 0.7).epsilon(1e-14));
    for (const double value : under_clear_coat(white, water_white))
        CHECK(value == Approx(0.96).epsilon(1e-14));
    // Two passes at optical density 0.06 at 400 nm.
    const double below = std::pow(10, -0.12);
    CHECK(under_clear_coat(white)[4] == Approx(0.384 * below / (1 - 0.6 * below)).epsilon(1e-14));
}

TEST_CASE("Wood's reflectance rises smoothly from blue to red") {
    for (const WoodKind& wood : wood_kinds())
        for (const double darkness : {-0.5, 0.0, 1.0, 1.5}) {
            const Bands r = stained_reflectance(wood, {{}, Finish::raw, {}}, darkness);
            for (std::size_t i = 1; i < band_count; ++i) {
                INFO(wood.name << " at " << band_nm(i) << " nm");
                CHECK(r[i] > r[i - 1] - (wood.redness > 0 ? 0.002 : 0));
                CHECK(r[i] - r[i - 1] < 0.03);
                CHECK(r[i] < 1);
            }
        }
}
