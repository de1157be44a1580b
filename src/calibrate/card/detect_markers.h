#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "picture/geometry.h"

namespace tonemend {

/// Cells along a marker's side: six code cells and the black border on both sides.
inline constexpr int marker_cells_across = 8;

/// The cells of marker `id`, row by row, 8 × 8; true is black. From OpenCV's predefined dictionary of the
/// AprilTag family 36h11, any two of whose members differ in at least 11 cells at every rotation.
std::vector<bool> marker_pattern(int id);

/// A marker as detected: its outer corners in pixels of the searched picture (whose first pixel's outer
/// corner is (0, 0)), in the marker's own order top-left, top-right, bottom-right, bottom-left.
struct DetectedMarker {
    int id = 0;
    Quad corners{};
};

enum class MarkerSearch {
    quick,    ///< one local threshold
    thorough  ///< several local thresholds and more bit errors corrected: for blurred, noisy or small markers
};

/// The markers numbered first_id … first_id+count−1 in an 8-bit single-channel picture. Corners are good to
/// about a pixel of that picture.
std::vector<DetectedMarker> detect_markers(const cv::Mat& grey, int first_id, int count, MarkerSearch search);

}  // namespace tonemend
