#pragma once

#include <cstdint>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "camera/source.h"

namespace tonemend {

/// How long the capture loop waits for what.
struct CapturePatience {
    std::chrono::milliseconds frame{100};  ///< given to Source::next
    std::chrono::milliseconds first_silence{
        2000};  ///< until a live source counts as silent, before its pace is known
    std::chrono::milliseconds least_silence{
        500};                                   ///< thereafter five of its frame intervals, but at least this
    std::chrono::milliseconds first_retry{50};  ///< after a failure; doubled at each further one
    std::chrono::milliseconds last_retry{1000};
    std::chrono::milliseconds stop{
        300};  ///< for a source that hangs; then its thread is left to end by itself
};

/// Takes frames from a source in a thread of its own and keeps the newest. All functions may be called from
/// any thread; none waits for the source: a lock is held for the swap of a pointer alone.
class CaptureLoop {
  public:
    explicit CaptureLoop(const CapturePatience& patience = {});
    ~CaptureLoop();
    CaptureLoop(const CaptureLoop&) = delete;
    CaptureLoop& operator=(const CaptureLoop&) = delete;

    /// Starts with a source, or changes to it. The last frame stays, marked stale, until the new source's
    /// first; frames go on being counted. What the old source still delivers is dropped.
    void watch(std::shared_ptr<Source> source);
    /// Ends within CapturePatience::stop and a little, even when the source hangs. The last frame stays,
    /// marked stale.
    void stop();

    /// The newest frame; never null, but its frame is before the first. Stale when a live source has been
    /// silent or any source has failed since; then `trouble` says so.
    std::shared_ptr<const CapturedFrame> latest() const;
    /// The same, after waiting for a frame with a number above `number`, or for `longest`.
    std::shared_ptr<const CapturedFrame> wait_for_newer(std::uint64_t number,
                                                        std::chrono::milliseconds longest) const;

    /// Has the source hold its controls before its next frame.
    void request_lock();
    /// True once the source has met the last request.
    bool lock_answered() const;
    /// What came of the last request; empty before it was met, and after watch().
    std::vector<ControlOutcome> control_outcomes() const;
    /// Name of the source; empty before watch().
    std::string source_name() const;

  private:
    struct Slot;
    struct Worker;

    std::shared_ptr<Slot> slot_;
    std::mutex control_;           // of the next
    std::vector<Worker> workers_;  // the listening one last, before it those that have not ended yet
};

}  // namespace tonemend
