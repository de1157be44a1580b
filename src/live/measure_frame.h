#pragma once

#include <memory>
#include <string>
#include <vector>

#include "calibrate/card/card.h"
#include "live/bench_state.h"
#include "live/card_watch.h"
#include "live/measure_loop.h"

namespace tonemend {

/// From a frame to all that can be said of it. Keeps what carries over from frame to frame: the card file,
/// what the flat pictures show, and the place where the card was last found.
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
    CalibrationInputs inputs(const MeasureRequest& request);

    CardWatch watch_;
    std::string card_name_;
    Card card_;
    std::vector<std::string> flat_;  // that flat_samples_ were taken from, with the card of flat_card_
    std::string flat_card_;
    std::shared_ptr<const FlatSamples> flat_samples_;
    std::string flat_trouble_;  // why there are none
};

}  // namespace tonemend
