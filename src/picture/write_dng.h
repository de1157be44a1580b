#pragma once

#include <array>
#include <cstdint>
#include <filesystem>
#include <vector>

#include "colour/matrix3.h"

namespace tonemend {

/// What a minimal raw file holds: one sensor mosaic and how it relates to light.
struct SensorMosaic {
    int width = 0;
    int height = 0;
    std::vector<std::uint16_t> values;  ///< height × width; R G on even rows, G B on odd ones
    std::uint16_t black_level = 0;
    std::uint16_t white_level = 65535;  ///< where the sensor saturates
    Matrix3 xyz_to_camera =
        Matrix3::identity();                 ///< DNG ColorMatrix1, XYZ → unbalanced camera RGB, under D65
    std::array<double, 3> neutral{1, 1, 1};  ///< AsShotNeutral: camera RGB of white, largest 1
    int orientation = 1;                     ///< 1..8 as EXIF numbers them
};

/// Writes an uncompressed DNG 1.4 (Digital Negative specification, 2012) that raw converters read; atomic
/// like write_picture. Width and height are even and at least 2. Throws InputError.
void write_dng(const SensorMosaic& mosaic, const std::filesystem::path& path);

}  // namespace tonemend
