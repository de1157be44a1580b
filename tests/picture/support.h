#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <opencv2/core.hpp>
#include <string>
#include <vector>

#include "picture/frame.h"
#include "tests/support/scratch_folder.h"

namespace tonemend::testing {

/// A picture with smooth slopes, hard edges, noise and both ends of the range; the same for the same
/// arguments.
Frame make_frame(int width, int height, SampleType type, unsigned seed = 1);

/// The frame as OpenCV has it: B, G, R.
cv::Mat as_opencv(const Frame& frame);

/// The largest difference between a frame and OpenCV's picture, in codes; −1 when sizes or types differ.
double largest_difference(const Frame& frame, const cv::Mat& bgr);

std::vector<std::byte> file_content(const std::filesystem::path& path);
std::vector<std::uint8_t> bytes_of(const std::filesystem::path& path);
void put_file(const std::filesystem::path& path, const std::vector<std::byte>& bytes);
void put_text(const std::filesystem::path& path, const std::string& text);

/// A JPEG file's bytes with an EXIF segment put in behind the start marker: big-endian TIFF structure with
/// orientation, exposure 1/50 s, f/8, ISO 200, manual white balance, manual exposure, flash fired.
std::vector<std::byte> with_exif(const std::vector<std::byte>& jpeg, int orientation);
/// The same with a TIFF structure of one's own.
std::vector<std::byte> with_exif_structure(const std::vector<std::byte>& jpeg,
                                           const std::vector<std::uint8_t>& structure);
/// The TIFF structure that with_exif puts in.
std::vector<std::uint8_t> exif_structure(int orientation);

}  // namespace tonemend::testing
