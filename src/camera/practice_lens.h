#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "camera/practice_settings.h"
#include "picture/frame.h"
#include "practice/light_map.h"
#include "practice/random.h"

namespace tonemend {

/// Takes 8-bit pictures of one unchanging light, one after the other, each with noise of its own: what
/// expose() and develop() do, but quick enough for live pictures. The noise is drawn once, a million normals,
/// and every row of every picture starts at a random place among them. The tone curve is a table of 65536
/// steps, so a code is off by one where the exact value lies within 0.03 of a code's edge.
class PracticeLens {
  public:
    PracticeLens(const PracticeScene& scene, const RawPicture& light);

    /// The next picture. May be called from several threads with a `random` each.
    Frame take(Random& random) const { return take(random, {}, 0); }
    /// Picture `number`, from 0, under a lamp that beats.
    Frame take(Random& random, const PracticeFlicker& flicker, std::uint64_t number) const;

  private:
    int width_;
    int height_;
    std::size_t plane_;  // samples of one channel
    std::vector<float> light_,
        noise_;                      // planes R, G, B: the sensor's value and its noise's standard deviation
    std::array<float, 9> matrix_{};  // to linear sRGB
    std::vector<std::uint8_t> codes_;  // of linear 0..1
    ColourEncoding encoding_;
};

}  // namespace tonemend
