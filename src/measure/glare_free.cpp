#include "measure/glare_free.h"

#include <fmt/format.h>

#include <algorithm>

#include "picture/input_error.h"

namespace tonemend {

RegionPixels take_gloss_off(const LaidOver& laid, const GlossCells& grid, const GlossSplit& split) {
    RegionPixels result = laid.pixels.front();
    result.used = result.clipped = result.glare = 0;
    const PixelRect& window = result.picture.window;
    std::size_t i = 0;
    for (int row = 0; row < window.height; ++row) {
        for (int column = 0; column < window.width; ++column, ++i) {
            if (result.state[i] == PixelState::outside) continue;
            const std::vector<double>& gloss =
                split.cells[static_cast<std::size_t>(row / grid.side * grid.columns + column / grid.side)];
            const GlossCell& cell = grid.at(column / grid.side, row / grid.side);
            std::array<double, 3> sum{};
            double pictures = 0;
            for (std::size_t p = 0; p < gloss.size(); ++p) {
                if (cell.there[p] == 0 || laid.pixels[p].state[i] == PixelState::clipped) continue;
                for (std::size_t c = 0; c < 3; ++c)
                    sum[c] += static_cast<double>(laid.pixels[p].picture.rgb[3 * i + c]) - gloss[p];
                ++pictures;
            }
            // Where no square serves for other pixels' sake, a pixel that is not clipped simply doesn't
            // count.
            const bool clipped = std::all_of(
                laid.pixels.begin(), laid.pixels.end(),
                [&](const RegionPixels& pixels) { return pixels.state[i] == PixelState::clipped; });
            result.state[i] = pictures > 0 ? PixelState::used
                              : clipped    ? PixelState::clipped
                                           : PixelState::outside;
            if (result.state[i] == PixelState::used) ++result.used;
            if (result.state[i] == PixelState::clipped) ++result.clipped;
            for (std::size_t c = 0; c < 3; ++c)
                result.picture.rgb[3 * i + c] = pictures > 0 ? static_cast<float>(sum[c] / pictures) : 0.0F;
        }
    }
    return result;
}

void require_enough(const RegionPixels& pixels, const Frame& frame, const std::string& role) {
    if (pixels.used >= least_region_pixels) return;
    throw InputError(
        fmt::format("{}: {}: too few of the region's {} pixels are unclipped in any of the pictures; change "
                    "the exposure, "
                    "turn the piece until the lamp is not mirrored, or choose a larger region",
                    frame.name, role, pixels.inside()));
}

}  // namespace tonemend
