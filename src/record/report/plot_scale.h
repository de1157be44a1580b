#pragma once

#include <string>
#include <vector>

namespace tonemend {

/// Where values stand along an axis, and which are marked.
struct PlotScale {
    double low = 0, high = 1;   ///< values at the ends
    double from = 0, to = 1;    ///< their places in the drawing
    std::vector<double> ticks;  ///< round values within
    double operator()(double value) const { return from + (value - low) / (high - low) * (to - from); }
};

/// Lays the axis out over [low, high], which it holds with room beside; over six units at least. `least_span`
/// makes it longer.
PlotScale plot_scale(double low, double high, double from, double to, double least_span = 6);

/// A tick's value: "12", "−2", "0.5".
std::string tick_text(double value);

}  // namespace tonemend
