#include "calibrate/card/find_card_grey.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>

namespace tonemend {
namespace {

constexpr int top_code = 65535;

int code_of(std::uint8_t sample) {
    return sample * 257;
}
int code_of(std::uint16_t sample) {
    return sample;
}
int code_of(float sample) {
    // Written so that NaN counts as black.
    return sample > 0 ? static_cast<int>(std::min(sample, 1.0F) * static_cast<float>(top_code)) : 0;
}

template <typename Sample>
void reduce_rows(const Frame& frame, int factor, cv::Mat& codes) {
    const int near = factor / 4;
    const int far = factor - 1 - near;
    const std::size_t step = 3 * static_cast<std::size_t>(factor);
    for (int row = 0; row < codes.rows; ++row) {
        const auto* upper = reinterpret_cast<const Sample*>(frame.row(row * factor + near)) + 1;
        const auto* lower = reinterpret_cast<const Sample*>(frame.row(row * factor + far)) + 1;
        std::size_t left = 3 * static_cast<std::size_t>(near);
        std::size_t right = 3 * static_cast<std::size_t>(far);
        auto* out = codes.ptr<std::uint16_t>(row);
        for (int column = 0; column < codes.cols; ++column, left += step, right += step)
            out[column] = static_cast<std::uint16_t>((code_of(upper[left]) + code_of(upper[right]) +
                                                      code_of(lower[left]) + code_of(lower[right])) /
                                                     4);
    }
}

/// The codes below which, and above which, half a per cent of the picture lies.
std::pair<int, int> ends(const cv::Mat& codes) {
    constexpr int bin_width = 64;
    std::array<std::size_t, (top_code + 1) / bin_width> bins{};
    for (int row = 0; row < codes.rows; ++row)
        for (int column = 0; column < codes.cols; ++column)
            ++bins[static_cast<std::size_t>(codes.at<std::uint16_t>(row, column) / bin_width)];
    const std::size_t share = codes.total() / 200;
    std::size_t low = 0, high = bins.size() - 1;
    for (std::size_t sum = bins[low]; sum <= share && low + 1 < bins.size(); sum += bins[++low]) {
    }
    for (std::size_t sum = bins[high]; sum <= share && high > 0; sum += bins[--high]) {
    }
    return {static_cast<int>(low) * bin_width, static_cast<int>(high + 1) * bin_width};
}

cv::Mat stretch(const cv::Mat& codes, bool linear) {
    const auto [low, high] = ends(codes);
    const double range = std::max(high - low, 1);
    std::vector<std::uint8_t> table(top_code + 1);
    for (int code = 0; code <= top_code; ++code) {
        const double share = std::clamp((code - low) / range, 0.0, 1.0);
        table[static_cast<std::size_t>(code)] =
            cv::saturate_cast<std::uint8_t>(255 * (linear ? std::sqrt(share) : share));
    }
    cv::Mat grey(codes.size(), CV_8UC1);
    for (int row = 0; row < codes.rows; ++row) {
        const auto* in = codes.ptr<std::uint16_t>(row);
        auto* out = grey.ptr<std::uint8_t>(row);
        for (int column = 0; column < codes.cols; ++column) out[column] = table[in[column]];
    }
    return grey;
}

}  // namespace

cv::Mat reduced_grey(const Frame& frame, int factor) {
    cv::Mat codes(frame.height / factor, frame.width / factor, CV_16UC1);
    switch (frame.type) {
        case SampleType::uint8:
            reduce_rows<std::uint8_t>(frame, factor, codes);
            break;
        case SampleType::uint16:
            reduce_rows<std::uint16_t>(frame, factor, codes);
            break;
        case SampleType::float32:
            reduce_rows<float>(frame, factor, codes);
            break;
    }
    return stretch(codes, frame.encoding.camera_native);
}

GreenLight::GreenLight(const Frame& frame) : frame_(frame) {
    const std::size_t size = frame.type == SampleType::uint8 ? 256 : 4096;
    std::vector<float> neutral(3 * size);
    for (std::size_t i = 0; i < neutral.size(); ++i)
        neutral[i] = static_cast<float>(i / 3) / static_cast<float>(size - 1);
    if (frame.encoding.decoding) frame.encoding.decoding->decode(neutral.data(), neutral.data(), size);
    for (std::size_t i = 0; i < size; ++i) light_.push_back(neutral[3 * i + 1]);
}

float GreenLight::pixel(int column, int row) const {
    const std::size_t place = 3 * static_cast<std::size_t>(std::clamp(column, 0, frame_.width - 1)) + 1;
    const std::byte* samples = frame_.row(std::clamp(row, 0, frame_.height - 1));
    if (frame_.type == SampleType::uint8)
        return light_[reinterpret_cast<const std::uint8_t*>(samples)[place]];
    const int code = frame_.type == SampleType::uint16
                         ? code_of(reinterpret_cast<const std::uint16_t*>(samples)[place])
                         : code_of(reinterpret_cast<const float*>(samples)[place]);
    const float index =
        static_cast<float>(code) * static_cast<float>(light_.size() - 1) / static_cast<float>(top_code);
    const std::size_t below = std::min(static_cast<std::size_t>(index), light_.size() - 2);
    return std::lerp(light_[below], light_[below + 1], index - static_cast<float>(below));
}

float GreenLight::at(double x, double y) const {
    const double left = std::floor(x - 0.5);
    const double top = std::floor(y - 0.5);
    const auto across = static_cast<float>(x - 0.5 - left);
    const auto down = static_cast<float>(y - 0.5 - top);
    const int column = static_cast<int>(left);
    const int row = static_cast<int>(top);
    return std::lerp(std::lerp(pixel(column, row), pixel(column + 1, row), across),
                     std::lerp(pixel(column, row + 1), pixel(column + 1, row + 1), across), down);
}

}  // namespace tonemend
