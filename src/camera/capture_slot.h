#pragma once

#include <condition_variable>
#include <mutex>

#include "camera/capture_loop.h"

namespace tonemend {

/// What the capture loop and its threads share. A thread that a source keeps waiting may outlive the loop and
/// holds on to it; a number that is not the current one tells that thread that nobody listens any more.
struct CaptureLoop::Slot {
    explicit Slot(const CapturePatience& with) : patience(with) {}

    const CapturePatience patience;
    mutable std::mutex mutex;
    mutable std::condition_variable changed;
    std::shared_ptr<const CapturedFrame> latest = std::make_shared<const CapturedFrame>();
    std::uint64_t listening = 0;  ///< number of the thread whose frames count; 0: none
    std::uint64_t started = 0;    ///< threads so far
    std::string name;             ///< of the source
    bool live = false;
    bool lock_wanted = false, lock_met = false;
    std::vector<ControlOutcome> outcomes;
    std::chrono::steady_clock::time_point heard;     ///< the source's start, or its last frame
    std::chrono::steady_clock::duration interval{};  ///< between frames, smoothed; 0 before two

    /// Makes the source's thread-to-be the one whose frames count, and gives its number.
    std::uint64_t listen_to(const Source& source);
    /// Takes frames until nobody listens to thread `number`.
    void run(std::uint64_t number, Source& source);
    std::shared_ptr<const CapturedFrame> judged(std::chrono::steady_clock::time_point now) const;
    void mark_stale(const std::string& trouble);

  private:
    bool is_listening(std::uint64_t number) const;
    void meet_lock_request(std::uint64_t number, Source& source);
    void publish(std::uint64_t number, std::shared_ptr<const Frame> frame);
    void report(std::uint64_t number, const std::string& trouble, std::chrono::milliseconds pause);
};

}  // namespace tonemend
