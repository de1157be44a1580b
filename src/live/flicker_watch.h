#pragma once

#include <vector>

#include "calibrate/preflight/lamp_flicker.h"
#include "live/bench_state.h"

namespace tonemend {

/// Watches the lamp from frame to frame of a live source, on the card. For one thread.
class FlickerWatch {
  public:
    /// Call with every measured state. Reads its newest frame on the card's bright steps and, when the lamp
    /// beats, adds the warning to its comparison. What was seen is forgotten when anything but the light has
    /// changed, and when frames are not averaged, since nobody then knows whether anything moved.
    void take_in(BenchState& state);

  private:
    void clear();
    void see_card(const Frame& frame, const Calibration& calibration);

    LampFlicker lamp_;
    std::vector<Region> areas_;  ///< of the card, that are read; chosen when nothing is known yet
};

}  // namespace tonemend
