#include "measure/sheen_verdict.h"

#include "tests/catch.h"

using namespace tonemend;

namespace {

GlossSplit glossy(double gloss, double u) {
    GlossSplit split;
    split.gloss = gloss, split.gloss_u = u;
    return split;
}

GlossSplit shimmering(double shimmer, double u95) {
    GlossSplit split;
    split.shimmer = shimmer, split.shimmer_u95 = u95;
    return split;
}

}  // namespace

// The rules are this program's own (sheen_verdict.h).
TEST_CASE("Sheens are alike within 0.4 percent of white or a quarter of the gloss, interval included") {
    CHECK(judge_sheen(glossy(0.001, 0.0005), glossy(0.002, 0.0005)).verdict == SheenVerdict::alike);
    CHECK(judge_sheen(glossy(0.040, 0.0005), glossy(0.045, 0.0005)).verdict == SheenVerdict::alike);
    CHECK(judge_sheen(glossy(0.001, 0.0005), glossy(0.020, 0.0005)).verdict == SheenVerdict::repair_glossier);
    CHECK(judge_sheen(glossy(0.020, 0.0005), glossy(0.001, 0.0005)).verdict == SheenVerdict::repair_duller);
    CHECK(judge_sheen(glossy(0.001, 0.0005), glossy(0.005, 0.0005)).verdict == SheenVerdict::undecided);
    CHECK(judge_sheen(glossy(0.001, 0.01), glossy(0.002, 0.01)).verdict == SheenVerdict::undecided);
    CHECK(judge_sheen(glossy(0.020, 0.001), glossy(0.001, 0.001)).difference == Approx(-0.019));
}

TEST_CASE("A repair that shimmers less than half as much as its original has lost the figure") {
    CHECK(judge_figure(shimmering(0.03, 0.004), shimmering(0.002, 0.003)) == FigureVerdict::lost);
    CHECK(judge_figure(shimmering(0.002, 0.003), shimmering(0.03, 0.004)) == FigureVerdict::gained);
    CHECK(judge_figure(shimmering(0.03, 0.004), shimmering(0.02, 0.004)) == FigureVerdict::kept);
    CHECK(judge_figure(shimmering(0.03, 0.004), shimmering(0.013, 0.004)) == FigureVerdict::undecided);
    CHECK(judge_figure(shimmering(0.004, 0.003), shimmering(0.002, 0.003)) == FigureVerdict::plain);
    CHECK(judge_figure(shimmering(0.004, 0.03), shimmering(0.002, 0.03)) == FigureVerdict::undecided);
}
