#pragma once

#include <deque>
#include <optional>

#include "calibrate/warning.h"

namespace tonemend {

/// Tells a lamp that beats with the mains from one that was turned, a cloud or a hand: fed with how brightly
/// the card is lit in one frame after the other while nothing moves, it looks for light that goes up and
/// down time and again. A step, and a drift one way, are no flicker. Nor is a beat told that is slower than
/// half the frames it remembers: nobody can tell it from clouds.
class LampFlicker {
  public:
    /// `light`: mean linear light of the card's bright steps in the next frame, above 0, in any unit; `u` its
    /// standard uncertainty from noise, in the same. Numbers that are not finite or not above 0 are passed
    /// over.
    void see(double light, double u);
    /// Something moved, or the camera changed: what was seen before says nothing any more.
    void clear() { seen_.clear(); }
    /// Peak to peak, as a share of the mean, of light that turned at least four times within the last 48
    /// frames, each time by 1 % or by six standard uncertainties, whichever is more; empty when it did not.
    /// Why 1 %: from about 0.6 % on every frame starts the mean of frames anew (camera/motion.h), and 1 %
    /// between two regions, which a rolling shutter makes of it, is ΔE2000 0.12 on wood.
    std::optional<double> swing() const;

  private:
    struct Seen {
        double light = 0, u = 0;
    };
    std::deque<Seen> seen_;
};

/// "light-flickers", with the swing in per cent. Not unfit: card and regions are in one frame, so what all of
/// the picture does cancels; what rows do against each other is for light-banded and light-uneven to say.
std::optional<Warning> warn_of_flicker(const LampFlicker& lamp);

}  // namespace tonemend
