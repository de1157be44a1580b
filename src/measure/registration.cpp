#include "measure/registration.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "calibrate/calibrated_light.h"
#include "calibrate/card/homography.h"
#include "picture/input_error.h"

namespace tonemend {
namespace {

constexpr int most_side = 512;           // pixels of the region's middle that are matched
constexpr double least_response = 0.06;  // of the correlation's peak: plain wood has none
constexpr double supposed_shift = 1;     // pixels, where no grain tells

cv::Mat green_light(const Frame& frame, const Calibration& calibration, const PixelRect& window) {
    const LinearPicture light = calibrated_light(frame, calibration, window);
    cv::Mat green(window.height, window.width, CV_32F);
    for (int y = 0; y < window.height; ++y)
        for (int x = 0; x < window.width; ++x) green.at<float>(y, x) = light.at(x, y)[1];
    return green;
}

PixelRect middle_of(const PixelRect& whole) {
    const int width = std::min(whole.width, most_side), height = std::min(whole.height, most_side);
    return {whole.x + (whole.width - width) / 2, whole.y + (whole.height - height) / 2, width, height};
}

Region moved(const Region& region, const Matrix3& map) {
    Region result;
    for (const Point& corner : region.corners) result.corners.push_back(map_point(map, corner));
    return result;
}

Matrix3 translation(double x, double y) {
    Matrix3 map = Matrix3::identity();
    map.m[0][2] = x, map.m[1][2] = y;
    return map;
}

cv::Mat to_mat(const Matrix3& matrix) {
    cv::Mat result(3, 3, CV_64F);
    for (int row = 0; row < 3; ++row)
        for (int column = 0; column < 3; ++column)
            result.at<double>(row, column) =
                matrix.m[static_cast<std::size_t>(row)][static_cast<std::size_t>(column)];
    return result;
}

// The other picture's light on the grid of `window` in the first; the window lies wholly in both.
cv::Mat resampled(const Frame& other, const Calibration& calibration, const Matrix3& to_other,
                  const PixelRect& window) {
    const PixelRect there = bounds(moved(rectangle(window), to_other));
    const int left = std::max(there.x - 2, 0), top = std::max(there.y - 2, 0);
    const PixelRect padded{left, top, std::min(there.x + there.width + 2, other.width) - left,
                           std::min(there.y + there.height + 2, other.height) - top};
    // OpenCV counts from the middle of the first pixel.
    const Matrix3 map = translation(-padded.x - 0.5, -padded.y - 0.5) * to_other *
                        translation(window.x + 0.5, window.y + 0.5);
    cv::Mat result;
    cv::warpPerspective(green_light(other, calibration, padded), result, to_mat(map),
                        {window.width, window.height}, cv::INTER_CUBIC | cv::WARP_INVERSE_MAP,
                        cv::BORDER_REPLICATE);
    return result;
}

// Grain alone: what is broader than the kernel taken out, in units of the mean.
cv::Mat grain_of(const cv::Mat& light) {
    const double reach = std::max(2.0, std::min(light.cols, light.rows) / 16.0);
    cv::Mat broad;
    cv::GaussianBlur(light, broad, {}, reach);
    return (light - broad) / std::max(cv::mean(light)[0], 1e-6);
}

struct Shift {
    double x = 0, y = 0;
    bool seen = false;
    double length() const { return std::hypot(x, y); }
};

Shift shift_between(const cv::Mat& first, const cv::Mat& other) {
    cv::Mat window;
    cv::createHanningWindow(window, first.size(), CV_32F);
    double response = 0;
    const cv::Point2d shift = cv::phaseCorrelate(grain_of(first), grain_of(other), window, &response);
    return {shift.x, shift.y, response >= least_response};
}

// Standard deviation of the means of lines, relative to the mean of all.
double line_spread(const cv::Mat& light, int along) {
    cv::Mat lines, mean, deviation;
    cv::reduce(light, lines, along, cv::REDUCE_AVG);
    cv::meanStdDev(lines, mean, deviation);
    return deviation.at<double>(0) / std::max(mean.at<double>(0), 1e-6);
}

// A region that lies `shift` off exchanges a strip of that width at each of two opposite sides for others.
double noise_of(const cv::Mat& light, double shift) {
    const double across = shift / light.cols * std::sqrt(2.0) * line_spread(light, 0);
    const double down = shift / light.rows * std::sqrt(2.0) * line_spread(light, 1);
    return std::hypot(across, down);
}

}  // namespace

Matrix3 register_on_card(const FoundCard& first, const FoundCard& other) {
    return other.sheet_to_picture * inverse(first.sheet_to_picture);
}

RegionMatch match_region(const Frame& first, const Calibration& first_calibration, const Frame& other,
                         const Calibration& other_calibration, const Matrix3& to_other,
                         const Region& region) {
    const auto require_there = [&](const Region& there) {
        if (!lies_inside(there, other.width, other.height))
            throw InputError(
                fmt::format("{}: a region of {} lies outside this picture; keep the camera where it is "
                            "between the lights",
                            other.name, first.name));
    };
    RegionMatch match;
    match.to_other = to_other;
    match.in_other = moved(region, to_other);
    require_there(match.in_other);
    const PixelRect window = middle_of(bounds(region));
    const cv::Mat here = green_light(first, first_calibration, window);
    const Shift once = shift_between(here, resampled(other, other_calibration, to_other, window));
    Matrix3 corrected = to_other;
    if (once.seen) {
        match.moved_px = once.length();
        match.to_other = corrected = to_other * translation(once.x, once.y);
        match.in_other = moved(region, corrected);
        require_there(match.in_other);
    }
    const Shift twice = shift_between(here, resampled(other, other_calibration, corrected, window));
    match.seen = once.seen && twice.seen;
    match.shift_px = match.seen ? twice.length() : supposed_shift;
    match.noise = noise_of(here, match.shift_px);
    return match;
}

}  // namespace tonemend
