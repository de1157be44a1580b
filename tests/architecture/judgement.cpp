#include "tests/support/judgement.h"

#include "tests/catch.h"

using namespace tonemend;

TEST_CASE("Of several hypotheses those fall that Holm's method fells") {
    // The example that textbooks work through (from memory): against 0.05/4, 0.05/3 and 0.05/2 two of four
    // fall.
    CHECK(fallen_by_holm({0.01, 0.04, 0.03, 0.005}, 0.05) == std::vector<bool>{true, false, false, true});
    // Each alone would fall at 0.05, and at 0.05/3 none does.
    CHECK(fallen_by_holm({0.04, 0.03, 0.02}, 0.05) == std::vector<bool>{false, false, false});
    CHECK(fallen_by_holm({}, 0.05).empty());
}

TEST_CASE("The nearest value of a sorted list stands at a share of it") {
    CHECK(quantile({3, 1, 2}, 0.5) == 2);
    CHECK(quantile({3, 1, 2}, 0) == 1);
    CHECK(quantile({3, 1, 2}, 1) == 3);
    CHECK(quantile({7}, 0.95) == 7);
}

TEST_CASE("A rise of every picture's error has no chance to be none, and a shuffled list has") {
    std::vector<double> before, after, shuffled;
    for (int i = 0; i < 200; ++i) before.push_back(i % 17), after.push_back(i % 17 + 1);
    for (int i = 0; i < 200; ++i) shuffled.push_back(before[static_cast<std::size_t>((i * 37) % 200)]);
    CHECK(chance_of_rise(after, before, 0.5, 1, 400) == 1 / 401.0);
    CHECK(chance_of_rise(before, after, 0.5, 1, 400) == 1);
    CHECK(chance_of_rise(shuffled, before, 0.95, 1, 400) > 0.05);
}

TEST_CASE("Values of one picture are drawn together") {
    // Each picture has one error that rises and one that falls by as much: apart they might be drawn
    // unevenly.
    std::vector<double> before, after;
    for (int i = 0; i < 50; ++i) before.insert(before.end(), {1, 3}), after.insert(after.end(), {3, 1});
    CHECK(chance_of_rise(after, before, 0.5, 2, 400) == 1);
}
