// Each colour function of shaders/ against its double-precision twin. Bounds: the window's own promise
// (ΔE2000 within 0.01), and beyond it what single precision allows, from measured results.
#include <cmath>
#include <limits>
#include <random>

#include "colour/difference.h"
#include "colour/lab.h"
#include "tests/catch.h"
#include "tests/colour/random_pairs.h"
#include "tests/live/shader_context.h"
#include "tests/live/shader_probe.h"
#include "tests/support/check_tight.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

constexpr float not_a_number = std::numeric_limits<float>::quiet_NaN();
constexpr float infinity = std::numeric_limits<float>::infinity();

Texel texel(const Lab& lab) {
    return {static_cast<float>(lab.L), static_cast<float>(lab.a), static_cast<float>(lab.b), 0};
}

Lab lab_of(const Texel& t) {
    return {static_cast<double>(t[0]), static_cast<double>(t[1]), static_cast<double>(t[2])};
}

struct Pairs {
    std::vector<Texel> reference, sampled;
    void add(const Lab& a, const Lab& b) { reference.push_back(texel(a)), sampled.push_back(texel(b)); }
};

// The largest error of the shader's ΔE2000 over the pairs, which are taken as rounded to floats on both
// sides.
double worst_difference(const Pairs& pairs, const char* what) {
    const auto drawn =
        probe({"ciede2000.glsl"}, "result = vec4(ciede2000(x.rgb, y.rgb));", pairs.reference, pairs.sampled);
    double worst = 0;
    std::size_t at = 0;
    for (std::size_t i = 0; i < drawn.size(); ++i) {
        const double truth = ciede2000(lab_of(pairs.reference[i]), lab_of(pairs.sampled[i])).value;
        const double error = std::abs(static_cast<double>(drawn[i][0]) - truth);
        if (!(error <= worst)) worst = error, at = i;
    }
    const Lab a = lab_of(pairs.reference[at]), b = lab_of(pairs.sampled[at]);
    std::printf("  %s: worst pair %.4f %.4f %.4f | %.4f %.4f %.4f\n", what, a.L, a.a, a.b, b.L, b.a, b.b);
    return worst;
}

}  // namespace

TEST_CASE("The shader's test for numbers keeps NaN and infinities out and every finite float in") {
    const ShaderContext context;
    const std::vector<Texel> codes{
        {0, 0, 0, 1},
        {std::numeric_limits<float>::max(), -1e38F, std::numeric_limits<float>::denorm_min(), 1},
        {not_a_number, 0, 0, 0},
        {0, -not_a_number, 0, 0},
        {0, 0, infinity, 0},
        {-infinity, 0, 0, 0}};
    const auto drawn = probe({"numbers.glsl"}, "result = vec4(has_value(x.rgb) ? 1.0 : 0.0);", codes);
    for (std::size_t i = 0; i < codes.size(); ++i) {
        INFO("case " << i);
        CHECK(drawn[i][0] == codes[i][3]);
    }
}

TEST_CASE("The shader's CIELAB is that of the standard over nine decades of light, and both ways") {
    const ShaderContext context;
    std::mt19937 engine(7);
    std::uniform_real_distribution<float> decades(-7, 1);
    std::vector<Texel> light;
    for (int i = 0; i < 60000; ++i) {
        Texel t{};
        for (std::size_t c = 0; c < 3; ++c)
            t[c] = std::pow(10.0F, decades(engine)) * (i % 10 == 0 ? -1.0F : 1.0F);
        light.push_back(t);
    }
    light.push_back({0, 0, 0, 0});
    const auto drawn = probe({"numbers.glsl", "lab.glsl"}, "result = vec4(to_lab(x.rgb), 0.0);", light);
    double worst = 0;
    for (std::size_t i = 0; i < light.size(); ++i) {
        const Lab truth = to_lab({static_cast<double>(light[i][0]), static_cast<double>(light[i][1]),
                                  static_cast<double>(light[i][2])},
                                 d50_icc);
        // Colours brighter than white have longer numbers: the error is taken as a share of L*, a*, b* beyond
        // 100.
        const double size = std::max({100.0, std::abs(truth.L), std::abs(truth.a), std::abs(truth.b)}) / 100;
        worst = std::fmax(worst, delta_e_76(truth, lab_of(drawn[i])) / size);
    }
    check_tight("Lab of XYZ", worst, 1e-4);

    const auto back = probe({"numbers.glsl", "lab.glsl"}, "result = vec4(to_xyz(x.rgb), 0.0);", drawn);
    double worst_back = 0;
    for (std::size_t i = 0; i < light.size(); ++i) {
        const XYZ truth = to_xyz(lab_of(drawn[i]), d50_icc);
        const double size = std::max(1.0, std::abs(truth.Y));
        worst_back = std::fmax(worst_back, std::abs(static_cast<double>(back[i][1]) - truth.Y) / size);
        worst_back = std::fmax(worst_back, std::abs(static_cast<double>(back[i][0]) - truth.X) /
                                               std::max(1.0, std::abs(truth.X)));
        worst_back = std::fmax(worst_back, std::abs(static_cast<double>(back[i][2]) - truth.Z) /
                                               std::max(1.0, std::abs(truth.Z)));
    }
    check_tight("XYZ of Lab", worst_back, 2e-6);
}

TEST_CASE("The shader's CIEDE2000 agrees with the double-precision one on random pairs, near and far") {
    const ShaderContext context;
    Pairs pairs;
    for (const auto& [a, b] : make_random_pairs(200000)) pairs.add(a, b);
    check_tight("ΔE2000, random", worst_difference(pairs, "random"), 5e-4);
}

TEST_CASE(
    "The shader's CIEDE2000 holds near the reference, near neutral and on either side of opposite hues") {
    const ShaderContext context;
    Pairs near;
    for (const double chroma : {0.0, 1e-5, 1e-3, 0.1, 1.0, 8.0, 30.0, 90.0})
        for (int hue = 0; hue < 360; hue += 3)
            for (const double step : {0.0, 1e-6, 1e-4, 1e-2, 0.3})
                for (int way = 0; way < 8; ++way) {
                    const double h = hue * 0.017453292519943295, w = way * 0.78539816339744831;
                    const Lab a{50 + 0.3 * way, chroma * std::cos(h), chroma * std::sin(h)};
                    near.add(
                        a, {a.L + step * (way % 3 - 1), a.a + step * std::cos(w), a.b + step * std::sin(w)});
                }
    check_tight("ΔE2000, near the reference", worst_difference(near, "near"), 2e-5);

    Pairs opposite;
    for (const double chroma : {0.05, 2.5, 40.0, 110.0})
        for (int hue = 0; hue < 360; hue += 2)
            for (const double beside : {-0.5, -0.01, 0.01, 0.5}) {
                const double h = hue * 0.017453292519943295, g = (hue + 180 + beside) * 0.017453292519943295;
                // Hue enters through a′, which scales both a alike: angles that are opposite stay so.
                opposite.add({60, chroma * std::cos(h), chroma * std::sin(h)},
                             {40, 20 * std::cos(g), 20 * std::sin(g)});
            }
    check_tight("ΔE2000, beside opposite hues", worst_difference(opposite, "opposite"), 5e-4);
}

TEST_CASE("The shader's CIEDE2000 gives the published values, the knife edge of opposite hues included") {
    // Sharma, Wu, Dalal (2005), table 1, pairs 1, 7 to 16, 17 and 26: reference, sample, ΔE00 to four
    // decimals.
    const ShaderContext context;
    struct Published {
        Lab a, b;
        double value;
    };
    const std::vector<Published> table{{{50, 2.6772, -79.7751}, {50, 0, -82.7485}, 2.0425},
                                       {{50, 0, 0}, {50, -1, 2}, 2.3669},
                                       {{50, -1, 2}, {50, 0, 0}, 2.3669},
                                       {{50, 2.49, -0.001}, {50, -2.49, 0.0009}, 7.1792},
                                       {{50, 2.49, -0.001}, {50, -2.49, 0.001}, 7.1792},
                                       {{50, 2.49, -0.001}, {50, -2.49, 0.0011}, 7.2195},
                                       {{50, 2.49, -0.001}, {50, -2.49, 0.0012}, 7.2195},
                                       {{50, -0.001, 2.49}, {50, 0.0009, -2.49}, 4.8045},
                                       {{50, -0.001, 2.49}, {50, 0.001, -2.49}, 4.8045},
                                       {{50, -0.001, 2.49}, {50, 0.0011, -2.49}, 4.7461},
                                       {{50, 2.5, 0}, {50, 0, -2.5}, 4.3065},
                                       {{50, 2.5, 0}, {73, 25, -18}, 27.1492},
                                       {{60.2574, -34.0099, 36.2677}, {60.4626, -34.1751, 39.4387}, 1.2644}};
    std::vector<Texel> x, y;
    for (const Published& pair : table) x.push_back(texel(pair.a)), y.push_back(texel(pair.b));
    const auto drawn =
        probe({"ciede2000.glsl"},
              "result = vec4(ciede2000(x.rgb, y.rgb), ciede2000(y.rgb, x.rgb), 0.0, 0.0);", x, y);
    for (std::size_t i = 0; i < table.size(); ++i) {
        INFO("row " << i);
        CHECK(std::abs(static_cast<double>(drawn[i][0]) - table[i].value) < 1.5e-4);
        CHECK(std::abs(static_cast<double>(drawn[i][1]) - table[i].value) < 1.5e-4);
    }
}

TEST_CASE("The shader's CIEDE2000 is finite for colours far beyond any surface") {
    const ShaderContext context;
    std::vector<Texel> x, y;
    for (const float size : {1e2F, 1e4F, 1e6F})
        for (const float sign : {-1.0F, 1.0F})
            x.push_back({50, 5, 20, 0}), y.push_back({size, sign * size, size, 0});
    const auto drawn =
        probe({"numbers.glsl", "ciede2000.glsl"}, "result = vec4(ciede2000(x.rgb, y.rgb));", x, y);
    for (std::size_t i = 0; i < x.size(); ++i) {
        const double truth = ciede2000(lab_of(x[i]), lab_of(y[i])).value;
        CHECK(static_cast<double>(drawn[i][0]) == Approx(truth).epsilon(1e-4));
    }
}
