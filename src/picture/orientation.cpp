#include "picture/orientation.h"

#include <algorithm>
#include <cstring>
#include <utility>

#include "picture/sample_storage.h"

namespace tonemend {
namespace {

/// Where stored pixels go in the upright picture: byte offset of stored (0, 0), and how far one stored column
/// and one stored row move it.
struct Placement {
    std::ptrdiff_t origin = 0;
    std::ptrdiff_t column_step = 0;
    std::ptrdiff_t row_step = 0;
};

bool swaps_sides(int orientation) {
    return orientation >= 5;
}

Placement placement(int width, int height, int orientation, std::ptrdiff_t pixel) {
    const std::ptrdiff_t last_column = width - 1;
    const std::ptrdiff_t last_row = height - 1;
    const std::ptrdiff_t row = pixel * (swaps_sides(orientation) ? height : width);
    switch (orientation) {
        case 2:  // mirrored left to right
            return {last_column * pixel, -pixel, row};
        case 3:  // upside down
            return {last_column * pixel + last_row * row, -pixel, -row};
        case 4:  // mirrored top to bottom
            return {last_row * row, pixel, -row};
        case 5:  // stored rows are upright columns
            return {0, row, pixel};
        case 6:  // to be turned clockwise
            return {last_row * pixel, row, -pixel};
        case 7:  // mirrored about the other diagonal
            return {last_row * pixel + last_column * row, -row, -pixel};
        case 8:  // to be turned anticlockwise
            return {last_column * row, -row, pixel};
        default:
            return {0, pixel, row};
    }
}

/// Block by block, so that both the rows read and the rows written stay in the cache.
template <std::size_t pixel_bytes>
void copy_pixels(const std::byte* stored, std::byte* upright, int width, int height, const Placement& place) {
    constexpr int block = 64;
    for (int top = 0; top < height; top += block)
        for (int left = 0; left < width; left += block)
            for (int y = top; y < std::min(top + block, height); ++y) {
                const std::byte* from =
                    stored + (static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                              static_cast<std::size_t>(left)) *
                                 pixel_bytes;
                std::byte* to = upright + place.origin + y * place.row_step + left * place.column_step;
                for (int x = left; x < std::min(left + block, width); ++x) {
                    std::memcpy(to, from, pixel_bytes);
                    from += pixel_bytes;
                    to += place.column_step;
                }
            }
}

}  // namespace

void turn_upright(Frame& frame, int orientation) {
    if (orientation < 2 || orientation > 8) return;
    const std::size_t pixel = 3 * frame.bytes_per_sample();
    const Placement place =
        placement(frame.width, frame.height, orientation, static_cast<std::ptrdiff_t>(pixel));
    std::vector<std::byte> upright = sample_storage(frame.samples.size());
    if (pixel == 3) copy_pixels<3>(frame.samples.data(), upright.data(), frame.width, frame.height, place);
    if (pixel == 6) copy_pixels<6>(frame.samples.data(), upright.data(), frame.width, frame.height, place);
    if (pixel == 12) copy_pixels<12>(frame.samples.data(), upright.data(), frame.width, frame.height, place);
    frame.samples = std::move(upright);
    if (swaps_sides(orientation)) std::swap(frame.width, frame.height);
}

}  // namespace tonemend
