#pragma once

#include <memory>
#include <optional>
#include <string>

#include "cli/drying_options.h"
#include "measure/drying_watch.h"
#include "measure/followed_region.h"
#include "record/drying_log.h"

namespace tonemend {

/// Takes pictures of the drying region in, one after the other: reads, logs, says what it makes of them. For
/// one thread.
class DryingProgress {
  public:
    /// Opens the log and goes on from what it holds. Throws InputError: an option that cannot be read, a log
    /// that is about another region or kind; see DryingLogWriter.
    explicit DryingProgress(const DryingOptions& options);

    /// A picture taken at `seconds` (since 1970); `picture` is its file name, empty for a live source. One
    /// that cannot be read is said so on stderr and left out. Throws InputError when the log or stdout cannot
    /// be written, or the card file cannot be read.
    void take(const std::shared_ptr<const Frame>& frame, double seconds, const std::string& picture);
    /// Says on stderr that something was left out, and why.
    void say_left_out(const std::string& why);

    /// True for a still that the log has already.
    bool knows(const std::string& picture) const;
    /// All that was asked for has come.
    bool done() const;
    /// Prints the end: what was found, or one JSON object. Throws InputError when nothing could be read.
    void finish();

  private:
    void say(const FollowedReading& reading, DryingWatch::Taken taken, double seconds);

    DryingOptions options_;
    DryingKind kind_;
    std::unique_ptr<DryingLogWriter> writer_;
    bool log_begun_ = false;
    std::vector<std::string> known_;  // pictures in the log
    DryingWatch watch_;
    std::optional<FollowedRegion> region_;
    std::shared_ptr<const KeptCalibration> kept_;
    DryingState said_ = DryingState::watching;
    int new_readings_ = 0;
    std::string last_trouble_;
};

}  // namespace tonemend
