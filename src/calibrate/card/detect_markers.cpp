#include "calibrate/card/detect_markers.h"

#include <algorithm>
#include <cstdint>

#include <opencv2/core/version.hpp>

// The fiducials moved from the contrib module aruco into objdetect, with a new interface, in OpenCV 4.7.
#define TONEMEND_OBJDETECT_MARKERS (CV_VERSION_MAJOR > 4 || (CV_VERSION_MAJOR == 4 && CV_VERSION_MINOR >= 7))
#if TONEMEND_OBJDETECT_MARKERS
#include <opencv2/objdetect/aruco_detector.hpp>
#else
#include <opencv2/aruco.hpp>
#endif

namespace tonemend {
namespace {

cv::aruco::Dictionary whole_dictionary() {
#if TONEMEND_OBJDETECT_MARKERS
    return cv::aruco::getPredefinedDictionary(cv::aruco::DICT_APRILTAG_36h11);
#else
    return *cv::aruco::getPredefinedDictionary(cv::aruco::DICT_APRILTAG_36h11);
#endif
}

void set_up(cv::aruco::DetectorParameters& parameters, const cv::Mat& grey, MarkerSearch search) {
    const bool quick = search == MarkerSearch::quick;
    parameters.adaptiveThreshWinSizeMin = quick ? 23 : 9;
    parameters.adaptiveThreshWinSizeMax = quick ? 23 : 57;
    parameters.adaptiveThreshWinSizeStep = 16;
    parameters.errorCorrectionRate = quick ? 0.6 : 1.0;
    // Only the middle of a cell is read: blur leaves that its own colour.
    parameters.perspectiveRemovePixelPerCell = 8;
    parameters.perspectiveRemoveIgnoredMarginPerCell = 0.3;
    parameters.polygonalApproxAccuracyRate = 0.05;
    parameters.minMarkerPerimeterRate = 48.0 / std::max(grey.cols, grey.rows);
    parameters.maxMarkerPerimeterRate = 2.0;
    parameters.minMarkerDistanceRate = 0.02;
    parameters.minDistanceToBorder = 1;
}

}  // namespace

std::vector<bool> marker_pattern(int id) {
    cv::Mat picture;
#if TONEMEND_OBJDETECT_MARKERS
    whole_dictionary().generateImageMarker(id, marker_cells_across, picture, 1);
#else
    whole_dictionary().drawMarker(id, marker_cells_across, picture, 1);
#endif
    std::vector<bool> black;
    for (int row = 0; row < marker_cells_across; ++row)
        for (int column = 0; column < marker_cells_across; ++column)
            black.push_back(picture.at<std::uint8_t>(row, column) < 128);
    return black;
}

std::vector<DetectedMarker> detect_markers(const cv::Mat& grey, int first_id, int count,
                                           MarkerSearch search) {
    static const cv::aruco::Dictionary whole = whole_dictionary();
    cv::aruco::Dictionary ours = whole;
    ours.bytesList = whole.bytesList.rowRange(first_id, first_id + count).clone();

    std::vector<std::vector<cv::Point2f>> corners;
    std::vector<int> indices;
#if TONEMEND_OBJDETECT_MARKERS
    cv::aruco::DetectorParameters parameters;
    set_up(parameters, grey, search);
    cv::aruco::ArucoDetector(ours, parameters).detectMarkers(grey, corners, indices);
#else
    const auto parameters = cv::aruco::DetectorParameters::create();
    set_up(*parameters, grey, search);
    cv::aruco::detectMarkers(grey, cv::makePtr<cv::aruco::Dictionary>(ours), corners, indices, parameters);
#endif

    std::vector<DetectedMarker> markers;
    for (std::size_t i = 0; i < indices.size(); ++i) {
        DetectedMarker marker{first_id + indices[i], {}};
        // OpenCV puts (0, 0) at a pixel's centre.
        for (std::size_t k = 0; k < 4; ++k)
            marker.corners[k] = {corners[i][k].x + 0.5, corners[i][k].y + 0.5};
        markers.push_back(marker);
    }
    return markers;
}

}  // namespace tonemend
