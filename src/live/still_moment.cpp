#include "live/still_moment.h"

namespace tonemend {

void StillMoment::take_in(const CapturedFrame& captured, bool average, BenchState& state) {
    state.frame = captured.frame;
    if (!average || !captured.live) {
        average_.clear();
        last_.reset();
        state.measured = captured.frame;
        state.frames_averaged = 1;
        state.restart = Restart::first_frame;
        state.step = Restart::first_frame;
        return;
    }
    if (captured.frame != last_) {
        if (interrupted_ || captured.source != source_) average_.clear();
        state.step = average_.add(captured.frame);
        last_ = captured.frame;
        source_ = captured.source;
        interrupted_ = false;
    }
    state.measured = average_.result();
    state.frames_averaged = average_.count();
    state.restart = average_.reason();
}

}  // namespace tonemend
