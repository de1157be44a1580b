#include "calibrate/keep/control_chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <span>

#include "colour/difference.h"

namespace tonemend {
namespace {

constexpr std::size_t least_points = 8, most_baseline = 20;
constexpr double least_sigma = 0.1;
constexpr std::array axis_names{"L*", "a*", "b*"};

std::vector<double> along(const ControlChart& chart, std::size_t axis) {
    std::vector<double> values;
    for (const ChartPoint& point : chart.points)
        values.push_back(axis == 0 ? point.lab.L : axis == 1 ? point.lab.a : point.lab.b);
    return values;
}

std::string say(ChartRule rule, const char* axis, double value, const IndividualsLimits& limits) {
    switch (rule) {
        case ChartRule::beyond_action:
            return fmt::format("{} of the check patch is {:.2f}, beyond {:.2f} ± {:.2f}", axis, value,
                               limits.centre, limits.action());
        case ChartRule::two_of_three:
            return fmt::format("{} of the check patch was beyond {:.2f} ± {:.2f} two times out of three",
                               axis, limits.centre, limits.warning());
        case ChartRule::eight_on_a_side:
            return fmt::format("{} of the check patch was {} {:.2f} eight times in a row", axis,
                               value > limits.centre ? "above" : "below", limits.centre);
        case ChartRule::beyond_warning:
            return fmt::format("{} of the check patch is {:.2f}, beyond {:.2f} ± {:.2f}", axis, value,
                               limits.centre, limits.warning());
        case ChartRule::none:
            break;
    }
    return {};
}

void judge_against_known(const ControlChart& chart, ChartVerdict& verdict) {
    verdict.state = ChartState::good;
    verdict.from_known = ciede2000(*chart.known, chart.points.back().lab).value;
    if (verdict.from_known <= chart.warn_de2000) return;
    const bool expired = verdict.from_known > chart.expire_de2000;
    verdict.state = expired ? ChartState::expired : ChartState::drifting;
    verdict.why = fmt::format("the check patch reads {:.2f} ΔE2000 off its known colour, over {:g}",
                              verdict.from_known, expired ? chart.expire_de2000 : chart.warn_de2000);
}

void judge_against_itself(const ControlChart& chart, ChartVerdict& verdict) {
    if (chart.points.size() < least_points) return;
    auto& limits = verdict.limits.emplace();
    for (std::size_t axis = 0; axis < 3; ++axis) {
        const std::vector<double> values = along(chart, axis);
        limits[axis] = limits_of(std::span(values).first(std::min(values.size(), most_baseline)));
        limits[axis].sigma = std::max(limits[axis].sigma, least_sigma);
        const ChartRule rule = broken_rule(values, limits[axis]);
        if (rule == ChartRule::none) continue;
        const ChartState state =
            rule == ChartRule::beyond_warning ? ChartState::drifting : ChartState::expired;
        if (state <= verdict.state) continue;
        verdict.state = state;
        verdict.why = say(rule, axis_names[axis], values.back(), limits[axis]);
    }
    const Lab centre{limits[0].centre, limits[1].centre, limits[2].centre};
    verdict.from_centre = ciede2000(centre, chart.points.back().lab).value;
}

}  // namespace

ChartVerdict judge_chart(const ControlChart& chart) {
    ChartVerdict verdict;
    if (!chart.known || chart.points.empty()) return verdict;
    judge_against_known(chart, verdict);
    judge_against_itself(chart, verdict);
    return verdict;
}

std::string draw_chart(const ControlChart& chart, std::size_t rows) {
    if (!chart.known) return {};
    constexpr int width = 36;
    const double scale = width / (1.5 * chart.expire_de2000);
    const auto cell = [&](double de2000) { return std::min(static_cast<int>(de2000 * scale), width - 1); };
    std::string text = fmt::format("  {:<20}   ΔE2000 from L* {:.1f}  a* {:.1f}  b* {:.1f}\n", "",
                                   chart.known->L, chart.known->a, chart.known->b);
    const std::size_t first = chart.points.size() > rows ? chart.points.size() - rows : 0;
    for (std::size_t i = first; i < chart.points.size(); ++i) {
        const double off = ciede2000(*chart.known, chart.points[i].lab).value;
        std::string line(static_cast<std::size_t>(width), ' ');
        line[static_cast<std::size_t>(cell(chart.warn_de2000))] = ':';
        line[static_cast<std::size_t>(cell(chart.expire_de2000))] = '|';
        line[static_cast<std::size_t>(cell(off))] = off > chart.expire_de2000 ? 'X' : 'o';
        text += fmt::format("  {:<20}  |{}  {:.2f}\n", chart.points[i].when, line, off);
    }
    text += fmt::format("  {:<20}   ':' warns at {:g}, '|' expires at {:g}\n", "", chart.warn_de2000,
                        chart.expire_de2000);
    return text;
}

}  // namespace tonemend
