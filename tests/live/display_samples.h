#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <vector>

#include "colour/matrix3.h"
#include "colour/xyz.h"

namespace tonemend::testing {

/// Colours that a display has to show right: the cube of sRGB in 17 encoded steps a side, off the nodes of
/// any table, its faces included, and a block of CIELAB around finished wood (L* 12..90, hue 30°..100°,
/// chroma 2..60) as far as it lies in sRGB.
const std::vector<XYZ>& display_samples();

std::vector<std::uint8_t> bytes_of(const std::filesystem::path& file);
/// True for an RGB profile made of curves and a matrix.
bool is_rgb_of_curves(const std::vector<std::uint8_t>& profile);
/// How a profile of lookup tables is made.
struct TableFlavour {
    double version = 4.3;  ///< below 4: lut16Type, whose CIELAB is encoded otherwise
    unsigned side = 33;    ///< nodes of its tables
    double bend = 1;       ///< exponent of the curves in front of the table from CIELAB
};
/// A profile of lookup tables alone, both ways (16 bits), for an invented display: gamma 2.3, a lifted black,
/// and channels that leak into each other.
std::vector<std::uint8_t> make_table_profile(const TableFlavour& flavour = {});

/// Little CMS on its own, media-relative colorimetric, in double precision; codes cut to 0..1.
class LcmsDisplay {
  public:
    explicit LcmsDisplay(const std::vector<std::uint8_t>& profile);
    Vector3 encode(const XYZ& colour) const;

  private:
    std::shared_ptr<void> transform_;
};

}  // namespace tonemend::testing
