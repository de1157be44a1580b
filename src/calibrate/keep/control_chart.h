#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "calibrate/keep/individuals_chart.h"
#include "colour/lab.h"

namespace tonemend {

/// One reading of the check patch.
struct ChartPoint {
    std::string when;     ///< "2026-11-25T10:09:00Z"
    std::string picture;  ///< the picture's name
    Lab lab;
};

/// How a calibrated camera has read a check patch of known colour, session by session.
struct ControlChart {
    std::optional<Lab> known;    ///< the check patch's colour; absent before the first check
    double warn_de2000 = 1.0;    ///< from the known colour: a warning
    double expire_de2000 = 2.0;  ///< and the end of the calibration
    std::vector<ChartPoint> points;
};

enum class ChartState { unchecked, good, drifting, expired };

/// What the chart's last point says of the calibration.
struct ChartVerdict {
    ChartState state = ChartState::unchecked;
    std::string why;                    ///< one line for people; empty when unchecked or good
    double from_known = 0;              ///< ΔE2000 of the last point from the known colour
    std::optional<double> from_centre;  ///< ΔE2000 of the last point from the chart's centre
    std::optional<std::array<IndividualsLimits, 3>> limits;  ///< of L*, a*, b*; absent with too few points
};

/// The chart's centre and limits come from its first points: at least 8, at most 20 (common practice). σ is
/// taken as 0.1 at least, the last digit of a reading: a camera that happens to repeat itself must not make a
/// tenth look like a change. Before there are 8 points the distance from the known colour judges alone.
/// Expired: the last point is farther than expire_de2000 from the known colour, or L*, a* or b* breaks one of
/// the first three rules of ChartRule. Drifting: over warn_de2000, or beyond a warning limit.
ChartVerdict judge_chart(const ControlChart& chart);

/// The chart as lines of text for a terminal at most 80 columns wide: a row for each of the last `rows`
/// points, with its distance from the known colour drawn against both fixed limits.
std::string draw_chart(const ControlChart& chart, std::size_t rows = 20);

}  // namespace tonemend
