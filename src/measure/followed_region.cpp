#include "measure/followed_region.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "calibrate/card/homography.h"
#include "measure/reading.h"
#include "measure/registration.h"
#include "measure/uncertainty.h"
#include "picture/input_error.h"

namespace tonemend {
namespace {

constexpr double card_jitter = 1;  // pixels by which a card that lies still is found elsewhere

Region carried_by(const Region& region, const Matrix3& map) {
    Region result;
    for (const Point& corner : region.corners) result.corners.push_back(map_point(map, corner));
    return result;
}

double farthest(const Region& one, const Region& other) {
    double most = 0;
    for (std::size_t i = 0; i < one.corners.size(); ++i)
        most = std::max(
            most, std::hypot(one.corners[i].x - other.corners[i].x, one.corners[i].y - other.corners[i].y));
    return most;
}

}  // namespace

Region FollowedRegion::place(const Frame& frame, const Calibration& calibration, const Matrix3& card) const {
    const Matrix3 by_card = card * inverse(*first_card_);
    Region with_card = carried_by(region_, by_card);
    const Region corners = carried_by(Region{{{0, 0}, {1, 0}, {1, 1}, {0, 1}}}, card);
    if (farthest(corners, carried_by(Region{{{0, 0}, {1, 0}, {1, 1}, {0, 1}}}, *first_card_)) < card_jitter)
        return region_;
    if (!first_) return with_card;
    // Two things may have moved, camera or card; where the grain is found again is the answer.
    std::optional<RegionMatch> best;
    for (const Matrix3& map : {by_card, Matrix3::identity()}) {
        if (!lies_inside(carried_by(region_, map), frame.width, frame.height)) continue;
        try {
            const RegionMatch match =
                match_region(*first_, *first_calibration_, frame, calibration, map, region_);
            if (match.seen && (!best || match.moved_px < best->moved_px)) best = match;
        } catch (const InputError&) {
            continue;  // the grain would put it outside
        }
    }
    return best ? best->in_other : with_card;
}

FollowedReading FollowedRegion::read(const std::shared_ptr<const Frame>& frame,
                                     const Calibration& calibration) {
    const Matrix3 card = unit_square_to_quad(calibration.card_corners);
    if (!first_card_) first_card_ = card;
    FollowedReading result;
    result.region = place(*frame, calibration, card);
    result.moved_px = farthest(result.region, region_);
    if (!lies_inside(result.region, frame->width, frame->height))
        throw InputError(
            fmt::format("{}: the region, carried along by the card, lies outside this picture; "
                        "move camera and card back to where they were",
                        frame->name));
    const Reading reading = read_region(*frame, calibration, result.region, "--region");
    result.lab = reading.lab;
    result.u95 = propagate(calibration, reading, reading).original_u95;
    if (!first_ && result.moved_px == 0) {
        first_ = frame;
        first_calibration_ = std::make_shared<const Calibration>(calibration);
    }
    return result;
}

}  // namespace tonemend
