// What a second and a third light are worth on the practice bench, where the truth is known. Prints the
// errors with the first picture alone and with all, and how often the truth lies inside the stated interval.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <vector>

#include "colour/difference.h"
#include "measure/many_lights.h"
#include "practice/light_ensemble.h"
#include "practice/render.h"
#include "practice/truth.h"
#include "tests/catch.h"
#include "tests/support/quantile.h"
#include "tests/support/study_size.h"
#include "tests/support/wood_card.h"

using namespace tonemend;

namespace {

struct Tally {
    std::vector<double> error, absolute, u95;
    int inside = 0, lab_inside = 0;
    void add(const Comparison& comparison, const Truth& known) {
        const double miss = std::abs(comparison.difference.de2000 - known.de2000);
        error.push_back(miss);
        inside += miss <= comparison.difference.de2000_u95 ? 1 : 0;
        u95.push_back(comparison.difference.de2000_u95);
        absolute.push_back(ciede2000(known.original.lab, comparison.original.lab).value);
        const Lab &told = comparison.original.lab, &truth = known.original.lab;
        const std::array<double, 3> misses{told.L - truth.L, told.a - truth.a, told.b - truth.b};
        for (std::size_t k = 0; k < 3; ++k)
            lab_inside += std::abs(misses[k]) <= comparison.original.lab_u95[k] ? 1 : 0;
    }
    void print(const char* title) const {
        const auto n = static_cast<double>(error.size());
        fmt::print(
            "  {:28} error {:.3f}/{:.3f}  absolute {:.3f}/{:.3f}  ± median {:.3f}  truth inside {:.0f} %, "
            "Lab {:.0f} %\n",
            title, quantile(error, 0.5), quantile(error, 0.95), quantile(absolute, 0.5),
            quantile(absolute, 0.95), quantile(u95, 0.5), 100 * inside / n, 100 * lab_inside / (3 * n));
    }
};

PracticeOptions scene_of(std::uint64_t seed, const std::string& lamp, const std::string& card) {
    PracticeOptions options = accuracy_study(seed);
    options.width = 1000, options.height = 750;
    options.camera = seed % 24;
    options.pair = PairKind::earth;
    options.pair_lamp = "CIE-D65";
    options.lamp = lamp;
    options.card = card;
    options.rotation = 0;
    return options;
}

}  // namespace

TEST_CASE("A second and a third light make readings of other colourants better, and say by how much",
          "[.shown][lights]") {
    const testing::WoodCard card(6);
    const std::vector<std::string> lamps{"CIE-D65", "CIE-A", "led:4000"};
    const auto cameras = camera_ensemble(lamps);
    Tally alone, two, three;
    int used = 0;
    const int pairs = study_size(32);
    for (std::uint64_t seed = 1; seed <= static_cast<std::uint64_t>(pairs); ++seed) {
        std::vector<Frame> frames;
        std::vector<PictureUnderLight> pictures;
        const PracticeScene scene = make_scene(scene_of(seed, lamps[0], card.path()));
        for (const std::string& lamp : lamps)
            frames.push_back(render(make_scene(scene_of(seed, lamp, card.path()))));
        for (std::size_t i = 0; i < lamps.size(); ++i) {
            const auto found = find_card(frames[i]);
            REQUIRE(found);
            pictures.push_back({&frames[i], *found,
                                calibrate_on_card(frames[i], read_card(card.path()), *found),
                                parse_light(lamps[i])});
        }
        const Truth known = truth(scene);
        const Region o = rectangle(scene.original.region), r = rectangle(scene.repair.region);
        alone.add(compare_regions(frames[0], pictures[0].calibration, o, r), known);
        three.add(compare_under_lights(pictures, o, r, cameras), known);
        pictures.pop_back();
        const Comparison with_two = compare_under_lights(pictures, o, r, cameras);
        used += with_two.many_lights->used ? 1 : 0;
        two.add(with_two, known);
    }
    fmt::print(
        "{} practice pairs, other earth colourants, even light, 16 bits, six steps and six woods on the "
        "card; error of ΔE2000 and of Lab, median/95th percentile\n",
        pairs);
    alone.print("CIE D65 alone");
    two.print("and CIE A");
    three.print("and CIE A and a 4000 K LED");
    fmt::print("  two lights used in {} of {}\n", used, pairs);
    CHECK(quantile(two.error, 0.95) <= 0.65);
    CHECK(quantile(two.error, 0.5) <= quantile(alone.error, 0.5));
    CHECK(used >= 28 * pairs / 32);
}
