#include "measure/gloss_map.h"

#include <algorithm>
#include <cmath>

#include "measure/gloss_split.h"
#include "measure/resample_light.h"

namespace tonemend {
namespace {

constexpr int squares_across = 160, squares_a_strip = 8;

LaidOver strip_of(const std::vector<LampPosition>& positions, const std::vector<Matrix3>& maps,
                  const PixelRect& window) {
    LaidOver laid;
    for (std::size_t p = 0; p < positions.size(); ++p) {
        RegionPixels& pixels = laid.pixels.emplace_back();
        pixels.picture = resample_light(*positions[p].frame, positions[p].calibration, maps[p], window);
        for (const std::uint8_t clipped : pixels.picture.clipped)
            pixels.state.push_back(clipped != 0 ? PixelState::clipped : PixelState::used);
    }
    return laid;
}

}  // namespace

GlossMap map_gloss(const std::vector<LampPosition>& positions) {
    require_lamp_positions(positions);
    const LampPosition& first = positions.front();
    const int width = first.frame->width, height = first.frame->height;
    std::vector<Matrix3> maps;
    for (const LampPosition& position : positions) maps.push_back(map_between(first, position));
    GlossMap map;
    map.side = std::max(4, width / squares_across / 2 * 2);
    map.columns = (width + map.side - 1) / map.side, map.rows = (height + map.side - 1) / map.side;
    for (int top = 0; top < height; top += map.side * squares_a_strip) {
        const PixelRect window{0, top, width, std::min(map.side * squares_a_strip, height - top)};
        const GlossCells grid = cut_into_cells(strip_of(positions, maps, window), map.side);
        for (const GlossCell& cell : grid.cells)
            map.gloss.push_back(cell.pictures() < 2 || cell.pixels == 0
                                    ? -1.0F
                                    : static_cast<float>(gloss_by_colour(grid, cell).value_or(-1)));
    }
    return map;
}

}  // namespace tonemend
