#include "practice/picture_style.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>

#include "colour/matrix3.h"
#include "colour/srgb_curve.h"
#include "practice/sensor.h"

namespace tonemend {

namespace {

// Luminance of linear sRGB (IEC 61966-2-1).
constexpr std::array<double, 3> luminance_weights{0.2126, 0.7152, 0.0722};

double luminance(const float* rgb) {
    double sum = 0;
    for (std::size_t c = 0; c < 3; ++c) sum += luminance_weights[c] * static_cast<double>(rgb[c]);
    return sum;
}

// Saturation and hue twist: a turn about the grey axis that keeps R + G + B, stretched away from it, brought
// back to the pixel's own luminance.
Matrix3 colour_twist(const PracticeFaults& faults) {
    const double turn = faults.hue_twist * std::numbers::pi / 180;
    const double even = (1 - std::cos(turn)) / 3, odd = std::sin(turn) / std::numbers::sqrt3;
    const double cosine = std::cos(turn);
    const Matrix3 rotation{{{{cosine + even, even - odd, even + odd},
                             {even + odd, cosine + even, even - odd},
                             {even - odd, even + odd, cosine + even}}}};
    Matrix3 result;
    for (std::size_t column = 0; column < 3; ++column) {
        double turned_luminance = 0;
        for (std::size_t row = 0; row < 3; ++row)
            turned_luminance += luminance_weights[row] * rotation.m[row][column];
        for (std::size_t row = 0; row < 3; ++row)
            result.m[row][column] =
                luminance_weights[column] + faults.saturation * (rotation.m[row][column] - turned_luminance);
    }
    return result;
}

void even_out_surroundings(double strength, RawPicture& linear) {
    // The mean light around each pixel, at an eighth of the size and blurred there.
    constexpr int factor = 8;
    RawPicture small{linear.width / factor, linear.height / factor, {}};
    small.rgb.resize(3 * static_cast<std::size_t>(small.width) * static_cast<std::size_t>(small.height));
    for (int y = 0; y < small.height * factor; ++y)
        for (int x = 0; x < small.width * factor; ++x)
            for (int c = 0; c < 3; ++c)
                small.row(y / factor)[3 * (x / factor) + c] +=
                    static_cast<float>(luminance(linear.row(y) + std::ptrdiff_t{3} * x)) / (factor * factor);
    blur(small, linear.width / 32.0 / factor);
    double mean = 0;
    for (const float value : small.rgb) mean += static_cast<double>(value);
    mean /= static_cast<double>(small.rgb.size());
    for (int y = 0; y < linear.height; ++y)
        for (int x = 0; x < linear.width; ++x) {
            const double place_x = std::clamp((x + 0.5) / factor - 0.5, 0.0, small.width - 1.001);
            const double place_y = std::clamp((y + 0.5) / factor - 0.5, 0.0, small.height - 1.001);
            const int column = static_cast<int>(place_x), row = static_cast<int>(place_y);
            const std::ptrdiff_t at = std::ptrdiff_t{3} * column;
            const auto across = static_cast<float>(place_x - column),
                       down = static_cast<float>(place_y - row);
            const float around =
                std::lerp(std::lerp(small.row(row)[at], small.row(row)[at + 3], across),
                          std::lerp(small.row(row + 1)[at], small.row(row + 1)[at + 3], across), down);
            const auto gain =
                static_cast<float>(std::pow(std::max(static_cast<double>(around), 1e-3) / mean, -strength));
            for (int c = 0; c < 3; ++c) linear.row(y)[3 * x + c] *= gain;
        }
}

void tint(double amount, RawPicture& linear) {
    for (std::size_t i = 0; i < linear.rgb.size(); i += 3) {
        const double level = encode_srgb(std::clamp(luminance(linear.rgb.data() + i), 0.0, 1.0));
        const auto warm = static_cast<float>(amount * (2 * level - 1));
        linear.rgb[i] *= 1 + warm;
        linear.rgb[i + 2] *= 1 - warm;
    }
}

}  // namespace

bool is_styled(const PracticeFaults& faults) {
    return faults.saturation != 1 || faults.hue_twist != 0 || faults.tint_percent != 0 ||
           faults.local_tones != 0;
}

void apply_style(const PracticeFaults& faults, RawPicture& linear) {
    if (faults.local_tones > 0) even_out_surroundings(faults.local_tones, linear);
    if (faults.saturation != 1 || faults.hue_twist != 0) {
        const Matrix3 twist = colour_twist(faults);
        for (std::size_t i = 0; i < linear.rgb.size(); i += 3) {
            const Vector3 before{static_cast<double>(linear.rgb[i]), static_cast<double>(linear.rgb[i + 1]),
                                 static_cast<double>(linear.rgb[i + 2])};
            const Vector3 after = twist * before;
            for (std::size_t c = 0; c < 3; ++c) linear.rgb[i + c] = static_cast<float>(after[c]);
        }
    }
    if (faults.tint_percent != 0) tint(faults.tint_percent / 100, linear);
}

}  // namespace tonemend
