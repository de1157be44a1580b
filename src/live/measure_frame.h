#pragma once

#include <memory>
#include <string>

#include "calibrate/card.h"
#include "live/bench_state.h"
#include "live/card_watch.h"
#include "live/measure_loop.h"

namespace tonemend {

/// From a frame to all that can be said of it. Keeps what carries over from frame to frame: the card file and
/// the place where the card was last found.
class FrameMeter {
  public:
    /// Fills card, calibration, comparison and obstacle of `state` from its measured frame, or from
    /// its frame when there is no other. Never throws for what a picture or a card file holds: that becomes
    /// the obstacle.
    void measure(const MeasureRequest& request, BenchState& state);
    /// How often the picture has been searched for the card.
    int card_searches() const { return watch_.searches(); }

  private:
    const Card& card(const std::string& name);

    CardWatch watch_;
    std::string card_name_;
    Card card_;
};

}  // namespace tonemend
