#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include "live/bench_state.h"
#include "measure/drying_watch.h"
#include "measure/followed_region.h"
#include "record/drying_log.h"

namespace tonemend {

/// What the window says of the drying repair at one moment.
struct DryingSaid {
    DryingReport report;  ///< as of the last reading
    DryingKind kind = DryingKind::unknown;
    std::string trouble;  ///< one line: why the last reading was not taken or not kept; empty when it was
};

/// Follows the repair while it dries: a reading every so often, each at once in a log from which a later
/// start goes on. Made by the window's thread, then used by the measuring thread alone.
class DryingFollower {
  public:
    /// Goes on with `log`, whose own region and kind count then, or begins it. `every`: seconds from reading
    /// to reading. Throws InputError: see DryingLogWriter.
    DryingFollower(const std::filesystem::path& log, DryingKind kind, const Region& repair, double every);

    /// Reads the repair of `state` when it is time and there is a comparison whose card is not unfit. `now`:
    /// seconds since 1970. Never null.
    std::shared_ptr<const DryingSaid> follow(const BenchState& state, double now);
    /// What the log already said.
    DryingState found_state() const { return found_state_; }
    DryingKind kind() const { return head_.kind; }

  private:
    void take(const BenchState& state, double now);

    DryingLogWriter writer_;
    DryingLogHead head_;
    bool begun_ = false;
    DryingWatch watch_;
    DryingState found_state_ = DryingState::watching;
    std::optional<FollowedRegion> region_;
    double every_ = 0, last_try_ = 0;
    std::shared_ptr<const DryingSaid> said_;
};

/// Puts what is said of drying into a state that was measured, and marks a reading of what has not settled.
void mark_drying(BenchState& state, DryingFollower& follower, double now);

}  // namespace tonemend
