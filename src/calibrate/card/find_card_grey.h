#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "picture/frame.h"

namespace tonemend {

/// The frame's green channel, `factor` times smaller, as 8 bits stretched from the darkest to the brightest
/// half per cent. Reads four samples of each factor × factor block, placed evenly about its centre. Linear
/// camera RGB is brought near to a display's tone curve.
cv::Mat reduced_grey(const Frame& frame, int factor);

/// Linear light of the frame's green channel, at any place in the picture.
class GreenLight {
  public:
    explicit GreenLight(const Frame& frame);
    /// Bilinear between pixel centres; beyond the picture its border pixels hold.
    float at(double x, double y) const;

  private:
    float pixel(int column, int row) const;

    const Frame& frame_;
    std::vector<float> light_;  // by code value; for float samples by sample × (size − 1)
};

}  // namespace tonemend
