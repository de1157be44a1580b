#include "calibrate/card/find_card_edges.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "calibrate/card/detect_markers.h"

namespace tonemend {
namespace {

/// The line through `point` with unit `normal`.
struct Line {
    Point point;
    Point normal;
};

double along(const Point& offset, const Point& direction) {
    return offset.x * direction.x + offset.y * direction.y;
}

/// How far outside `base` light rises through the middle between its levels at both ends of the profile.
std::optional<double> find_rise(const GreenLight& light, const Point& base, const Point& outward,
                                double reach) {
    constexpr int half = 12;
    constexpr int count = 2 * half + 1;
    float profile[count];
    for (int i = 0; i < count; ++i) {
        const double offset = reach * (i - half) / half;
        profile[i] = light.at(base.x + offset * outward.x, base.y + offset * outward.y);
    }
    constexpr int end = 5;
    float black = 0, white = 0;
    for (int i = 0; i < end; ++i) {
        black += profile[i] / end;
        white += profile[count - 1 - i] / end;
    }
    if (!(white > 1.5F * black + 1e-4F)) return std::nullopt;

    const float middle = (black + white) / 2;
    std::optional<double> nearest;
    for (int i = 0; i + 1 < count; ++i) {
        if (!(profile[i] < middle && profile[i + 1] >= middle)) continue;
        const double place = i + static_cast<double>((middle - profile[i]) / (profile[i + 1] - profile[i]));
        const double offset = reach * (place - half) / half;
        if (!nearest || std::abs(offset) < std::abs(*nearest)) nearest = offset;
    }
    return nearest;
}

Line fit_line(const std::vector<Point>& points) {
    Point mean;
    for (const Point& point : points) {
        mean.x += point.x / static_cast<double>(points.size());
        mean.y += point.y / static_cast<double>(points.size());
    }
    double xx = 0, xy = 0, yy = 0;
    for (const Point& point : points) {
        const double x = point.x - mean.x, y = point.y - mean.y;
        xx += x * x;
        xy += x * y;
        yy += y * y;
    }
    const double direction = 0.5 * std::atan2(2 * xy, xx - yy);
    return {mean, {-std::sin(direction), std::cos(direction)}};
}

double distance(const Line& line, const Point& point) {
    return std::abs(along({point.x - line.point.x, point.y - line.point.y}, line.normal));
}

/// Fits, drops what lies farther out than 2.5 times the median distance (a scratch, a shadow's border), fits
/// again.
Line fit_line_robustly(std::vector<Point> points) {
    const Line first = fit_line(points);
    std::vector<double> distances;
    for (const Point& point : points) distances.push_back(distance(first, point));
    const auto middle = distances.begin() + static_cast<std::ptrdiff_t>(distances.size() / 2);
    std::nth_element(distances.begin(), middle, distances.end());
    const double limit = 2.5 * *middle + 0.05;
    std::erase_if(points, [&](const Point& point) { return distance(first, point) > limit; });
    return fit_line(points);
}

std::optional<Line> fit_edge(const GreenLight& light, const Point& from, const Point& to, double reach) {
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    const Point outward{(to.y - from.y) / length, -(to.x - from.x) / length};
    const int count = std::clamp(static_cast<int>(length / 1.5), 12, 48);
    std::vector<Point> points;
    for (int i = 0; i < count; ++i) {
        // Clear of the corners, where two edges share one blur.
        const double t = 0.1 + 0.8 * i / (count - 1);
        const Point base{std::lerp(from.x, to.x, t), std::lerp(from.y, to.y, t)};
        if (const auto rise = find_rise(light, base, outward, reach))
            points.push_back({base.x + *rise * outward.x, base.y + *rise * outward.y});
    }
    if (2 * static_cast<int>(points.size()) < count) return std::nullopt;
    return fit_line_robustly(std::move(points));
}

std::optional<Point> cross(const Line& a, const Line& b) {
    const double det = a.normal.x * b.normal.y - a.normal.y * b.normal.x;
    if (std::abs(det) < 0.1) return std::nullopt;
    const double da = a.normal.x * a.point.x + a.normal.y * a.point.y;
    const double db = b.normal.x * b.point.x + b.normal.y * b.point.y;
    return Point{(da * b.normal.y - db * a.normal.y) / det, (a.normal.x * db - b.normal.x * da) / det};
}

std::optional<Quad> refine_once(const GreenLight& light, const Quad& quad, double reach) {
    std::array<Line, 4> edges;
    for (std::size_t i = 0; i < 4; ++i) {
        const auto edge = fit_edge(light, quad[i], quad[(i + 1) % 4], reach);
        if (!edge) return std::nullopt;
        edges[i] = *edge;
    }
    Quad refined;
    for (std::size_t i = 0; i < 4; ++i) {
        const auto corner = cross(edges[(i + 3) % 4], edges[i]);
        if (!corner) return std::nullopt;
        refined[i] = *corner;
    }
    return refined;
}

double shortest_side(const Quad& quad) {
    double shortest = std::hypot(quad[0].x - quad[3].x, quad[0].y - quad[3].y);
    for (std::size_t i = 0; i < 3; ++i)
        shortest = std::min(shortest, std::hypot(quad[i + 1].x - quad[i].x, quad[i + 1].y - quad[i].y));
    return shortest;
}

}  // namespace

std::optional<Quad> refine_marker(const GreenLight& light, const Quad& rough) {
    const double cell = shortest_side(rough) / marker_cells_across;
    if (!(cell > 1)) return std::nullopt;
    constexpr double sharp_reach = 8;  // pixels: four times the widest blur that must be borne
    const auto nearer = refine_once(light, rough, 0.9 * cell);
    if (!nearer) return std::nullopt;
    return refine_once(light, *nearer, std::min(0.85 * cell, sharp_reach));
}

}  // namespace tonemend
