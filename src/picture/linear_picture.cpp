#include "picture/linear_picture.h"

#include <algorithm>
#include <cassert>
#include <cstring>
#include <limits>
#include <memory>
#include <mutex>

namespace tonemend {
namespace {

/// Linear light of every code of one channel's integer samples.
using Table = std::vector<float>;

/// One value of a channel through the caller's curve, which is asked for in double precision.
float corrected(float linear, const ChannelCurves* curves, std::size_t channel) {
    return curves && (*curves)[channel] ? static_cast<float>((*curves)[channel](static_cast<double>(linear)))
                                        : linear;
}

template <typename Sample>
constexpr Sample top_code = std::numeric_limits<Sample>::max();

// Decoded R, G, B of every grey code, 16 bits deep. The last decoding's are kept: making them costs as much
// as reading a large region, and the frames of a camera all come with the same one.
using Greys = std::shared_ptr<const std::vector<float>>;

template <typename Sample>
std::vector<float> decode_greys(const Decoding& decoding) {
    const std::size_t codes = std::size_t{top_code<Sample>} + 1;
    std::vector<float> greys(3 * codes);
    for (std::size_t i = 0; i < greys.size(); ++i)
        greys[i] = static_cast<float>(i / 3) / static_cast<float>(top_code<Sample>);
    decoding.decode(greys.data(), greys.data(), codes);
    return greys;
}

Greys greys_of(const std::shared_ptr<const Decoding>& decoding) {
    static std::mutex mutex;
    static std::weak_ptr<const Decoding> last;
    static Greys greys;
    {
        const std::lock_guard lock(mutex);
        if (last.lock() == decoding) return greys;
    }
    auto made = std::make_shared<const std::vector<float>>(decode_greys<std::uint16_t>(*decoding));
    const std::lock_guard lock(mutex);
    last = decoding;
    greys = made;
    return made;
}

template <typename Sample>
std::array<Table, 3> tables(const std::vector<float>& greys, const ChannelCurves* curves) {
    // Of 65536 codes the curve is asked for one in eight and taken as straight between: an error of 2e-8 at
    // most where it is smooth.
    constexpr std::size_t step = sizeof(Sample) == 1 ? 1 : 8;
    const std::size_t codes = greys.size() / 3;
    std::array<Table, 3> result;
    for (std::size_t channel = 0; channel < 3; ++channel) {
        Table& table = result[channel];
        table.resize(codes);
        const auto linear = [&](std::size_t code) { return greys[3 * code + channel]; };
        const auto value = [&](std::size_t code) {
            const double light{linear(code)};
            return curves && (*curves)[channel] ? (*curves)[channel](light) : light;
        };
        double at_low = value(0);
        for (std::size_t low = 0; low < codes; low += step) {
            const std::size_t high = std::min(low + step, codes - 1);
            const double at_high = value(high);
            const double across = double{linear(high)} - double{linear(low)};
            const double slope = across > 0 ? (at_high - at_low) / across : 0;
            for (std::size_t code = low; code < std::min(low + step, codes); ++code)
                table[code] =
                    static_cast<float>(at_low + slope * (double{linear(code)} - double{linear(low)}));
            at_low = at_high;
        }
    }
    return result;
}

template <typename Sample>
bool is_clipped(const Sample* pixel) {
    if constexpr (std::is_floating_point_v<Sample>) {
        // Written so that a sample that is not a number counts as clipped too.
        return !(pixel[0] > 0 && pixel[0] < 1 && pixel[1] > 0 && pixel[1] < 1 && pixel[2] > 0 &&
                 pixel[2] < 1);
    } else {
        const Sample low = std::min({pixel[0], pixel[1], pixel[2]});
        const Sample high = std::max({pixel[0], pixel[1], pixel[2]});
        return low == 0 || high == top_code<Sample>;
    }
}

template <typename Sample>
const Sample* pixels_of(const Frame& frame, const PixelRect& window, int row) {
    // std::vector's storage is aligned for every sample type.
    return reinterpret_cast<const Sample*>(frame.row(window.y + row)) +
           3 * static_cast<std::size_t>(window.x);
}

template <typename Sample>
void through_tables(const Frame& frame, const std::vector<float>& greys, const ChannelCurves* curves,
                    LinearPicture& out) {
    const auto table = tables<Sample>(greys, curves);
    const float* const red = table[0].data();
    const float* const green = table[1].data();
    const float* const blue = table[2].data();
    float* rgb = out.rgb.data();
    std::uint8_t* clipped = out.clipped.data();
    for (int row = 0; row < out.window.height; ++row) {
        const Sample* pixel = pixels_of<Sample>(frame, out.window, row);
        for (int column = 0; column < out.window.width; ++column, pixel += 3, rgb += 3) {
            rgb[0] = red[pixel[0]];
            rgb[1] = green[pixel[1]];
            rgb[2] = blue[pixel[2]];
            *clipped++ = is_clipped(pixel);
        }
    }
}

template <typename Sample>
void directly(const Frame& frame, const ChannelCurves* curves, LinearPicture& out) {
    const std::size_t width = static_cast<std::size_t>(out.window.width);
    for (int row = 0; row < out.window.height; ++row) {
        const Sample* pixel = pixels_of<Sample>(frame, out.window, row);
        float* const rgb = out.rgb.data() + 3 * width * static_cast<std::size_t>(row);
        std::uint8_t* const clipped = out.clipped.data() + width * static_cast<std::size_t>(row);
        for (std::size_t column = 0; column < width; ++column)
            clipped[column] = is_clipped(pixel + 3 * column);
        if constexpr (std::is_floating_point_v<Sample>)
            std::copy_n(pixel, 3 * width, rgb);
        else
            for (std::size_t i = 0; i < 3 * width; ++i)
                rgb[i] = static_cast<float>(pixel[i]) / static_cast<float>(top_code<Sample>);
        frame.encoding.decoding->decode(rgb, rgb, width);
        if (!curves) continue;
        for (std::size_t i = 0; i < 3 * width; ++i) rgb[i] = corrected(rgb[i], curves, i % 3);
    }
}

template <typename Sample>
void fill(const Frame& frame, const ChannelCurves* curves, LinearPicture& out) {
    const bool separable = frame.encoding.decoding->separable();
    const std::size_t pixels = out.clipped.size();
    // Below this many pixels making the tables costs more than it saves.
    if constexpr (std::is_same_v<Sample, std::uint8_t>) {
        if (separable && pixels >= 64)
            return through_tables<Sample>(frame, decode_greys<Sample>(*frame.encoding.decoding), curves, out);
    }
    if constexpr (std::is_same_v<Sample, std::uint16_t>) {
        if (separable && pixels >= 8192)
            return through_tables<Sample>(frame, *greys_of(frame.encoding.decoding), curves, out);
    }
    directly<Sample>(frame, curves, out);
}

/// A raw picture's missing colours are averages of the neighbours, so a clipped sensor sample also spoils
/// the eight pixels around it.
void spread_to_neighbours(LinearPicture& picture) {
    const int width = picture.window.width;
    const int height = picture.window.height;
    const std::vector<std::uint8_t> before = picture.clipped;
    for (int row = 0; row < height; ++row)
        for (int column = 0; column < width; ++column) {
            if (!before[static_cast<std::size_t>(row) * static_cast<std::size_t>(width) +
                        static_cast<std::size_t>(column)])
                continue;
            for (int y = std::max(row - 1, 0); y <= std::min(row + 1, height - 1); ++y)
                for (int x = std::max(column - 1, 0); x <= std::min(column + 1, width - 1); ++x)
                    picture.clipped[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
                                    static_cast<std::size_t>(x)] = 1;
        }
}

}  // namespace

LinearPicture linear_light(const Frame& frame, const PixelRect& window, const ChannelCurves* curves) {
    assert(window.x >= 0 && window.y >= 0 && window.width >= 0 && window.height >= 0);
    assert(window.x + window.width <= frame.width && window.y + window.height <= frame.height);
    const std::size_t pixels =
        static_cast<std::size_t>(window.width) * static_cast<std::size_t>(window.height);
    LinearPicture picture{window, std::vector<float>(3 * pixels), std::vector<std::uint8_t>(pixels)};
    switch (frame.type) {
        case SampleType::uint8:
            fill<std::uint8_t>(frame, curves, picture);
            break;
        case SampleType::uint16:
            fill<std::uint16_t>(frame, curves, picture);
            break;
        case SampleType::float32:
            fill<float>(frame, curves, picture);
            break;
    }
    if (frame.encoding.camera_native) spread_to_neighbours(picture);
    return picture;
}

}  // namespace tonemend
