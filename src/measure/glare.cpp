#include "measure/glare.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace tonemend {
namespace {

constexpr float least_veil = 0.02F;
constexpr float sigmas = 6.0F;
constexpr std::size_t sample_size = 20000;

float median(std::vector<float>& values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

// Weights w with w·rgb = the neutral part β of the least-squares split rgb ≈ α·median + β·(1,1,1).
std::array<float, 3> neutral_part_weights(const std::array<float, 3>& colour) {
    const float sum = colour[0] + colour[1] + colour[2];
    const float squares = colour[0] * colour[0] + colour[1] * colour[1] + colour[2] * colour[2];
    const float determinant = 3.0F * squares - sum * sum;
    // A neutral region (grey paint, ebonised wood) has no colour to tell its own light from the lamp's: take
    // brightness.
    if (determinant < 0.01F * squares) return {1.0F / 3, 1.0F / 3, 1.0F / 3};
    std::array<float, 3> weights{};
    for (std::size_t c = 0; c < 3; ++c) weights[c] = (squares - sum * colour[c]) / determinant;
    return weights;
}

}  // namespace

GlareGauge gauge_glare(const RegionPixels& pixels) {
    // Odd and not a divisor of the width, so that the samples don't line up in columns.
    std::size_t stride = std::max<std::size_t>(1, pixels.used / sample_size) | 1;
    while (stride > 1 && static_cast<std::size_t>(pixels.picture.window.width) % stride == 0) stride += 2;
    std::array<std::vector<float>, 3> channels;
    std::size_t index = 0;
    for_each_used(pixels, [&](int, int, const float* rgb) {
        if (index++ % stride != 0) return;
        for (std::size_t c = 0; c < 3; ++c) channels[c].push_back(rgb[c]);
    });
    std::array<std::vector<float>, 3> copy = channels;
    const std::array<float, 3> colour{median(copy[0]), median(copy[1]), median(copy[2])};
    GlareGauge gauge;
    gauge.weights = neutral_part_weights(colour);
    gauge.brightness = colour[0] + colour[1] + colour[2];

    std::vector<float> parts(channels[0].size());
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const std::array<float, 3> rgb{channels[0][i], channels[1][i], channels[2][i]};
        parts[i] = gauge.neutral_part(rgb.data());
    }
    gauge.centre = median(parts);
    for (float& part : parts) part = std::abs(part - gauge.centre);
    gauge.limit = gauge.centre + std::max(least_veil, sigmas * 1.4826F * median(parts));
    return gauge;
}

std::size_t mark_glare(RegionPixels& pixels, const GlareGauge& gauge) {
    std::size_t marked = 0;
    for (std::size_t i = 0; i < pixels.state.size(); ++i) {
        if (pixels.state[i] != PixelState::used) continue;
        const float* rgb = pixels.picture.rgb.data() + 3 * i;
        if (gauge.neutral_part(rgb) > gauge.limit && rgb[0] + rgb[1] + rgb[2] > gauge.brightness) {
            pixels.state[i] = PixelState::glare;
            ++marked;
        }
    }
    pixels.used -= marked;
    pixels.glare += marked;
    return marked;
}

}  // namespace tonemend
