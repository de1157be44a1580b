#include "picture/region.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "picture/input_error.h"

namespace tonemend {

Region rectangle(const PixelRect& rect) {
    const double left = rect.x;
    const double top = rect.y;
    const double right = left + rect.width;
    const double bottom = top + rect.height;
    return {{{left, top}, {right, top}, {right, bottom}, {left, bottom}}};
}

PixelRect bounds(const Region& region) {
    if (region.corners.empty()) return {};
    const auto [left, right] = std::minmax_element(region.corners.begin(), region.corners.end(),
                                                   [](const Point& a, const Point& b) { return a.x < b.x; });
    const auto [top, bottom] = std::minmax_element(region.corners.begin(), region.corners.end(),
                                                   [](const Point& a, const Point& b) { return a.y < b.y; });
    const int x = static_cast<int>(std::floor(left->x));
    const int y = static_cast<int>(std::floor(top->y));
    return {x, y, static_cast<int>(std::ceil(right->x)) - x, static_cast<int>(std::ceil(bottom->y)) - y};
}

double area(const Region& region) {
    double twice = 0;
    for (std::size_t i = 0; i < region.corners.size(); ++i) {
        const Point& a = region.corners[i];
        const Point& b = region.corners[(i + 1) % region.corners.size()];
        twice += a.x * b.y - b.x * a.y;
    }
    return std::abs(twice) / 2;
}

namespace {

bool inside(const Point& corner, int width, int height) {
    return corner.x >= 0 && corner.y >= 0 && corner.x <= width && corner.y <= height;
}

}  // namespace

bool lies_inside(const Region& region, int width, int height) {
    return std::all_of(region.corners.begin(), region.corners.end(),
                       [&](const Point& corner) { return inside(corner, width, height); });
}

void require_inside(const Region& region, int width, int height, const std::string& role) {
    for (const Point& corner : region.corners) {
        if (inside(corner, width, height)) continue;
        throw InputError(fmt::format(
            "{}: the corner {:g},{:g} lies outside the picture, which is {} × {} pixels; choose a "
            "region inside it (the picture is seen upright)",
            role, corner.x, corner.y, width, height));
    }
}

std::vector<Span> spans(const Region& region) {
    std::vector<Span> found;
    const PixelRect box = bounds(region);
    std::vector<double> crossings;
    for (int row = box.y; row < box.y + box.height; ++row) {
        const double centre = row + 0.5;
        crossings.clear();
        for (std::size_t i = 0; i < region.corners.size(); ++i) {
            const Point& a = region.corners[i];
            const Point& b = region.corners[(i + 1) % region.corners.size()];
            // An edge owns its upper end only, so that a corner on the line counts once.
            if ((a.y <= centre) == (b.y <= centre)) continue;
            crossings.push_back(a.x + (centre - a.y) / (b.y - a.y) * (b.x - a.x));
        }
        std::sort(crossings.begin(), crossings.end());
        for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) {
            const int first = static_cast<int>(std::ceil(crossings[i] - 0.5));
            const int last = static_cast<int>(std::ceil(crossings[i + 1] - 0.5));
            if (first < last) found.push_back({row, first, last});
        }
    }
    return found;
}

double shared_part(const Region& first, const Region& second) {
    const std::vector<Span> others = spans(second);
    long all = 0, shared = 0;
    for (const Span& span : spans(first)) {
        all += span.last - span.first;
        const auto in_row = std::lower_bound(others.begin(), others.end(), span.row,
                                             [](const Span& other, int row) { return other.row < row; });
        for (auto other = in_row; other != others.end() && other->row == span.row; ++other) {
            shared += std::max(0, std::min(span.last, other->last) - std::max(span.first, other->first));
        }
    }
    return all > 0 ? static_cast<double>(shared) / static_cast<double>(all) : 0.0;
}

}  // namespace tonemend
