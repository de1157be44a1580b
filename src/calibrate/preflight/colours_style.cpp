#include "calibrate/preflight/colours_style.h"

#include <fmt/format.h>

#include <cmath>
#include <complex>
#include <numbers>

#include "calibrate/tone/steps.h"
#include "colour/lab.h"
#include "colour/rgb_space.h"

namespace tonemend {
namespace {

constexpr double most_saturation = 1.20, most_turn = 9;
constexpr int fewest_patches = 3;
constexpr double most_one_sided =
    0.8;  // length of the sum of the stated a* + i·b* over the sum of their lengths

}  // namespace

std::optional<ColourStyle> find_colour_style(const Calibration& calibration) {
    // Not the fitted model: that would have learnt the style.
    const Matrix3 by_camera = rgb_to_xyz_d50(romm_rgb) * calibration.characterisation.model.to_working;
    std::complex<double> products, sum;
    double squares = 0, lengths = 0;
    int patches = 0;
    for (const PatchReading& reading : calibration.patches) {
        if (reading.patch.neutral() || reading.pixels == 0) continue;
        if (reading.clipped_share() > clipped_share_allowed) continue;
        const Vector3 xyz = by_camera * calibration.light_of(reading);
        const Lab seen = to_lab({xyz[0], xyz[1], xyz[2]}, d50_icc);
        const std::complex<double> stated{reading.patch.lab.a, reading.patch.lab.b}, read{seen.a, seen.b};
        products += std::conj(stated) * read;
        squares += std::norm(stated);
        sum += stated, lengths += std::abs(stated);
        ++patches;
    }
    if (patches < fewest_patches || std::abs(sum) > most_one_sided * lengths) return std::nullopt;
    const std::complex<double> style = products / squares;
    return ColourStyle{std::abs(style), std::arg(style) * 180 / std::numbers::pi};
}

std::optional<Warning> warn_of_styled_colours(const Calibration& calibration) {
    const auto style = find_colour_style(calibration);
    if (!style) return std::nullopt;
    const double stretch = std::max(style->saturation, 1 / std::max(style->saturation, 1e-3));
    if (stretch < most_saturation && std::abs(style->hue_degrees) < most_turn) return std::nullopt;
    return Warning{
        "colours-styled",
        fmt::format("the card's coloured patches come out with {:.2f} times their saturation and hues "
                    "turned by {:.0f}°: choose a neutral picture style in the camera, or raw, and check "
                    "that the card file is this card's",
                    style->saturation, style->hue_degrees),
        false};
}

}  // namespace tonemend
