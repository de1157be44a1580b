#include "record/report/report_palette.h"

#include <fmt/format.h>

#include <cmath>

#include "colour/srgb_curve.h"

namespace tonemend {

ReportPalette report_palette(bool grey) {
    ReportPalette palette;
    if (grey) palette.accent = grey_of(palette.accent), palette.band = grey_of(palette.band);
    return palette;
}

std::string hex_of(const ReportRgb& colour) {
    return fmt::format("#{:02x}{:02x}{:02x}", colour[0], colour[1], colour[2]);
}

ReportRgb grey_of(const ReportRgb& colour) {
    // The luminance row of sRGB's matrix (IEC 61966-2-1).
    const double luminance = 0.2126 * decode_srgb(colour[0] / 255.0) +
                             0.7152 * decode_srgb(colour[1] / 255.0) +
                             0.0722 * decode_srgb(colour[2] / 255.0);
    const int grey = static_cast<int>(std::lround(255 * encode_srgb(luminance)));
    return {grey, grey, grey};
}

}  // namespace tonemend
