#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <vector>

#include "camera/motion.h"
#include "picture/frame.h"

namespace tonemend {

/// Why an average holds the last frame alone.
enum class Restart {
    none,           ///< it goes on
    first_frame,    ///< there was none before
    other_kind,     ///< another size or encoding than before, or a kind that is not averaged
    moved,          ///< a hand, the card, the camera
    light_changed,  ///< all of the picture is lighter or darker, or whole rows of it
};

/// The mean of a camera's last frames, in linear light, as long as nothing moves. Frames of 8 bits whose
/// encoding is a curve a channel are averaged; others are passed on as they are. Frames are summed in two
/// blocks, and when the newer one is full the older leaves: the mean grows to `most` frames and then holds
/// half of that to all of it. 50 MB at 1920 × 1080. For one thread.
class FrameAverage {
  public:
    /// `most` frames, an even number from 2 to 254.
    explicit FrameAverage(int most = 16);

    /// Takes a frame in. One that differs from the oldest in the mean beyond noise starts the average anew,
    /// from itself.
    Restart add(std::shared_ptr<const Frame> frame);
    /// The mean: 16 bits, sRGB curve, the frames' own primaries. The frame itself when there is only one.
    /// Null before the first. A sample that was at the top or bottom of its range in more than a sixteenth of
    /// the frames is there in the mean, since nobody knows what it should have been; no other is. Rounding:
    /// half a 65535th of linear light.
    std::shared_ptr<const Frame> result();
    /// Frames in the mean.
    int count() const { return older_.frames + newer_.frames; }
    /// Why the present average was started.
    Restart reason() const { return reason_; }
    void clear();

  private:
    // Linear light in 65535ths; a code at the end of its range counts one more in the eight bits above.
    using Table = std::array<std::uint32_t, 256>;
    struct Block {
        std::vector<std::uint32_t> sums;
        int frames = 0;
        MotionGrid first;
    };

    bool read_encoding(const Frame& frame);
    Restart judge(const Frame& frame, const MotionGrid& grid, bool same_tables) const;
    void sum_up(const Frame& frame);

    const int block_;  // frames of a full block
    Block older_, newer_;
    std::shared_ptr<const Frame> last_;
    std::shared_ptr<const Decoding> decoding_;
    std::array<Table, 3> tables_{};
    Restart reason_ = Restart::first_frame;
    std::shared_ptr<const Frame> mean_;
};

}  // namespace tonemend
