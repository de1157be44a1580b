#include "calibrate/flat/paper_spots.h"

#include <cmath>

#include "calibrate/card/homography.h"

namespace tonemend {
namespace {

constexpr double most_spot_pixels = 2500;

// A rectangle of bare paper in sheet millimetres, as a region of the picture; its middle part where it is
// larger than a mean needs.
Region on_picture(const FoundCard& found, double x, double y, double width, double height) {
    Region region;
    for (const Point corner :
         {Point{x, y}, Point{x + width, y}, Point{x + width, y + height}, Point{x, y + height}}) {
        region.corners.push_back(map_point(found.sheet_to_picture, corner));
    }
    const double scale = std::sqrt(most_spot_pixels / area(region));
    if (scale >= 1) return region;
    const Point middle = middle_of(region);
    for (Point& corner : region.corners) {
        corner = {middle.x + scale * (corner.x - middle.x), middle.y + scale * (corner.y - middle.y)};
    }
    return region;
}

// The paper left and right of the window between the markers, and the margin above and below: nothing is
// printed there.
std::vector<Region> bare_paper(const FoundCard& found) {
    const CardFrame& sheet = found.frame;
    const Point top_left = marker_corner(sheet, 0), bottom_right = marker_corner(sheet, 2);
    const double inset = 1.5, side = sheet.marker_side;
    std::vector<Region> regions;
    const double first = top_left.y + side + inset, last = bottom_right.y - inset;
    const double height = (last - first) / 4;
    const double margin = top_left.y, width = (sheet.sheet_width - 2 * inset) / 4;
    for (int i = 0; i < 4; ++i) {
        for (const double x : {top_left.x, bottom_right.x}) {
            regions.push_back(on_picture(found, x + inset, first + i * height, side - 2 * inset, height));
        }
        for (const double y : {inset, sheet.sheet_height - margin + inset}) {
            regions.push_back(on_picture(found, inset + i * width, y, width, margin - 2 * inset));
        }
    }
    return regions;
}

}  // namespace

Point middle_of(const Region& region) {
    const auto n = static_cast<double>(region.corners.size());
    Point middle;
    for (const Point& corner : region.corners) middle.x += corner.x / n, middle.y += corner.y / n;
    return middle;
}

Point middle_of(const Quad& quad) {
    return middle_of(Region{{quad.begin(), quad.end()}});
}

std::vector<PatchReading> read_paper(const Frame& frame, const FoundCard& found) {
    std::vector<PatchReading> spots;
    for (const Region& region : bare_paper(found)) {
        if (!lies_inside(region, frame.width, frame.height)) continue;
        PatchReading reading = read_area(frame, region);
        if (reading.pixels < 100 || reading.clipped_share() > 0.02) continue;
        spots.push_back(std::move(reading));
    }
    return spots;
}

}  // namespace tonemend
