#include "live/card_watch.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>

#include "calibrate/card/homography.h"

namespace tonemend {
namespace {

// 48 × 48 points over the sheet, each the green of 3 × 3 pixels: an edge that moves by half a pixel shows in
// the hundreds of points that lie beside edges.
constexpr int points_a_side = 48;
// Share of the points that may change, and by how much of the range, before the card is looked for again.
constexpr float changed_by = 0.04F, changed_share = 0.02F;

float sample(const Frame& frame, int x, int y) {
    const std::byte* at = frame.row(y) + (static_cast<std::size_t>(x) * 3 + 1) * frame.bytes_per_sample();
    switch (frame.type) {
        case SampleType::uint8:
            return static_cast<float>(std::to_integer<int>(*at)) / 255.0F;
        case SampleType::uint16: {
            std::uint16_t value = 0;
            std::memcpy(&value, at, sizeof value);
            return static_cast<float>(value) / 65535.0F;
        }
        case SampleType::float32: {
            float value = 0;
            std::memcpy(&value, at, sizeof value);
            return value;
        }
    }
    return 0;
}

std::vector<float> watched_points(const Frame& frame, const FoundCard& card) {
    std::vector<float> values;
    values.reserve(std::size_t{points_a_side} * points_a_side);
    for (int row = 0; row < points_a_side; ++row) {
        for (int column = 0; column < points_a_side; ++column) {
            const Point at =
                map_point(card.sheet_to_picture, {card.frame.sheet_width * (column + 0.5) / points_a_side,
                                                  card.frame.sheet_height * (row + 0.5) / points_a_side});
            const int x = static_cast<int>(at.x), y = static_cast<int>(at.y);
            if (x < 1 || y < 1 || x >= frame.width - 1 || y >= frame.height - 1) {
                values.push_back(0);
                continue;
            }
            float sum = 0;
            for (int dy = -1; dy <= 1; ++dy)
                for (int dx = -1; dx <= 1; ++dx) sum += sample(frame, x + dx, y + dy);
            values.push_back(sum / 9);
        }
    }
    return values;
}

bool unchanged(const std::vector<float>& before, const std::vector<float>& now) {
    std::size_t changed = 0;
    for (std::size_t i = 0; i < now.size(); ++i)
        changed += std::abs(now[i] - before[i]) > changed_by ? 1U : 0U;
    return static_cast<float>(changed) <= changed_share * static_cast<float>(now.size());
}

}  // namespace

std::optional<FoundCard> CardWatch::find(const Frame& frame) {
    if (found_ && frame.width == width_ && frame.height == height_ &&
        unchanged(seen_, watched_points(frame, *found_))) {
        return found_;
    }
    ++searches_;
    found_ = find_card(frame);
    width_ = frame.width, height_ = frame.height;
    if (found_) seen_ = watched_points(frame, *found_);
    return found_;
}

}  // namespace tonemend
