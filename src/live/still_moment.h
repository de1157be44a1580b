#pragma once

#include "camera/frame_average.h"
#include "camera/source.h"
#include "live/bench_state.h"

namespace tonemend {

/// What the measuring thread measures: the mean of a live source's frames for as long as nothing moves in
/// them. For one thread.
class StillMoment {
  public:
    /// Sets frame, measured, frames_averaged, restart and step of `state` from the newest frame; the same
    /// frame again counts once. A still, a source that has just been changed to, or one that was silent
    /// begins anew; without `average` every frame does.
    void take_in(const CapturedFrame& captured, bool average, BenchState& state);
    /// The source has gone silent: its next frame begins anew.
    void interrupt() { interrupted_ = true; }

  private:
    FrameAverage average_;
    std::shared_ptr<const Frame> last_;
    std::uint64_t source_ = 0;
    bool interrupted_ = false;
};

}  // namespace tonemend
