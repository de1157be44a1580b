#include "calibrate/card/find_card.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <Eigen/Dense>
#include <opencv2/calib3d.hpp>

#include "calibrate/card/detect_markers.h"
#include "calibrate/card/find_card_edges.h"
#include "calibrate/card/find_card_grey.h"
#include "calibrate/card/homography.h"

namespace tonemend {
namespace {

/// The four markers of one sheet as seen in the picture; a hidden one is empty.
using SheetMarkers = std::array<std::optional<Quad>, 4>;

int count_seen(const SheetMarkers& markers) {
    return static_cast<int>(
        std::count_if(markers.begin(), markers.end(), [](const auto& marker) { return marker.has_value(); }));
}

/// Turns clockwise on the picture at every corner: convex and not mirrored.
bool faces_camera(const Quad& quad) {
    for (std::size_t i = 0; i < 4; ++i) {
        const Point &a = quad[i], &b = quad[(i + 1) % 4], &c = quad[(i + 2) % 4];
        if (!((b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x) > 0)) return false;
    }
    return true;
}

/// What is seen of `frame`; nothing when a marker is seen twice.
SheetMarkers sort_markers(const CardFrame& frame, const std::vector<DetectedMarker>& detected, int factor) {
    SheetMarkers markers;
    for (const DetectedMarker& marker : detected) {
        const int index = marker.id - frame.first_id;
        if (index < 0 || index >= 4) continue;
        auto& seen = markers[static_cast<std::size_t>(index)];
        if (seen) return {};
        seen = marker.corners;
        for (Point& corner : *seen) corner = {corner.x * factor, corner.y * factor};
    }
    return markers;
}

Quad marker_quad(const CardFrame& frame, int index) {
    const Point corner = marker_corner(frame, index);
    const double right = corner.x + frame.marker_side;
    const double bottom = corner.y + frame.marker_side;
    return {corner, Point{right, corner.y}, Point{right, bottom}, Point{corner.x, bottom}};
}

struct Correspondence {
    std::vector<cv::Point2d> sheet, picture;
};

Correspondence pair_corners(const CardFrame& frame, const SheetMarkers& markers) {
    Correspondence pairs;
    for (int index = 0; index < 4; ++index) {
        const auto& seen = markers[static_cast<std::size_t>(index)];
        if (!seen) continue;
        const Quad printed = marker_quad(frame, index);
        for (std::size_t k = 0; k < 4; ++k) {
            pairs.sheet.emplace_back(printed[k].x, printed[k].y);
            pairs.picture.emplace_back((*seen)[k].x, (*seen)[k].y);
        }
    }
    return pairs;
}

/// Least squares over all corners; empty when they do not span a plane.
std::optional<Matrix3> fit_homography(const Correspondence& pairs) {
    const cv::Mat fitted = cv::findHomography(pairs.sheet, pairs.picture, 0);
    if (fitted.empty()) return std::nullopt;
    Matrix3 homography;
    for (int row = 0; row < 3; ++row)
        for (int column = 0; column < 3; ++column)
            homography.m[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)] =
                fitted.at<double>(row, column);
    return homography;
}

double rms_distance(const Matrix3& homography, const Correspondence& pairs) {
    double sum = 0;
    for (std::size_t i = 0; i < pairs.sheet.size(); ++i) {
        const Point mapped = map_point(homography, {pairs.sheet[i].x, pairs.sheet[i].y});
        sum += std::pow(mapped.x - pairs.picture[i].x, 2) + std::pow(mapped.y - pairs.picture[i].y, 2);
    }
    return std::sqrt(sum / static_cast<double>(pairs.sheet.size()));
}

Quad map_quad(const Matrix3& homography, const Quad& quad) {
    Quad mapped;
    std::transform(quad.begin(), quad.end(), mapped.begin(),
                   [&](const Point& point) { return map_point(homography, point); });
    return mapped;
}

double estimate_tilt(const Matrix3& homography, const Frame& frame) {
    constexpr double focal_length = 1.2;  // in long sides of the picture: a phone's or a kit lens's middle
    const double focal = focal_length * std::max(frame.width, frame.height);
    const auto ray = [&](std::size_t column) {
        const auto& m = homography.m;
        return Eigen::Vector3d((m[0][column] - frame.width / 2.0 * m[2][column]) / focal,
                               (m[1][column] - frame.height / 2.0 * m[2][column]) / focal, m[2][column]);
    };
    const double cosine = std::abs(ray(0).cross(ray(1)).normalized().z());
    constexpr double degrees = 57.29577951308232;
    return std::acos(std::min(cosine, 1.0)) * degrees;
}

/// The sheet when the markers stand where they are printed, to within what a lens and a bent sheet of paper
/// do.
std::optional<FoundCard> place_sheet(const Frame& frame, const CardFrame& sheet, const SheetMarkers& markers,
                                     double tolerance) {
    const Correspondence pairs = pair_corners(sheet, markers);
    const auto homography = fit_homography(pairs);
    if (!homography) return std::nullopt;

    FoundCard found;
    found.frame = sheet;
    found.sheet_to_picture = *homography;
    found.markers = count_seen(markers);
    found.window = map_quad(*homography, window_quad(sheet));
    found.corner_error_px = rms_distance(*homography, pairs);
    found.tilt_degrees = estimate_tilt(*homography, frame);

    const auto inside = [&](const Point& p) {
        return p.x >= 0 && p.y >= 0 && p.x <= frame.width && p.y <= frame.height;
    };
    const Quad outer{Point{0, 0}, Point{sheet.sheet_width, 0}, Point{sheet.sheet_width, sheet.sheet_height},
                     Point{0, sheet.sheet_height}};
    const bool plausible = std::isfinite(found.corner_error_px) && found.corner_error_px <= tolerance &&
                           faces_camera(found.window) && faces_camera(map_quad(*homography, outer)) &&
                           std::all_of(found.window.begin(), found.window.end(), inside);
    if (!plausible) return std::nullopt;
    return found;
}

double mean_side(const SheetMarkers& markers) {
    double sum = 0;
    for (const auto& marker : markers)
        if (marker)
            for (std::size_t i = 0; i < 4; ++i)
                sum += std::hypot((*marker)[(i + 1) % 4].x - (*marker)[i].x,
                                  (*marker)[(i + 1) % 4].y - (*marker)[i].y) /
                       4;
    return sum / std::max(1, count_seen(markers));
}

std::optional<FoundCard> measure_sheet(const Frame& frame, const GreenLight& light, const CardFrame& sheet,
                                       const SheetMarkers& rough, int factor) {
    const double side = mean_side(rough);
    // As detected: a pixel or two of the reduced picture. A wrong arrangement is off by more than a marker.
    if (!place_sheet(frame, sheet, rough, 2.0 * factor + 0.06 * side)) return std::nullopt;

    SheetMarkers refined;
    for (std::size_t i = 0; i < 4; ++i)
        if (rough[i]) refined[i] = refine_marker(light, *rough[i]);
    if (count_seen(refined) < 3) return std::nullopt;
    return place_sheet(frame, sheet, refined, 1.5 + 0.02 * side);
}

/// The sheet with the most markers; the larger one when two sizes are in the picture.
std::optional<FoundCard> find_at(const Frame& frame, const GreenLight& light, int factor,
                                 MarkerSearch search) {
    const auto& sheets = card_frames();
    const int first = sheets.front().first_id;
    const int count = sheets.back().first_id + 4 - first;
    const auto detected = detect_markers(reduced_grey(frame, factor), first, count, search);

    std::optional<FoundCard> best;
    for (const CardFrame& sheet : sheets) {
        const SheetMarkers markers = sort_markers(sheet, detected, factor);
        if (count_seen(markers) < 3) continue;
        auto found = measure_sheet(frame, light, sheet, markers, factor);
        if (found && (!best || found->markers >= best->markers)) best = found;
    }
    return best;
}

}  // namespace

std::optional<FoundCard> find_card(const Frame& frame) {
    constexpr int smallest = 48;  // pixels: no sheet is legible on less
    if (std::min(frame.width, frame.height) < smallest) return std::nullopt;

    struct Attempt {
        int length;
        MarkerSearch search;
    };
    constexpr Attempt attempts[] = {
        {1000, MarkerSearch::quick}, {1000, MarkerSearch::thorough}, {2000, MarkerSearch::thorough}};
    const int length = std::max(frame.width, frame.height);
    const GreenLight light(frame);
    std::optional<FoundCard> partial;
    for (const Attempt& attempt : attempts) {
        const int factor = (length + attempt.length - 1) / attempt.length;
        auto found = find_at(frame, light, factor, attempt.search);
        if (found && found->markers == 4) return found;
        if (found) partial = found;
    }
    return partial;
}

}  // namespace tonemend
