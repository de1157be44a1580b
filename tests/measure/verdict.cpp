#include "measure/verdict.h"

#include "tests/catch.h"

using namespace tonemend;

TEST_CASE("A match needs the whole interval at or under the tolerance") {
    CHECK(judge(0.5, 0.5, 1.0) == Verdict::match);
    CHECK(judge(0.5, 0.51, 1.0) == Verdict::close);
    CHECK(judge(0.0, 0.0, 1.0) == Verdict::match);
}

TEST_CASE("Off needs the whole interval over twice the tolerance") {
    CHECK(judge(2.6, 0.5, 1.0) == Verdict::off);
    CHECK(judge(2.5, 0.5, 1.0) == Verdict::close);
    CHECK(judge(9.0, 3.0, 1.0) == Verdict::off);
}

TEST_CASE("An interval wider than the tolerance that settles nothing is undecided") {
    CHECK(judge(1.0, 1.2, 1.0) == Verdict::undecided);
    CHECK(judge(3.0, 1.2, 1.0) == Verdict::undecided);
    CHECK(judge(3.3, 1.2, 1.0) == Verdict::off);
    CHECK(judge(1.5, 1.2, 2.0) == Verdict::close);
}
