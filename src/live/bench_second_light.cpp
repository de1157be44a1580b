#include <fmt/format.h>

#include "live/bench.h"
#include "record/number_text.h"

namespace tonemend {

// Hold light one, say that the lamp is another, let go: one key, in turn.
void Bench::go_on_with_second_light() {
    if (held_ && lamp_ == LampSaid::nothing) {
        lamp_ = LampSaid::changed;
        say("This is the second light now. Readings taken keep what it does; J lets go of both.");
    } else if (held_) {
        held_.reset(), lamp_ = LampSaid::nothing;
        say("Light one is let go.");
    } else if (!state_->comparison) {
        say("No reading to hold as light one yet: mark card, original and repair first.");
        return;
    } else {
        held_ = hold_light(*state_->measured, state_->calibration, *state_->comparison, inputs_.light);
        say(fmt::format("Light one is held at ΔE2000 {}. Change the lamp, touch nothing else, press J.",
                        number_text(state_->comparison->difference.de2000, Sign::only_minus)));
    }
    changed_ = true;
}

}  // namespace tonemend
