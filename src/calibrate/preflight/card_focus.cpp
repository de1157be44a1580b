#include "calibrate/preflight/card_focus.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "calibrate/card/find_card_grey.h"
#include "calibrate/card/homography.h"

namespace tonemend {
namespace {

constexpr double blur_allowed = 0.05;
constexpr double inside = 0.18, outside = 0.18;  // of a patch's side: where a profile begins and ends
constexpr double least_contrast = 0.15;          // of the lighter end
constexpr int places = 16, steps = 48;
constexpr std::size_t least_edges = 4;

struct Edge {
    Point from, to;  // card coordinates, 0..1
    Point outward;   // a patch's side long
};

std::vector<Edge> edges_of(const Patch& patch) {
    const double width = patch.x1 - patch.x0, height = patch.y1 - patch.y0;
    const Point a{patch.x0, patch.y0}, b{patch.x1, patch.y0}, c{patch.x1, patch.y1}, d{patch.x0, patch.y1};
    return {{a, b, {0, -height}}, {b, c, {width, 0}}, {d, c, {0, height}}, {a, d, {-width, 0}}};
}

bool lies_in(const Frame& frame, const Point& p) {
    return p.x >= 0 && p.y >= 0 && p.x <= frame.width && p.y <= frame.height;
}

// From the mean profile across the edge, from within the patch to outside it, in green light.
std::optional<double> blur_of_edge(const Frame& frame, const GreenLight& light,
                                   const Matrix3& card_to_picture, const Edge& edge) {
    std::array<double, steps + 1> profile{};
    for (int place = 0; place < places; ++place) {
        const double along = 0.2 + 0.6 * (place + 0.5) / places;
        const Point foot{std::lerp(edge.from.x, edge.to.x, along), std::lerp(edge.from.y, edge.to.y, along)};
        for (int k = 0; k <= steps; ++k) {
            const double out = std::lerp(-inside, outside, static_cast<double>(k) / steps);
            const Point p =
                map_point(card_to_picture, {foot.x + out * edge.outward.x, foot.y + out * edge.outward.y});
            if (!lies_in(frame, p)) return std::nullopt;
            profile[static_cast<std::size_t>(k)] += static_cast<double>(light.at(p.x, p.y)) / places;
        }
    }
    const double contrast = std::abs(profile.front() - profile.back());
    if (contrast <= least_contrast * std::max(profile.front(), profile.back())) return std::nullopt;
    constexpr std::size_t reach = 1;
    double steepest = 0;
    for (std::size_t k = reach; k + reach < profile.size(); ++k)
        steepest = std::max(steepest, std::abs(profile[k + reach] - profile[k - reach]));
    const double a_side = steepest * steps / (2.0 * reach * (inside + outside));
    return contrast / (a_side * std::sqrt(2 * std::numbers::pi));
}

}  // namespace

std::optional<double> measure_blur(const Frame& frame, const Card& card, const Quad& corners) {
    const GreenLight light(frame);
    const Matrix3 card_to_picture = unit_square_to_quad(corners);
    std::vector<double> blurs;
    for (const Patch& patch : card.patches)
        for (const Edge& edge : edges_of(patch))
            if (const auto blur = blur_of_edge(frame, light, card_to_picture, edge)) blurs.push_back(*blur);
    if (blurs.size() < least_edges) return std::nullopt;
    const auto middle = blurs.begin() + static_cast<std::ptrdiff_t>(blurs.size() / 2);
    std::nth_element(blurs.begin(), middle, blurs.end());
    return *middle;
}

std::optional<Warning> warn_of_blur(const Frame& frame, const Card& card, const Quad& corners) {
    const auto blur = measure_blur(frame, card, corners);
    if (!blur || *blur <= blur_allowed) return std::nullopt;
    return Warning{
        "card-blurred",
        fmt::format("the card is out of focus: the edges of its patches are smeared over {:.0f} % of their "
                    "width, which mixes other light into them; focus on the card, hold still, or go closer",
                    200 * *blur),
        false};
}

}  // namespace tonemend
