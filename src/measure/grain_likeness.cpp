#include "measure/grain_likeness.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

namespace tonemend {
namespace {

constexpr int lag = 3;                 // pixels
constexpr float enough_colour = 0.1F;  // red minus blue against green

float mean_of(const LinearPicture& picture, std::size_t channel) {
    double sum = 0, count = 0;
    for (std::size_t i = 0; i < picture.clipped.size(); ++i)
        if (picture.clipped[i] == 0) sum += static_cast<double>(picture.rgb[3 * i + channel]), ++count;
    return static_cast<float>(sum / std::max(1.0, count));
}

// Grain in units of the mean; 0 where `keep` is.
cv::Mat neutral_free_grain(const LinearPicture& picture, const cv::Mat& keep) {
    const float difference = mean_of(picture, 0) - mean_of(picture, 2), green = mean_of(picture, 1);
    const bool coloured = std::abs(difference) > enough_colour * green;
    const float mean = coloured ? difference : std::max(green, 1e-6F);
    cv::Mat light(picture.window.height, picture.window.width, CV_32F);
    for (int y = 0; y < light.rows; ++y)
        for (int x = 0; x < light.cols; ++x) {
            const float* rgb = picture.at(x, y);
            const float value = coloured ? rgb[0] - rgb[2] : rgb[1];
            light.at<float>(y, x) = keep.at<float>(y, x) > 0 ? value / mean : 1.0F;
        }
    cv::Mat broad;
    cv::GaussianBlur(light, broad, {}, std::max(3.0, std::min(light.cols, light.rows) / 16.0));
    return (light - broad).mul(keep);
}

cv::Mat kept_in_both(const LinearPicture& first, const LinearPicture& other) {
    cv::Mat keep(first.window.height, first.window.width, CV_32F);
    for (int y = 0; y < keep.rows; ++y)
        for (int x = 0; x < keep.cols; ++x) {
            const std::size_t i = static_cast<std::size_t>(y) * static_cast<std::size_t>(keep.cols) +
                                  static_cast<std::size_t>(x);
            keep.at<float>(y, x) = first.clipped[i] == 0 && other.clipped[i] == 0 ? 1.0F : 0.0F;
        }
    return keep;
}

// Mean product of a pixel of `a` and the pixel of `b` that lies `lag` further.
double product(const cv::Mat& a, const cv::Mat& b, bool along_rows) {
    const cv::Rect from(0, 0, a.cols - (along_rows ? lag : 0), a.rows - (along_rows ? 0 : lag));
    const cv::Rect to(along_rows ? lag : 0, along_rows ? 0 : lag, from.width, from.height);
    return a(from).dot(b(to)) / from.area();
}

}  // namespace

GrainLikeness compare_grain(const LinearPicture& first, const LinearPicture& other) {
    GrainLikeness likeness;
    if (std::min(first.window.width, first.window.height) <= 2 * lag) return likeness;
    const cv::Mat keep = kept_in_both(first, other);
    const cv::Mat a = neutral_free_grain(first, keep), b = neutral_free_grain(other, keep);
    // Along the grain pixels three apart are alike.
    const bool along_rows = product(a, a, true) > product(a, a, false);
    const double aa = product(a, a, along_rows), bb = product(b, b, along_rows);
    if (aa <= 0) return likeness;
    likeness.contrast = std::sqrt(aa / std::max(cv::mean(keep)[0], 1e-6));
    if (bb > 0) likeness.correlation = product(a, b, along_rows) / std::sqrt(aa * bb);
    return likeness;
}

}  // namespace tonemend
