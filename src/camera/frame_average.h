#pragma once

#include <array>
#include <cstdint>
#include <deque>
#include <memory>
#include <vector>

#include "camera/motion.h"
#include "picture/frame.h"

namespace tonemend {

/// Why an average holds the last frame alone.
enum class Restart {
    none,         ///< it goes on
    first_frame,  ///< there was none before
    other_kind,   ///< another size or encoding than before, or a kind that is not averaged
    part_moved,   ///< a hand, the card
    whole_moved,  ///< the camera, or the light
};

/// The mean of the last few frames of a camera, in linear light, as long as nothing moves. Frames of 8 bits
/// whose encoding is a curve a channel are averaged; others are passed on as they are. Holds on to the frames
/// it averages: 6 MB each at 1920 × 1080, and 25 MB more. One thread.
class FrameAverage {
  public:
    /// `most` frames, 1..255; then the oldest leaves as the next comes.
    explicit FrameAverage(int most = 16);

    /// Takes a frame in. A frame that differs from the oldest one held beyond noise starts the average anew,
    /// from itself.
    Restart add(std::shared_ptr<const Frame> frame);
    /// The mean: 16 bits, sRGB curve, the frames' own primaries. The frame itself when there is only one.
    /// Null before the first. A sample that was at the top or bottom of its range in any frame is there in
    /// the mean, since nobody knows what it should have been; no other is. Rounding: half a 65535th of linear
    /// light.
    std::shared_ptr<const Frame> result();
    /// Frames in the mean.
    int count() const { return static_cast<int>(frames_.size()); }
    /// Why the present average was started.
    Restart reason() const { return reason_; }
    void clear();

  private:
    // Linear light in 65535ths; a code at the end of its range counts one more in the eight bits above.
    using Table = std::array<std::uint32_t, 256>;
    using Tables = std::array<Table, 3>;

    Restart judge(const Frame& frame);
    void read_encoding(const Frame& frame);

    std::size_t most_;
    std::deque<std::shared_ptr<const Frame>> frames_;
    std::vector<std::uint32_t> sums_;
    std::shared_ptr<const Decoding> decoding_;
    Tables tables_{};
    Restart reason_ = Restart::first_frame;
    std::shared_ptr<const Frame> mean_;
};

}  // namespace tonemend
