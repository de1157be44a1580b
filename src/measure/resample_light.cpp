#include "measure/resample_light.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "calibrate/calibrated_light.h"
#include "calibrate/card/homography.h"
#include "picture/region.h"

namespace tonemend {
namespace {

constexpr int cubic_reach = 2;  // pixels that a cubic looks beyond its place

Matrix3 moved_by(double x, double y) {
    Matrix3 map = Matrix3::identity();
    map.m[0][2] = x, map.m[1][2] = y;
    return map;
}

LinearPicture all_clipped(const PixelRect& window) {
    LinearPicture picture;
    picture.window = window;
    const auto pixels = static_cast<std::size_t>(window.width) * static_cast<std::size_t>(window.height);
    picture.rgb.assign(3 * pixels, 0.0F);
    picture.clipped.assign(pixels, 1);
    return picture;
}

PixelRect needed(const Frame& other, const Matrix3& to_other, const PixelRect& window) {
    Region there;
    for (const Point& corner : rectangle(window).corners)
        there.corners.push_back(map_point(to_other, corner));
    const PixelRect box = bounds(there);
    const int left = std::max(box.x - cubic_reach, 0), top = std::max(box.y - cubic_reach, 0);
    return {left, top, std::min(box.x + box.width + cubic_reach, other.width) - left,
            std::min(box.y + box.height + cubic_reach, other.height) - top};
}

}  // namespace

LinearPicture resample_light(const Frame& other, const Calibration& calibration, const Matrix3& to_other,
                             const PixelRect& window) {
    if (to_other.m == Matrix3::identity().m) return calibrated_light(other, calibration, window);
    LinearPicture result = all_clipped(window);
    const PixelRect part = needed(other, to_other, window);
    if (part.width <= 0 || part.height <= 0) return result;
    LinearPicture there = calibrated_light(other, calibration, part);
    // OpenCV counts from the middle of the first pixel.
    const Matrix3 map =
        moved_by(-part.x - 0.5, -part.y - 0.5) * to_other * moved_by(window.x + 0.5, window.y + 0.5);
    cv::Mat matrix(3, 3, CV_64F);
    for (int i = 0; i < 9; ++i)
        matrix.at<double>(i / 3, i % 3) =
            map.m[static_cast<std::size_t>(i / 3)][static_cast<std::size_t>(i % 3)];
    const cv::Mat light(part.height, part.width, CV_32FC3, there.rgb.data());
    cv::Mat out(window.height, window.width, CV_32FC3, result.rgb.data());
    cv::warpPerspective(light, out, matrix, out.size(), cv::INTER_CUBIC | cv::WARP_INVERSE_MAP,
                        cv::BORDER_REPLICATE);
    for (std::uint8_t& mark : there.clipped) mark = mark != 0 ? 255 : 0;
    const cv::Mat marks(part.height, part.width, CV_8U, there.clipped.data());
    cv::Mat spread, warped;
    cv::dilate(marks, spread, cv::Mat::ones(3, 3, CV_8U));
    cv::warpPerspective(spread, warped, matrix, out.size(), cv::INTER_LINEAR | cv::WARP_INVERSE_MAP,
                        cv::BORDER_CONSTANT, cv::Scalar(255));
    for (std::size_t i = 0; i < result.clipped.size(); ++i) result.clipped[i] = warped.data[i] != 0 ? 1 : 0;
    return result;
}

}  // namespace tonemend
