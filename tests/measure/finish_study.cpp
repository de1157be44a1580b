// How well the look with finish on is foretold from bare wood, on 200 woods and finishes of the practice
// bench, whose films are reckoned band by band with Fresnel's equations: from physics alone, then after
// pairs.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "colour/difference.h"
#include "measure/finish_on.h"
#include "practice/finished_wood.h"
#include "practice/lamp.h"
#include "practice/random.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

constexpr int boards_seen = 200, most_pairs = 5, asked = 3;

struct FinishOutcome {
    std::vector<double> error, u95;
    int inside = 0, inside_lab = 0, count = 0;

    void add(const FinishForecast& forecast, const Lab& truth) {
        ++count;
        error.push_back(ciede2000(forecast.lab, truth).value);
        u95.push_back(forecast.de2000_u95);
        inside += error.back() <= forecast.de2000_u95 ? 1 : 0;
        const std::array<double, 3> miss{forecast.lab.L - truth.L, forecast.lab.a - truth.a,
                                         forecast.lab.b - truth.b};
        for (std::size_t k = 0; k < 3; ++k) inside_lab += std::abs(miss[k]) <= forecast.u95[k] ? 1 : 0;
    }
    double quantile(std::vector<double> values, double q) const {
        std::sort(values.begin(), values.end());
        return values[static_cast<std::size_t>(q * static_cast<double>(values.size() - 1) + 0.5)];
    }
    double median() const { return quantile(error, 0.5); }
    double coverage() const { return 100.0 * inside / count; }
    void print(const char* title) const {
        fmt::print(
            "  {:22} error median {:.2f}, 95th percentile {:.2f}; stated ± median {:.2f}; truth inside "
            "{:.0f} "
            "%, L*, a*, b* {:.0f} %\n",
            title, median(), quantile(error, 0.95), quantile(u95, 0.5), coverage(),
            100.0 * inside_lab / (3 * count));
    }
};

Lab noisy(const Lab& lab, double noise, Random& random) {
    return {lab.L + noise * random.normal(), lab.a + noise * random.normal(),
            lab.b + noise * random.normal()};
}

struct FinishStudy {
    FinishOutcome physics, one, five, nothing_done;
};

FinishStudy foretell(FinishLook look) {
    const Lamp lamp = make_lamp("CIE-D65");
    FinishStudy study;
    for (int seed = 1; seed <= boards_seen; ++seed) {
        Random random(static_cast<std::uint64_t>(seed), "finish study");
        FinishFacts facts;
        facts.look = look;
        facts.tint = static_cast<FinishTint>(random.below(3));
        facts.sheen = static_cast<FinishSheen>(random.below(3));
        FinishCan can;
        can.amber = std::array{0.005, 0.04, 0.12}[static_cast<std::size_t>(facts.tint)];
        can.haze = std::array{0.0, 0.004, 0.01}[static_cast<std::size_t>(facts.sheen)];
        if (look == FinishLook::wet) can = {0, 0, 1.42, 1.45, 0.1, 0.35};
        const FinishedBoards boards =
            draw_finished_boards(can, most_pairs + asked, static_cast<std::uint64_t>(seed));
        constexpr double noise = 0.1;
        const std::array<double, 3> u95{1.96 * noise, 1.96 * noise, 1.96 * noise};
        std::vector<FinishPair> pairs;
        for (std::size_t i = 0; i < most_pairs; ++i)
            pairs.push_back({noisy(lamp.lab(boards.bare[i]), noise, random),
                             noisy(lamp.lab(boards.finished[i]), noise, random), u95, u95});
        for (std::size_t i = most_pairs; i < boards.bare.size(); ++i) {
            const Lab bare = noisy(lamp.lab(boards.bare[i]), noise, random);
            const Lab truth = lamp.lab(boards.finished[i]);
            study.nothing_done.error.push_back(ciede2000(bare, truth).value);
            study.physics.add(FinishModel(facts, {}).foretell(bare, u95), truth);
            study.one.add(FinishModel(facts, std::span(pairs).first(1)).foretell(bare, u95), truth);
            study.five.add(FinishModel(facts, pairs).foretell(bare, u95), truth);
        }
    }
    fmt::print("{} woods and {}, three boards each; without a forecast ΔE2000 {:.1f} (median)\n", boards_seen,
               look == FinishLook::wet ? "thinners, wet" : "finishes",
               study.nothing_done.quantile(study.nothing_done.error, 0.5));
    study.physics.print("from physics alone");
    study.one.print("after one pair");
    study.five.print("after five pairs");
    return study;
}

void check(const FinishStudy& study) {
    CHECK(study.physics.median() <= 1.0);
    CHECK(study.five.median() <= 0.5);
    CHECK(study.five.median() < study.physics.median());
    for (const FinishOutcome* outcome : {&study.physics, &study.one, &study.five}) {
        CHECK(outcome->coverage() >= 90);
        CHECK(outcome->coverage() <= 99.5);
    }
}

}  // namespace

TEST_CASE("The look with finish on is foretold from bare wood", "[.shown][finish-on]") {
    check(foretell(FinishLook::finished));
}

TEST_CASE("The look of wood wet with a thinner is foretold from bare wood", "[.shown][finish-on]") {
    check(foretell(FinishLook::wet));
}
