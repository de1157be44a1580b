#include "practice/grain_field.h"

#include <cmath>
#include <cstddef>

#include "practice/random.h"

namespace tonemend {

std::vector<float> gaussian_field(int width, int height, double along, double across, std::uint64_t seed,
                                  std::string_view stream) {
    const auto columns = static_cast<std::size_t>(width);
    const auto rows = static_cast<std::size_t>(height);
    const auto keep_x = static_cast<float>(std::exp(-1 / along));
    const auto keep_y = static_cast<float>(std::exp(-1 / across));
    const float fresh_x = std::sqrt(1 - keep_x * keep_x);
    const float fresh_y = std::sqrt(1 - keep_y * keep_y);
    std::vector<float> field(columns * rows);
    for (std::size_t y = 0; y < rows; ++y) {
        Random random(seed, stream, y);
        float* row = field.data() + y * columns;
        NormalTable::get().fill(random, row, columns);
        for (std::size_t x = 1; x < columns; ++x) row[x] = keep_x * row[x - 1] + fresh_x * row[x];
        if (y == 0) continue;
        const float* above = row - columns;
        for (std::size_t x = 0; x < columns; ++x) row[x] = keep_y * above[x] + fresh_y * row[x];
    }
    return field;
}

}  // namespace tonemend
