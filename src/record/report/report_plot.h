#pragma once

#include <optional>
#include <vector>

#include "record/report/report_content.h"
#include "record/report/report_drawing.h"

namespace tonemend {

// Drawings of an area's readings, all `report_plot_width` wide. Nothing but shape, number and line style
// tells things apart. Readings whose colours are no colours (damaged) are left out.

inline constexpr double report_plot_width = 340;

/// a* to the right, b* upwards, at one scale: the original as of the last reading as a ring, the repair as
/// discs with their readings' numbers, joined in their order; unfit ones are hollow, and a number that a
/// later disc would lie over is left out. Nothing without readings.
std::optional<ReportDrawing> draw_ab_plot(const std::vector<ReportPoint>& points,
                                          const ReportPalette& palette);

/// L* upwards over the readings in their order: the original as a line with its ± as a band, which is left
/// out where the ± is not known; the repair as above.
std::optional<ReportDrawing> draw_lightness_plot(const std::vector<ReportPoint>& points,
                                                 const ReportPalette& palette);

/// Original and repair as even colours, edge to edge; with `grey` as greys.
ReportDrawing draw_swatches(const Lab& original, const Lab& repair, const ReportPalette& palette, bool grey);

}  // namespace tonemend
