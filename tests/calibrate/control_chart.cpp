// What the chart says of a calibration. The rules are this program's own (calibrate/keep/control_chart.h);
// its statistics are tested in individuals_chart.cpp.
#include "calibrate/keep/control_chart.h"

#include "colour/difference.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

ControlChart chart_of(const std::vector<Lab>& readings) {
    ControlChart chart;
    chart.known = Lab{50, 10, 20};
    for (const Lab& lab : readings) chart.points.push_back({"2026-11-25T10:09:00Z", "check.png", lab});
    return chart;
}

/// Readings around the known colour that differ by ±0.2 in L*.
std::vector<Lab> steady(std::size_t count) {
    std::vector<Lab> readings;
    for (std::size_t i = 0; i < count; ++i) readings.push_back({i % 2 == 0 ? 50.2 : 49.8, 10, 20});
    return readings;
}

std::vector<Lab> with(std::vector<Lab> readings, const Lab& last) {
    readings.push_back(last);
    return readings;
}

}  // namespace

TEST_CASE("A chart without a point says that nothing was checked") {
    CHECK(judge_chart({}).state == ChartState::unchecked);
    CHECK(judge_chart(chart_of({})).state == ChartState::unchecked);
}

TEST_CASE("With few points the distance from the known colour judges alone, at the chart's own limits") {
    CHECK(judge_chart(chart_of({{50.5, 10, 20}})).state == ChartState::good);
    const ChartVerdict off = judge_chart(chart_of({{51.5, 10, 20}}));
    CHECK(off.state == ChartState::drifting);
    CHECK(off.from_known == Approx(ciede2000({50, 10, 20}, {51.5, 10, 20}).value));
    CHECK_FALSE(off.limits.has_value());
    CHECK_THAT(off.why, contains("over 1"));
    CHECK(judge_chart(chart_of({{52.5, 10, 20}})).state == ChartState::expired);
    ControlChart lenient = chart_of({{52.5, 10, 20}});
    lenient.warn_de2000 = 3, lenient.expire_de2000 = 5;
    CHECK(judge_chart(lenient).state == ChartState::good);
    // One good reading after a bad one: the last one counts.
    CHECK(judge_chart(chart_of({{55, 10, 20}, {50, 10, 20}})).state == ChartState::good);
}

TEST_CASE("With eight points a departure from what is usual ends a calibration long before the fixed limit") {
    CHECK(judge_chart(chart_of(steady(12))).state == ChartState::good);
    // Mean range 0.4, so σ 0.355 and the limits at 1.06: b* never moved, so its σ is the least, 0.1.
    const ChartVerdict jumped = judge_chart(chart_of(with(steady(20), {50, 10, 20.35})));
    CHECK(jumped.state == ChartState::expired);
    CHECK(jumped.from_known < 0.5);
    CHECK_THAT(jumped.why, contains("b* of the check patch is 20.35, beyond 20.00 ± 0.30"));
    const ChartVerdict near = judge_chart(chart_of(with(steady(20), {50, 10, 20.25})));
    CHECK(near.state == ChartState::drifting);
    REQUIRE(near.limits);
    CHECK((*near.limits)[0].sigma == Approx(0.4 / 1.128));
    CHECK(judge_chart(chart_of(with(with(steady(20), {50, 10, 20.25}), {50, 10, 20.25}))).state ==
          ChartState::expired);
}

TEST_CASE("A slow drift is not taken into the limits that should show it") {
    std::vector<Lab> readings = steady(20);
    for (int i = 1; i <= 40; ++i) readings.push_back({50, 10 + 0.02 * i, 20});
    const ChartVerdict verdict = judge_chart(chart_of(readings));
    REQUIRE(verdict.limits);
    CHECK((*verdict.limits)[1].centre == Approx(10));
    CHECK(verdict.state == ChartState::expired);
    CHECK(verdict.from_known < 1);
}

TEST_CASE("The chart on the terminal keeps to 80 columns and marks what is beyond the fixed limit") {
    const std::string text = draw_chart(chart_of({{50.5, 10, 20}, {90, 10, 20}}));
    CHECK_THAT(text, contains("o") && contains("X") && contains("2026-11-25T10:09:00Z"));
    std::size_t start = 0;
    while (start < text.size()) {
        const std::size_t end = text.find('\n', start);
        std::size_t columns = 0;
        for (std::size_t i = start; i < end; ++i)
            columns += (static_cast<unsigned char>(text[i]) & 0xc0) != 0x80 ? 1 : 0;
        CHECK(columns <= 80);
        start = end + 1;
    }
}
