#include "calibrate/keep/individuals_chart.h"

#include <cmath>
#include <random>
#include <vector>

#include "tests/catch.h"

using namespace tonemend;

TEST_CASE("Centre and limits of a chart of individuals are those of the handbook's flow rates") {
    // NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2: ten batches, mean 50.81, mean moving range
    // 1.8778, limits 45.8159 and 55.8041.
    const std::vector<double> flow{49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1};
    const IndividualsLimits limits = limits_of(flow);
    CHECK(limits.centre == Approx(50.81).margin(1e-12));
    CHECK(limits.sigma * 1.128 == Approx(1.8778).margin(5e-5));
    // The handbook's limits are reckoned from the rounded mean range.
    CHECK(limits.centre + limits.action() == Approx(55.8041).margin(1e-4));
    CHECK(limits.centre - limits.action() == Approx(45.8159).margin(1e-4));
    for (std::size_t n = 1; n <= flow.size(); ++n)
        CHECK(broken_rule(std::span(flow).first(n), limits) == ChartRule::none);
}

TEST_CASE("Each rule of the chart is broken by its own pattern and by no lesser one") {
    // The rules: Western Electric, Statistical Quality Control Handbook (1956), as ISO 7870-2 lists them.
    const IndividualsLimits limits{10, 1};
    const auto rule = [&](const std::vector<double>& values) { return broken_rule(values, limits); };
    CHECK(rule({}) == ChartRule::none);
    CHECK(rule({13.01}) == ChartRule::beyond_action);
    CHECK(rule({6.99}) == ChartRule::beyond_action);
    CHECK(rule({12.99}) == ChartRule::beyond_warning);
    CHECK(rule({12.1, 10, 12.1}) == ChartRule::two_of_three);
    CHECK(rule({7.9, 7.9}) == ChartRule::two_of_three);
    CHECK(rule({12.1, 10, 10, 12.1}) == ChartRule::beyond_warning);
    CHECK(rule({7.9, 10, 12.1}) == ChartRule::beyond_warning);
    CHECK(rule({12.1, 12.1, 11.9}) == ChartRule::none);
    CHECK(rule({10.1, 10.1, 10.1, 10.1, 10.1, 10.1, 10.1, 10.1}) == ChartRule::eight_on_a_side);
    CHECK(rule({10.1, 10.1, 10.1, 10.1, 10.1, 10.1, 10.1}) == ChartRule::none);
    CHECK(rule({10.1, 10.1, 9.9, 10.1, 10.1, 10.1, 10.1, 10.1}) == ChartRule::none);
}

TEST_CASE("A chart in control cries out as seldom as the published run lengths say") {
    // C. W. Champ, W. H. Woodall, "Exact results for Shewhart control charts with supplementary runs rules",
    // Technometrics 29 (1987): mean run length 122.05 with the rules 3σ, two of three beyond 2σ, and eight on
    // a side (the figure from memory).
    std::mt19937_64 random(7870);
    std::normal_distribution<double> normal(0, 1);
    constexpr int runs = 20'000;
    double sum = 0, squares = 0;
    for (int run = 0; run < runs; ++run) {
        std::vector<double> values;
        ChartRule rule = ChartRule::none;
        while (rule == ChartRule::none || rule == ChartRule::beyond_warning) {
            values.push_back(normal(random));
            rule = broken_rule(values, {0, 1});
        }
        const auto length = static_cast<double>(values.size());
        sum += length, squares += length * length;
    }
    const double mean = sum / runs, error = std::sqrt((squares / runs - mean * mean) / runs);
    INFO("mean run length " << mean << " ± " << error);
    CHECK(std::abs(mean - 122.05) < 3 * error);
}
