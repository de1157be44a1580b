#pragma once

#include <array>
#include <string>
#include <vector>

namespace tonemend {

/// Encoded sRGB, 8 bits a channel.
using ReportRgb = std::array<int, 3>;

/// The report's few colours: neutral, so that the wood's stay the only ones, and one cool blue-grey accent;
/// with `grey` a grey of the same lightness in its place.
struct ReportPalette {
    ReportRgb paper{255, 255, 255};
    ReportRgb ink{28, 28, 28};
    ReportRgb faint{84, 84, 84};     ///< small print and captions
    ReportRgb accent{44, 82, 112};   ///< headings, and marks in plots
    ReportRgb plate{240, 240, 240};  ///< behind verdicts and table heads
    ReportRgb band{224, 231, 238};   ///< the ± of a level, in plots; never behind text
    ReportRgb rule{176, 176, 176};   ///< thin lines; never text

    /// What text is written in, and on what.
    std::vector<ReportRgb> text_colours() const { return {ink, faint, accent}; }
    std::vector<ReportRgb> grounds() const { return {paper, plate}; }
};

ReportPalette report_palette(bool grey);

/// "#2c5270".
std::string hex_of(const ReportRgb& colour);
/// The grey that is as light (relative luminance, in linear light).
ReportRgb grey_of(const ReportRgb& colour);

}  // namespace tonemend
