#pragma once

#include <cstdint>
#include <vector>

#include "colour/matrix3.h"
#include "picture/frame.h"

namespace tonemend {

/// Linear RGB of any space to encoded 8-bit sRGB, for looking at only: a table of 4096 steps, right to ±1.
class ScreenEncoder {
  public:
    explicit ScreenEncoder(const Matrix3& to_xyz_d50);
    /// `pixels` triples; colours outside sRGB are clipped channel by channel.
    void operator()(const float* linear, std::uint8_t* encoded, std::size_t pixels) const;

  private:
    std::array<float, 9> to_srgb_{};
    std::vector<std::uint8_t> table_;
};

/// True when the frame's own samples can go to the screen as they are: 8 bits a sample.
bool shows_as_is(const Frame& frame);
/// The frame as encoded 8-bit sRGB, interleaved, rows without padding. Camera-native light has its white set
/// by the frame's own matrix only; no number is read from it.
std::vector<std::uint8_t> to_screen(const Frame& frame);

}  // namespace tonemend
