#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

namespace tonemend {

/// A stationary Gaussian field of mean 0 and variance 1 whose correlation falls as exp(−|dx|/along −
/// |dy|/across): white noise through one first-order recursion along the rows and one down the columns, both
/// started in their steady state. Row by row, width × height values.
std::vector<float> gaussian_field(int width, int height, double along, double across, std::uint64_t seed,
                                  std::string_view stream);

}  // namespace tonemend
