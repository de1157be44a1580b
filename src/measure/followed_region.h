#pragma once

#include <memory>
#include <optional>
#include <string>

#include "calibrate/calibration.h"
#include "measure/settling_readings.h"
#include "picture/frame.h"
#include "picture/region.h"

namespace tonemend {

/// A region's colour in one of many pictures, and where it was read.
struct FollowedReading {
    Lab lab;
    std::array<double, 3> u95{};
    Region region;        ///< in this picture
    double moved_px = 0;  ///< how far its middle lies from where it was chosen
};

/// Reads one region of a scene in picture after picture, each by its own card. When the camera moves, the
/// region goes with the card; when the card alone was moved, the wood's grain shows it and the region stays.
/// For one thread.
class FollowedRegion {
  public:
    /// `region` in the first picture. `card_to_picture` of that picture, when it was read earlier.
    FollowedRegion(Region region, const std::optional<Matrix3>& card_to_picture = std::nullopt)
        : region_(std::move(region)), first_card_(card_to_picture) {}

    /// Throws InputError: the region lies outside the picture; see read_region.
    FollowedReading read(const std::shared_ptr<const Frame>& frame, const Calibration& calibration);
    /// Where the card lay in the first picture; the unit square to picture pixels. Nothing before that.
    const std::optional<Matrix3>& first_card() const { return first_card_; }

  private:
    Region place(const Frame& frame, const Calibration& calibration, const Matrix3& card) const;

    Region region_;
    std::optional<Matrix3> first_card_;
    std::shared_ptr<const Frame>
        first_;  // the first picture read here, if its card lay where first_card_ says
    std::shared_ptr<const Calibration> first_calibration_;
};

}  // namespace tonemend
