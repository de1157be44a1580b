// What stained samples that an instrument has read do for a repair of other colourants: simulated pictures of
// a grey card, an original, its repair and boards of both materials, with noise, an unknown tone curve and
// uneven light, under three lights. TONEMEND_SAMPLE_PICTURES sets how many pictures a light.
#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstdlib>
#include <vector>

#include "colour/difference.h"
#include "measure/comparison.h"
#include "practice/mean_reflectance.h"
#include "practice/pair.h"
#include "practice/prior_ensemble.h"
#include "practice/random.h"
#include "tests/bench/characterisation_scene.h"
#include "tests/bench/in_threads.h"
#include "tests/catch.h"
#include "tests/support/quantile.h"

using namespace tonemend;
using namespace tonemend::bench;

namespace {

constexpr std::size_t most_a_side = 4;
constexpr std::array<std::size_t, 4> sides{0, 2, 3, 4};  // samples a side
// Standard errors of an instrument, each of L*, a*, b*: one that all its readings share (it is no reference
// instrument), one of each reading (repeatability and place); together 0.3 (common practice, no source).
constexpr double shared_u = 0.2, own_u = 0.22;

// Original and repair, and boards of each one's material: the same wood, as even as boards are, and the same
// colourants thinned by other amounts.
struct Bench {
    Bands original{}, repair{};
    std::vector<Bands> boards;  // of the original's material, then of the repair's
};

Recipe thinned(Recipe recipe, double factor) {
    for (RecipeStep& step : recipe.steps) step.amount *= factor;
    return recipe;
}

NodeWeights grain_of(const WoodKind& wood, double figure) {
    return long_run_weights(
               {wood.figure_share * figure, wood.pore_share, wood.along_px, wood.across_px, 0, 0.12})
        .all;
}

Bench draw_bench(std::size_t i) {
    static const Lamp daylight = make_lamp("CIE-D65");
    Random random(i, "samples study");
    const WoodKind& wood = wood_kinds()[i % wood_kinds().size()];
    const Finish finish = random.uniform() < 0.25 ? Finish::raw : Finish::clear_coat;
    const NodeWeights grain = grain_of(wood, 1);
    const Pair pair =
        draw_pair(wood, grain, daylight, {PairKind::other, random.uniform(0, 8), finish}, 79, i);
    Bench bench{mean_reflectance(wood, pair.original, grain), mean_reflectance(wood, pair.repair, grain), {}};
    for (const Recipe& recipe : {pair.original, pair.repair})
        for (std::size_t k = 0; k < most_a_side; ++k) {
            const double amount = std::exp(0.3 * random.normal()), figure = random.uniform(0.7, 1.3);
            bench.boards.push_back(mean_reflectance(wood, thinned(recipe, amount), grain_of(wood, figure)));
        }
    return bench;
}

struct SampleTally {
    std::vector<double> error, u95;
    int inside = 0, lab_inside = 0, left_out = 0;

    void add(const SampleTally& more) {
        error.insert(error.end(), more.error.begin(), more.error.end());
        u95.insert(u95.end(), more.u95.begin(), more.u95.end());
        inside += more.inside, lab_inside += more.lab_inside, left_out += more.left_out;
    }
    double percent_inside() const { return 100.0 * inside / static_cast<double>(error.size()); }
    double percent_lab_inside() const {
        return 100.0 * lab_inside / (6.0 * static_cast<double>(error.size()));
    }
};

void print(const std::string& what, const SampleTally& tally) {
    fmt::print(
        "  {}: error of dE2000 median {:.3f}  95th percentile {:.3f}, stated {:.2f}; truth inside it {:.1f} "
        "%, "
        "of L*, a*, b* {:.1f} %; samples left out {}\n",
        what, quantile(tally.error, 0.5), quantile(tally.error, 0.95), quantile(tally.u95, 0.5),
        tally.percent_inside(), tally.percent_lab_inside(), tally.left_out);
}

int count_inside(const Reading& reading, const Lab& truth) {
    return (std::abs(reading.lab.L - truth.L) <= reading.lab_u95[0] ? 1 : 0) +
           (std::abs(reading.lab.a - truth.a) <= reading.lab_u95[1] ? 1 : 0) +
           (std::abs(reading.lab.b - truth.b) <= reading.lab_u95[2] ? 1 : 0);
}

std::vector<ColourSample> read_by_instrument(const Bench& bench, const Lamp& lamp, std::size_t picture,
                                             std::size_t a_side) {
    Random random(picture, "instrument");
    const auto error = [&](double u) {
        return std::array{u * random.normal(), u * random.normal(), u * random.normal()};
    };
    const std::array<double, 3> shared = error(shared_u);
    std::vector<ColourSample> samples;
    for (std::size_t k = 0; k < 2 * most_a_side; ++k) {
        const std::array<double, 3> own = error(own_u);
        if (k % most_a_side >= a_side) continue;
        const Lab truth = lamp.lab(bench.boards[k]);
        samples.push_back(
            {board_region(k),
             {truth.L + shared[0] + own[0], truth.a + shared[1] + own[1], truth.b + shared[2] + own[2]},
             k < most_a_side ? SampleSide::original : SampleSide::repair,
             fmt::format("board {}", k)});
    }
    return samples;
}

// One LED of a colour temperature is not the other.
Lamp lamp_in_the_shop(const std::string& light, std::uint64_t seed) {
    if (!light.starts_with("led:")) return make_lamp(light);
    return draw_lamp(LampFamily::led, parse_light(light).kelvin, seed);
}

// A picture measured with each of `sides`.
std::vector<SampleTally> measure(const Bench& bench, std::size_t i, const std::string& light) {
    const Lamp lamp = lamp_in_the_shop(light, i);
    const SceneSpec spec{make_camera(i), lamp, {bench.original, bench.repair, bench.repair}, {}, 0.006, i,
                         bench.boards};
    const PaintedScene scene = paint(spec);
    std::vector<SampleTally> tallies;
    for (const std::size_t a_side : sides) {
        CalibrationInputs inputs;
        inputs.colourants = RepairColourants::other;
        inputs.light = parse_light(light);
        inputs.samples = read_by_instrument(bench, lamp, i, a_side);
        Calibration calibration = calibrate_on_card(scene.frame, card_of(spec, 0), card_corners, inputs);
        // A flat field was taken: what it leaves is known.
        calibration.light = {0, 0, scene.slope_u};
        const Comparison seen = compare_regions(scene.frame, calibration, original_region(), earth_region());
        const double error = seen.difference.de2000 - ciede2000(scene.original, scene.earth).value;
        SampleTally& tally = tallies.emplace_back();
        tally.error = {std::abs(error)};
        tally.u95 = {seen.difference.de2000_u95};
        tally.inside = std::abs(error) <= seen.difference.de2000_u95 ? 1 : 0;
        tally.lab_inside =
            count_inside(seen.original, scene.original) + count_inside(seen.repair, scene.earth);
        for (const SampleReading& sample : calibration.local.samples())
            tally.left_out += sample.left_out ? 1 : 0;
    }
    return tallies;
}

}  // namespace

TEST_CASE("Samples read by an instrument: other colourants are compared as well as the same ones",
          "[.shown][samples]") {
    const char* more = std::getenv("TONEMEND_SAMPLE_PICTURES");
    const std::size_t pictures = more ? static_cast<std::size_t>(std::atoi(more)) : 100;
    std::vector<SampleTally> all_lights(sides.size());
    std::vector<Bench> benches(pictures);
    in_threads(2, pictures, [&](std::size_t i) { benches[i] = draw_bench(i); });
    for (const char* light : {"CIE-D65", "CIE-A", "led:3500"}) {
        std::vector<std::vector<SampleTally>> each(pictures);
        in_threads(2, pictures, [&](std::size_t i) { each[i] = measure(benches[i], i, light); });
        fmt::print("{}: {} pictures, repairs of other colourants\n", light, pictures);
        for (std::size_t k = 0; k < sides.size(); ++k) {
            SampleTally tally;
            for (const auto& one : each) tally.add(one[k]);
            all_lights[k].add(tally);
            print(fmt::format("{} samples a side", sides[k]), tally);
            if (sides[k] == 0) continue;
            INFO(light << ", " << sides[k] << " samples a side");
            CHECK(quantile(tally.error, 0.95) <= 0.4);
            CHECK(tally.percent_inside() >= 90);
            CHECK(tally.percent_inside() <= 99);
            CHECK(tally.percent_lab_inside() >= 90);
            CHECK(tally.percent_lab_inside() <= 99);
        }
    }
    fmt::print("all lights together\n");
    for (std::size_t k = 0; k < sides.size(); ++k) {
        print(fmt::format("{} samples a side", sides[k]), all_lights[k]);
        if (sides[k] > 0)
            CHECK(quantile(all_lights[k].error, 0.95) <= 0.8 * quantile(all_lights[0].error, 0.95));
    }
}
