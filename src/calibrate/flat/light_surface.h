#pragma once

#include <array>
#include <vector>

#include "picture/geometry.h"

namespace tonemend {

/// Chebyshev products Tᵢ(x)·Tⱼ(y) over a picture of width × height pixels, x and y running from −1 to 1
/// across it: those with 1 ≤ i + j ≤ degree, by i + j and then by i. The constant is left out: a surface of
/// these says how light compares between places, not how bright it is.
class SurfaceTerms {
  public:
    SurfaceTerms(int width, int height, int degree);
    std::size_t count() const;
    /// i + j of every term.
    std::vector<int> orders() const;
    /// The terms' values at a place of the picture, in picture pixels.
    std::vector<double> at(const Point& place) const;

  private:
    double width_, height_;
    int degree_;
};

/// The highest degree that light is ever given.
inline constexpr int most_surface_degree = 6;

}  // namespace tonemend
