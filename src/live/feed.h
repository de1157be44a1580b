#pragma once

#include <atomic>
#include <functional>
#include <memory>
#include <string>
#include <thread>
#include <vector>

#include "camera/capture_loop.h"
#include "live/practice_knobs.h"

namespace tonemend {

class PracticeSource;

/// The source that is on, behind the capture loop: what the window knows of cameras. Belongs to the window's
/// thread but for latest().
class Feed {
  public:
    /// `arrived` is called from a thread of the feed's own after each frame, and when a source falls silent
    /// or comes back.
    explicit Feed(std::function<void()> arrived);
    ~Feed();
    Feed(const Feed&) = delete;
    Feed& operator=(const Feed&) = delete;

    /// Switches to what open_source takes; empty: the first camera, else the practice bench. Throws
    /// InputError and keeps the old source when the new one cannot be.
    void open(const std::string& source);
    /// Ends the threads; `arrived` is not called any more and latest() keeps its last frame.
    void close();

    /// As open takes it.
    const std::string& source() const { return source_; }
    std::string name() const;
    bool practice() const { return practice_ != nullptr; }
    /// True when no camera was found and the practice bench stands in.
    bool stands_in() const { return stands_in_; }
    /// May be called from any thread.
    CapturedFrame latest() const { return *capture_.latest(); }

    const PracticeKnobs& knobs() const { return knobs_; }
    void turn(const PracticeKnobs& knobs);
    void request_lock() { capture_.request_lock(); }
    bool lock_answered() const { return capture_.lock_answered(); }
    /// What the camera was asked to hold still and what it refused; empty before it has answered.
    std::vector<ControlOutcome> control_outcomes() const { return capture_.control_outcomes(); }
    /// What S goes through: every camera found, then the practice bench.
    std::vector<std::string> choices() const;

  private:
    void relay();

    std::function<void()> arrived_;
    std::string source_;
    bool stands_in_ = false;
    PracticeKnobs knobs_;
    std::shared_ptr<PracticeSource> practice_;
    CaptureLoop capture_;
    std::atomic<bool> ending_ = false;
    std::thread relay_;
};

}  // namespace tonemend
