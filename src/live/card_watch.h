#pragma once

#include <optional>
#include <vector>

#include "calibrate/card/find_card.h"
#include "picture/frame.h"

namespace tonemend {

/// Follows the card from frame to frame. The full search runs only when the picture around the card has
/// changed by more than noise since it was last found, or when it is not known where the card is.
class CardWatch {
  public:
    std::optional<FoundCard> find(const Frame& frame);
    /// How often the full search has run.
    int searches() const { return searches_; }

  private:
    std::optional<FoundCard> found_;
    std::vector<float> seen_;  ///< what the frame showed at the watched points when the card was found
    int width_ = 0, height_ = 0;
    int searches_ = 0;
};

}  // namespace tonemend
