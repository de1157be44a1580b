#include "calibrate/flat/paper_rim.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <optional>

#include "calibrate/card/homography.h"

namespace tonemend {
namespace {

constexpr double inset = 1.5, spot_length = 5;  // mm
constexpr int most_across = 12;

struct SheetBox {
    double x, y, width, height;  // mm
};

void add_row(std::vector<SheetBox>& boxes, const SheetBox& strip, bool backwards) {
    const bool across = strip.width > strip.height;
    const double length = across ? strip.width : strip.height;
    const int count = std::max(1, static_cast<int>(length / spot_length));
    for (int k = 0; k < count; ++k) {
        const double start = length * (backwards ? count - 1 - k : k) / count, side = length / count;
        boxes.push_back(across ? SheetBox{strip.x + start, strip.y, side, strip.height}
                               : SheetBox{strip.x, strip.y + start, strip.width, side});
    }
}

std::vector<SheetBox> margin_boxes(const CardFrame& sheet) {
    const double margin = marker_corner(sheet, 0).y, breadth = margin - 2 * inset;
    const double width = sheet.sheet_width - 2 * inset, height = sheet.sheet_height - 2 * margin;
    const double right = sheet.sheet_width - inset - breadth, bottom = sheet.sheet_height - inset - breadth;
    std::vector<SheetBox> boxes;
    add_row(boxes, {inset, inset, width, breadth}, false);
    add_row(boxes, {right, margin, breadth, height}, false);
    add_row(boxes, {inset, bottom, width, breadth}, true);
    add_row(boxes, {inset, margin, breadth, height}, true);
    return boxes;
}

std::array<float, 3> encoded_pixel(const Frame& frame, int x, int y) {
    const std::byte* row = frame.row(y);
    const std::size_t place = 3 * static_cast<std::size_t>(x);
    std::array<float, 3> rgb{};
    for (std::size_t c = 0; c < 3; ++c) {
        switch (frame.type) {
            case SampleType::uint8:
                rgb[c] = static_cast<float>(reinterpret_cast<const std::uint8_t*>(row)[place + c]) / 255.0F;
                break;
            case SampleType::uint16:
                rgb[c] =
                    static_cast<float>(reinterpret_cast<const std::uint16_t*>(row)[place + c]) / 65535.0F;
                break;
            case SampleType::float32:
                rgb[c] = reinterpret_cast<const float*>(row)[place + c];
                break;
        }
    }
    return rgb;
}

std::optional<PaperSpot> read_spot(const Frame& frame, const FoundCard& found, const SheetBox& box) {
    const auto place = [&](double u, double v) {
        return map_point(found.sheet_to_picture, {box.x + u * box.width, box.y + v * box.height});
    };
    const Point first = place(0, 0), last = place(1, 1);
    const int across =
        std::clamp(static_cast<int>(std::hypot(last.x - first.x, last.y - first.y) / 1.4), 2, most_across);
    std::vector<float> pixels;
    int clipped = 0;
    for (int k = 0; k < across * across; ++k) {
        const Point at = place((k % across + 0.5) / across, (k / across + 0.5) / across);
        const int x = static_cast<int>(std::floor(at.x)), y = static_cast<int>(std::floor(at.y));
        if (x < 0 || y < 0 || x >= frame.width || y >= frame.height) return std::nullopt;
        const std::array<float, 3> rgb = encoded_pixel(frame, x, y);
        const auto [low, high] = std::minmax_element(rgb.begin(), rgb.end());
        clipped += *low > 0 && *high < 1 ? 0 : 1;
        pixels.insert(pixels.end(), rgb.begin(), rgb.end());
    }
    if (clipped * 50 > across * across) return std::nullopt;
    if (frame.encoding.decoding)
        frame.encoding.decoding->decode(pixels.data(), pixels.data(), pixels.size() / 3);
    PaperSpot spot;
    spot.place = place(0.5, 0.5);
    for (std::size_t i = 0; i < pixels.size(); ++i)
        spot.light[i % 3] += static_cast<double>(pixels[i]) * 3 / static_cast<double>(pixels.size());
    return spot;
}

void drop_what_is_no_paper(std::vector<PaperSpot>& spots) {
    if (spots.empty()) return;
    std::vector<double> brightness;
    for (const PaperSpot& spot : spots) brightness.push_back(spot.brightness());
    const auto middle = brightness.begin() + static_cast<std::ptrdiff_t>(brightness.size() / 2);
    std::nth_element(brightness.begin(), middle, brightness.end());
    std::erase_if(spots, [&](const PaperSpot& spot) { return !(spot.brightness() > 0.2 * *middle); });
}

}  // namespace

std::vector<PaperSpot> read_paper_rim(const Frame& frame, const FoundCard& found) {
    std::vector<PaperSpot> spots;
    for (const SheetBox& box : margin_boxes(found.frame))
        if (const auto spot = read_spot(frame, found, box)) spots.push_back(*spot);
    drop_what_is_no_paper(spots);
    return spots;
}

}  // namespace tonemend
