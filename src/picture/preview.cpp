#include "picture/preview.h"

#include <algorithm>
#include <cmath>
#include <cstring>

#include "colour/rgb_space.h"
#include "colour/srgb_curve.h"
#include "picture/linear_picture.h"
#include "picture/standard_encodings.h"

namespace tonemend {
namespace {

/// Rows turned to linear light at a time: enough that its tables pay, little beside the picture.
constexpr int pixels_at_a_time = 1 << 20;

/// Encoded sRGB of 65536 evenly spaced linear values; one step is at most 0.05 code.
class SrgbTable {
  public:
    SrgbTable() : codes_(steps + 1) {
        for (std::size_t i = 0; i <= steps; ++i)
            codes_[i] = static_cast<std::uint8_t>(
                std::lround(255 * encode_srgb(static_cast<double>(i) / static_cast<double>(steps))));
    }
    std::uint8_t operator()(float linear) const {
        // Also what is not a number becomes black.
        const float place = linear > 0 ? std::min(linear, 1.0F) * static_cast<float>(steps) + 0.5F : 0.0F;
        return codes_[static_cast<std::size_t>(place)];
    }

  private:
    static constexpr std::size_t steps = 65535;
    std::vector<std::uint8_t> codes_;
};

/// How one row or column of the frame shares itself between the result's pixel `index` and the one behind it.
struct Share {
    int index = 0;
    float here = 1;
    float next = 0;
};

std::vector<Share> shares(int from, int to) {
    std::vector<Share> result(static_cast<std::size_t>(from));
    const double scale = static_cast<double>(to) / from;
    for (int i = 0; i < from; ++i) {
        const double start = i * scale;
        const double end = (i + 1) * scale;
        const int index = std::min(static_cast<int>(start), to - 1);
        const double here = std::min(end, index + 1.0) - start;
        const double next = index + 1 < to ? scale - here : 0;
        result[static_cast<std::size_t>(i)] = {index, static_cast<float>(here), static_cast<float>(next)};
    }
    return result;
}

std::array<float, 9> to_linear_srgb(const Frame& frame, const std::array<double, 3>& gain) {
    const Matrix3 matrix = inverse(rgb_to_xyz_d50(srgb)) * frame.encoding.to_xyz_d50 *
                           Matrix3::diagonal(gain[0], gain[1], gain[2]);
    std::array<float, 9> flat{};
    for (std::size_t i = 0; i < 9; ++i) flat[i] = static_cast<float>(matrix.m[i / 3][i % 3]);
    return flat;
}

/// Adds up the frame's rows into the rows of the result, one after the other.
class Reducer {
  public:
    Reducer(const Frame& frame, const std::array<double, 3>& gain, DisplayPicture& result)
        : result_(result),
          columns_(shares(frame.width, result.width)),
          rows_(shares(frame.height, result.height)),
          matrix_(to_linear_srgb(frame, gain)),
          sums_(3 * static_cast<std::size_t>(result.width)),
          next_sums_(sums_.size()) {}

    void add_row(int row, const float* rgb) {
        const Share& share = rows_[static_cast<std::size_t>(row)];
        if (share.index != current_) finish_row();
        for (std::size_t x = 0; x < columns_.size(); ++x, rgb += 3) {
            const std::size_t at = 3 * static_cast<std::size_t>(columns_[x].index);
            add(at, share, columns_[x].here, rgb);
            if (columns_[x].next > 0) add(at + 3, share, columns_[x].next, rgb);
        }
    }

    void finish_row() {
        std::uint8_t* out = result_.rgb.data() + static_cast<std::size_t>(current_) * sums_.size();
        for (std::size_t i = 0; i < sums_.size(); i += 3)
            for (std::size_t c = 0; c < 3; ++c)
                *out++ = encode_(matrix_[3 * c] * sums_[i] + matrix_[3 * c + 1] * sums_[i + 1] +
                                 matrix_[3 * c + 2] * sums_[i + 2]);
        std::swap(sums_, next_sums_);
        std::fill(next_sums_.begin(), next_sums_.end(), 0.0F);
        ++current_;
    }

  private:
    void add(std::size_t at, const Share& row, float column, const float* rgb) {
        for (std::size_t c = 0; c < 3; ++c) sums_[at + c] += row.here * column * rgb[c];
        if (row.next > 0)
            for (std::size_t c = 0; c < 3; ++c) next_sums_[at + c] += row.next * column * rgb[c];
    }

    DisplayPicture& result_;
    SrgbTable encode_;
    std::vector<Share> columns_;
    std::vector<Share> rows_;
    std::array<float, 9> matrix_;
    std::vector<float> sums_;
    std::vector<float> next_sums_;
    int current_ = 0;
};

}  // namespace

DisplayPicture make_preview(const Frame& frame, const PreviewOptions& options) {
    DisplayPicture result{frame.width, frame.height, {}};
    const int longest = std::max(frame.width, frame.height);
    if (options.longest_side > 0 && options.longest_side < longest) {
        const double scale = static_cast<double>(options.longest_side) / longest;
        result.width = std::max(1, static_cast<int>(std::lround(frame.width * scale)));
        result.height = std::max(1, static_cast<int>(std::lround(frame.height * scale)));
    }
    result.rgb.resize(3 * static_cast<std::size_t>(result.width) * static_cast<std::size_t>(result.height));

    Reducer reducer(frame, options.gain, result);
    const int rows_at_a_time = std::max(1, pixels_at_a_time / frame.width);
    for (int top = 0; top < frame.height; top += rows_at_a_time) {
        const int rows = std::min(rows_at_a_time, frame.height - top);
        const LinearPicture linear = linear_light(frame, {0, top, frame.width, rows});
        for (int row = 0; row < rows; ++row) reducer.add_row(top + row, linear.at(0, row));
    }
    reducer.finish_row();
    return result;
}

Frame as_frame(const DisplayPicture& picture) {
    Frame frame;
    frame.width = picture.width;
    frame.height = picture.height;
    frame.encoding = srgb_encoding(Provenance::stated);
    frame.samples.resize(picture.rgb.size());
    std::memcpy(frame.samples.data(), picture.rgb.data(), picture.rgb.size());
    return frame;
}

}  // namespace tonemend
