// Saunderson's correction against worked values, and the forecast of the finished look.
#include "measure/finish_on.h"

#include <cmath>

#include "colour/difference.h"
#include "measure/film.h"
#include "tests/catch.h"

using namespace tonemend;

// J. L. Saunderson, J. Opt. Soc. Am. 32 (1942), with k1 = 0.04 and k2 = 0.6, worked by hand:
// 0.04 + 0.96 · 0.4 · R / (1 − 0.6 R).
TEST_CASE("Saunderson's correction has the worked values and limits") {
    CHECK(saunderson(0) == Approx(0.04).epsilon(1e-14));
    CHECK(saunderson(1) == Approx(1).epsilon(1e-14));
    CHECK(saunderson(0.5) == Approx(0.04 + 0.192 / 0.7).epsilon(1e-14));
    CHECK(saunderson(0.25) == Approx(0.04 + 0.096 / 0.85).epsilon(1e-14));
    CHECK(saunderson(0.3, 0, 0) == Approx(0.3).epsilon(1e-14));
}

TEST_CASE("Saunderson's correction is undone exactly") {
    for (const double body : {0.0, 0.01, 0.2, 0.5, 0.9, 1.0})
        CHECK(saunderson_body(saunderson(body)) == Approx(body).margin(1e-13));
}

TEST_CASE("Through a film without wetting, tint and haze a camera sees its own share of what leaves") {
    // k1 = 0.04 is n = 1.5: 0.96 · 0.96 / 2.25 = 0.4096 of R / (1 − 0.6 R), worked by hand.
    CHECK(through_film(0.5, {}) == Approx(0.4096 * 0.5 / 0.7).epsilon(1e-12));
    ClearFilm hazy;
    hazy.haze = 0.01;
    CHECK(through_film(0.5, hazy) == Approx(0.01 + 0.4096 * 0.5 / 0.7).epsilon(1e-12));
    ClearFilm yellow;
    yellow.density = 0.1;
    CHECK(through_film(0.5, yellow) < through_film(0.5, {}));
    ClearFilm wetting;
    wetting.wetting = 0.2;
    CHECK(through_film(0.5, wetting) < through_film(0.5, {}));
}

namespace {

constexpr std::array<double, 3> u95{0.2, 0.2, 0.2};
const std::vector<Lab> woods{{75, 6, 22}, {62, 12, 28}, {50, 14, 24}, {40, 10, 14}, {58, 20, 30}};

FinishForecast foretell(const Lab& bare, const FinishFacts& facts, std::span<const FinishPair> pairs = {}) {
    return FinishModel(facts, pairs).foretell(bare, u95);
}

}  // namespace

TEST_CASE("Finish makes bare wood darker and fuller in colour") {
    // Common practice, no source.
    for (const Lab& bare : woods) {
        const Lab finished = foretell(bare, {}).lab;
        CHECK(finished.L < bare.L - 2);
        CHECK(std::hypot(finished.a, finished.b) / finished.L > std::hypot(bare.a, bare.b) / bare.L);
    }
}

TEST_CASE("An amber finish is foretold yellower than a clear one, a matt one lighter than gloss") {
    for (const Lab& bare : woods) {
        const FinishFacts clear{FinishLook::finished, FinishTint::clear, FinishSheen::gloss};
        const FinishFacts amber{FinishLook::finished, FinishTint::amber, FinishSheen::gloss};
        const FinishFacts matt{FinishLook::finished, FinishTint::clear, FinishSheen::matt};
        CHECK(foretell(bare, amber).lab.b > foretell(bare, clear).lab.b + 0.5);
        CHECK(foretell(bare, matt).lab.L > foretell(bare, clear).lab.L + 0.5);
    }
}

TEST_CASE("Pairs draw the forecast to themselves and narrow its interval") {
    const FinishFacts facts;
    std::vector<FinishPair> pairs;
    double last = foretell(woods[0], facts).de2000_u95;
    for (std::size_t i = 1; i < woods.size(); ++i) {
        // A finish that comes out 1.5 darker and 2 yellower than physics says.
        Lab finished = foretell(woods[i], facts).lab;
        finished.L -= 1.5, finished.b += 2;
        pairs.push_back({woods[i], finished, u95, u95});
        const double now = foretell(woods[0], facts, pairs).de2000_u95;
        CHECK(now <= last + 1e-9);
        last = now;
    }
    const Lab before = foretell(woods[0], facts).lab, after = foretell(woods[0], facts, pairs).lab;
    CHECK(after.L < before.L - 0.7);
    CHECK(after.b > before.b + 1);
}

TEST_CASE("Forecasts stay finite for the blackest and whitest bare colours") {
    for (const Lab& bare : {Lab{0, 0, 0}, Lab{100, 0, 0}, Lab{5, 1, 1}, Lab{60, 40, 70}}) {
        const FinishForecast forecast = foretell(bare, {});
        CHECK(std::isfinite(forecast.lab.L + forecast.lab.a + forecast.lab.b));
        CHECK(std::isfinite(forecast.de2000_u95));
    }
}
