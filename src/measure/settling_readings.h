#pragma once

#include <array>
#include <span>
#include <vector>

#include "colour/lab.h"

namespace tonemend {

/// L*, a* and b* in this order.
inline std::array<double, 3> axes_of(const Lab& lab) {
    return {lab.L, lab.a, lab.b};
}

/// A region's colour at a time.
struct TimedLab {
    double seconds = 0;  ///< on any clock that runs on, such as since 1970
    Lab lab;
    std::array<double, 3> u95{};  ///< half widths of its own 95 % intervals; what they share over time counts
                                  ///< not here
};

/// Readings close in time as one.
struct SettlingPoint {
    double seconds = 0;                ///< since the first reading
    std::array<double, 3> lab{};       ///< weighed mean
    std::array<double, 3> variance{};  ///< of it, with what no curve explains
};

/// How much readings scatter about a smooth curve: the standard deviation of one, per axis, from each
/// reading's distance from the line through its neighbours in time (robust; a supposed 0.04 weighs
/// as much as four readings, so that few do not look perfect). At least 0.01.
std::array<double, 3> find_scatter(std::span<const TimedLab> readings);

/// Weights, 0 or 1: 0 for a reading in the middle of others (not the first or last two) that lies more than
/// eight of `scatter` off the median of five in time, on either axis.
std::vector<double> weigh_by_neighbours(std::span<const TimedLab> readings,
                                        const std::array<double, 3>& scatter);

/// Readings put together, so that a thousand cost no more than a hundred: those within a tenth of the
/// time passed since the first one. `weights`, one a reading, 0..1; a point whose weights are all 0 is left
/// out. Readings are in order of time.
std::vector<SettlingPoint> gather_points(std::span<const TimedLab> readings, std::span<const double> weights,
                                         const std::array<double, 3>& scatter);

}  // namespace tonemend
