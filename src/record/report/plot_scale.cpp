#include "record/report/plot_scale.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace tonemend {
namespace {

// 1, 2 or 5 times a power of ten, so that there are at most seven in the span.
double round_step(double span) {
    const double least = span / 7, power = std::pow(10, std::floor(std::log10(least)));
    for (const double step : {1.0, 2.0, 5.0})
        if (step * power >= least) return step * power;
    return 10 * power;
}

}  // namespace

PlotScale plot_scale(double low, double high, double from, double to, double least_span) {
    const double middle = (low + high) / 2, span = std::max(1.24 * (high - low), least_span);
    PlotScale scale{middle - span / 2, middle + span / 2, from, to, {}};
    const double step = round_step(span);
    for (double k = std::ceil(scale.low / step); k * step <= scale.high; ++k) scale.ticks.push_back(k * step);
    return scale;
}

std::string tick_text(double value) {
    const double shown = std::abs(value) < 1e-9 ? 0 : value;
    return fmt::format("{}{:g}", shown < 0 ? "−" : "", std::abs(shown));
}

}  // namespace tonemend
