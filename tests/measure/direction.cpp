#include "measure/direction.h"

#include "colour/difference.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

constexpr std::array<double, 3> sure{0.1, 0.1, 0.1};
const Lab original{45, 14, 26};

Move first_move(double dL, double da, double db) {
    const auto steps = find_direction(original, {original.L + dL, original.a + da, original.b + db}, sure);
    REQUIRE_FALSE(steps.empty());
    return steps.front().move;
}

}  // namespace

TEST_CASE("Each move takes away the difference that the repair has") {
    CHECK(first_move(+3, 0, 0) == Move::darken);
    CHECK(first_move(-3, 0, 0) == Move::lighten);
    CHECK(first_move(0, -3, 0) == Move::redden);
    CHECK(first_move(0, +3, 0) == Move::greenen);
    CHECK(first_move(0, 0, -3) == Move::yellow);
    CHECK(first_move(0, 0, +3) == Move::blue);
}

TEST_CASE("Moves are ranked by what they gain, and the gain is the fall of the colour difference") {
    const Lab repair{48, 10, 25};
    const auto steps = find_direction(original, repair, sure);
    REQUIRE(steps.size() >= 2);
    for (std::size_t i = 1; i < steps.size(); ++i) CHECK(steps[i - 1].gain_de2000 >= steps[i].gain_de2000);
    for (const Step& step : steps) {
        if (step.move != Move::darken) continue;
        CHECK(step.amount == Approx(3));
        CHECK(step.gain_de2000 ==
              Approx(ciede2000(original, repair).value - ciede2000(original, {45, 10, 25}).value));
    }
}

TEST_CASE("A difference inside its own uncertainty is not given as a move") {
    CHECK(find_direction(original, {45.4, 14, 26}, {0.5, 0.5, 0.5}).empty());
    CHECK(find_direction(original, {45.6, 14, 26}, {0.5, 0.5, 0.5}).size() == 1);
    CHECK(find_direction(original, original, sure).empty());
}

TEST_CASE("The next move is said in bench words") {
    const auto steps = find_direction(original, {47, 11.5, 26}, sure);
    CHECK(say_direction(steps, Verdict::off) == "Redden clearly, then darken.");
    CHECK(say_direction({{Move::darken, 1.0, 0.8}, {Move::redden, 0.5, 0.3}}, Verdict::close) ==
          "Darken a little, then look for red.");
    CHECK(say_direction({}, Verdict::match) == "It matches: leave it.");
}

TEST_CASE("A long way to darken comes with a caution, and so does lightening") {
    // common practice, no source
    CHECK(say_direction({{Move::darken, 4.5, 3.0}}, Verdict::off) ==
          "Darken a lot. In thin coats, each read dry: dark is hard to undo.");
    CHECK(say_direction({{Move::lighten, 2.0, 1.5}}, Verdict::off).find("sample board") != std::string::npos);
}
