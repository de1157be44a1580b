// How well the colourant model foretells coats in the simulated wood shop, whose physics it is not told. The
// bounds are the project's own promises.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "advise/model/colourant_model.h"
#include "colour/difference.h"
#include "measure/finish_on.h"
#include "practice/wood_shop.h"
#include "tests/advise/shop_reader.h"
#include "tests/catch.h"
#include "tests/support/quantile.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

constexpr int shops = 60;

struct Score {
    std::vector<double> error, persistence, ground, figure;
    int inside = 0, axes = 0;

    void add(const LookForecast& forecast, const ShopLook& truth, const Lab& before) {
        const Lab foretold = whole_of(forecast.look);
        error.push_back(ciede2000(foretold, truth.whole).value);
        persistence.push_back(ciede2000(before, truth.whole).value);
        ground.push_back(ciede2000(forecast.look.ground, truth.ground).value);
        figure.push_back(ciede2000(forecast.look.figure, truth.figure).value);
        const Eigen::Matrix3d covariance = forecast.whole_covariance();
        const std::array<double, 3> miss{truth.whole.L - foretold.L, truth.whole.a - foretold.a,
                                         truth.whole.b - foretold.b};
        for (int i = 0; i < 3; ++i, ++axes)
            inside +=
                std::abs(miss[static_cast<std::size_t>(i)]) <= 1.96 * std::sqrt(covariance(i, i)) ? 1 : 0;
    }
    double coverage() const { return 100.0 * inside / axes; }
};

void print(const std::string& name, const Score& score) {
    fmt::print(
        "  {:42} {:.2f} / {:.2f}   ground {:.2f}, figure {:.2f}   (untouched: {:.1f} / {:.1f})   95 % "
        "interval holds "
        "{:.0f} %\n",
        name, quantile(score.error, 0.5), quantile(score.error, 0.95), quantile(score.ground, 0.5),
        quantile(score.figure, 0.5), quantile(score.persistence, 0.5), quantile(score.persistence, 0.95),
        score.coverage());
}

// Predictions of one jar after some strips were read.
void ask(ShopReader& reader, const ColourantModel& model, std::size_t jar, std::size_t wood, Score& score) {
    for (const double concentration : {0.7, 0.35}) {
        ShopReader::Strip strip = reader.new_strip(wood);
        const ReadLook before = reader.read(strip);
        const AppliedCoat coat{jar, concentration, 0};
        const LookForecast forecast = model.foretell(before, std::array{coat}, reader.place(strip));
        const Lab was = strip.board.look().whole;
        reader.put_on(strip, coat);
        score.add(forecast, strip.board.look(), was);
        // And a second coat over it.
        const ReadLook between = reader.read(strip);
        const AppliedCoat second{jar, concentration, 1};
        const LookForecast again = model.foretell(between, std::array{second}, reader.place(strip));
        const Lab first = strip.board.look().whole;
        reader.put_on(strip, second);
        score.add(again, strip.board.look(), first);
    }
}

// The finish after pairs, and what the hand alone does: the same coat on two boards.
void look_at_finish(std::uint64_t seed, Score& one, Score& three, Score& hand) {
    WoodShop shop(1000 + seed, 4);
    ShopReader reader(shop, seed);
    const std::size_t wood = seed % shop.woods().size();
    std::vector<FinishPair> pairs;
    const std::array<double, 3> u95{0.4, 0.4, 0.4};
    const auto strip_with = [&](std::size_t jar, double concentration) {
        ShopReader::Strip strip = reader.new_strip(wood);
        reader.put_on(strip, {jar, concentration, 0});
        return strip;
    };
    for (std::size_t i = 0; i < 3; ++i) {
        ShopReader::Strip strip = strip_with(i, 0.5);
        const Lab bare = whole_of(reader.read(strip).look);
        pairs.push_back({bare, whole_of(reader.read_finished(strip).look), u95, u95});
    }
    const FinishModel after_one({}, std::span(pairs).first(1)), after_three({}, pairs);
    for (const double concentration : {0.2, 0.8}) {
        ShopReader::Strip strip = strip_with(3, concentration), again = strip_with(3, concentration);
        const Lab bare = whole_of(reader.read(strip).look);
        const ShopLook truth = strip.board.finished_look();
        for (auto* score : {&one, &three}) {
            const FinishForecast forecast = (score == &one ? after_one : after_three).foretell(bare, u95);
            LookForecast look{plain_look(forecast.lab), LookCovariance::Zero()};
            for (int i = 0; i < 3; ++i)
                look.covariance(i, i) = std::pow(forecast.u95[static_cast<std::size_t>(i)] / 1.96, 2);
            score->add(look, truth, bare);
        }
        const Lab other = again.board.look().whole;
        hand.add({plain_look(other), LookCovariance::Identity()}, strip.board.look(), bare);
    }
}

}  // namespace

TEST_CASE("What a coat will do is foretold in the simulated wood shop", "[.shown][prediction]") {
    std::map<std::string, Score> scores;
    for (std::uint64_t seed = 1; seed <= shops; ++seed) {
        WoodShop shop(1000 + seed, 4);
        for (const std::size_t strips : {std::size_t{0}, std::size_t{1}, std::size_t{3}, std::size_t{10}}) {
            ShopReader reader(shop, seed * 100 + strips);
            const std::size_t wood = seed % shop.woods().size(), other = (seed + 4) % shop.woods().size();
            // The guide's order: full strength, a second coat on it, then thinner.
            std::vector<CoatObservation> seen;
            for (std::size_t jar = 0; jar < shop.jars().size(); ++jar)
                reader.make_strips(jar, wood, strips, seen);
            const ColourantModel model(reader.colourants(), seen);
            std::vector<CoatObservation> checked = seen;
            for (std::size_t jar = 0; jar < shop.jars().size(); ++jar)
                reader.make_strips(jar, other, 1, checked);
            const ColourantModel with_check(reader.colourants(), checked);
            for (std::size_t jar = 0; jar < shop.jars().size(); ++jar) {
                const char* kind = reader.is_dye(jar) ? "dye" : "pigment";
                ask(reader, model, jar, wood, scores[fmt::format("{}, same wood, {} strips", kind, strips)]);
                if (strips == 0) continue;
                ask(reader, model, jar, other,
                    scores[fmt::format("{}, other wood, {} strips", kind, strips)]);
                ask(reader, with_check, jar, other,
                    scores[fmt::format("{}, other wood, {} strips + 1 there", kind, strips)]);
            }
        }
    }
    Score finish_one, finish_three, hand;
    for (std::uint64_t seed = 1; seed <= shops; ++seed) look_at_finish(seed, finish_one, finish_three, hand);
    fmt::print("Foretold coats, ΔE2000 median / 95th percentile:\n");
    for (const auto& [name, score] : scores) print(name, score);
    print("finish after one pair", finish_one);
    print("finish after three pairs", finish_three);
    fmt::print("  the hand and the board alone: one coat on two boards {:.2f} / {:.2f}\n",
               quantile(hand.error, 0.5), quantile(hand.error, 0.95));
    const auto promised = [&](const char* name, double median, double most) {
        INFO(name);
        const Score& score = scores.at(name);
        CHECK(quantile(score.error, 0.5) <= median);
        CHECK(quantile(score.error, 0.95) <= most);
        CHECK(score.coverage() >= 90);
        CHECK(score.coverage() <= 99);
    };
    promised("dye, same wood, 10 strips", 0.8, 2.2);
    promised("pigment, same wood, 3 strips", 1.2, 3.5);
    promised("pigment, same wood, 10 strips", 1.2, 3.5);
    promised("dye, other wood, 3 strips + 1 there", 1.0, 2.6);
    promised("pigment, other wood, 3 strips + 1 there", 1.8, 4.2);
    CHECK(quantile(finish_three.error, 0.5) <= 0.6);
    CHECK(quantile(finish_three.error, 0.95) <= 1.2);
    // One strip on the job's own wood is worth more than ten elsewhere.
    CHECK(quantile(scores.at("dye, other wood, 1 strips + 1 there").error, 0.95) <
          quantile(scores.at("dye, other wood, 10 strips").error, 0.95));
    CHECK(quantile(scores.at("pigment, other wood, 1 strips + 1 there").error, 0.95) <
          quantile(scores.at("pigment, other wood, 10 strips").error, 0.95));
}
