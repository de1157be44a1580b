#pragma once

#include <chrono>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "picture/frame.h"

namespace tonemend {

/// What a camera was asked to hold still, and what it did about it.
struct ControlOutcome {
    std::string control;  ///< "exposure", "gain", "white balance", "focus"
    bool held = false;    ///< read back and found fixed
    std::string text;     ///< for people: the value it holds, or that the camera refused
};

/// Where frames come from. Used by one thread, the capture loop's, which keeps everybody else from waiting.
/// No call waits for a device or network for longer than `patience`; what it takes to make a frame that has
/// come (to decode a still, to render the practice bench anew) is added, and said where it is long.
class Source {
  public:
    virtual ~Source() = default;
    /// "camera /dev/video0", "folder ~/tethered", "practice bench", for people.
    virtual std::string name() const = 0;
    /// The next frame, or nothing when none came within `patience`. Throws InputError, with the cure, when
    /// the source is gone; the capture loop keeps the last frame, marks it stale and calls again, and the
    /// source then tries to connect anew.
    virtual std::shared_ptr<const Frame> next(std::chrono::milliseconds patience) = 0;
    /// Fixes exposure, gain, white balance and focus where they are; sources that have none return an empty
    /// list.
    virtual std::vector<ControlOutcome> lock_controls() { return {}; }
    /// True for a source that moves by itself (camera, stream, video file, practice bench), false for stills.
    virtual bool live() const = 0;
};

/// What the capture loop last got.
struct CapturedFrame {
    std::shared_ptr<const Frame> frame;  ///< null before the first
    std::uint64_t number = 0;            ///< counts frames, 0 before the first
    std::chrono::steady_clock::time_point when;
    bool stale = false;        ///< the source has been silent or gone since
    std::string trouble;       ///< one line with the cure while it is
    bool live = false;         ///< from a source that moves by itself
    std::uint64_t source = 0;  ///< counts sources: frames of one number are of one source
};

}  // namespace tonemend
