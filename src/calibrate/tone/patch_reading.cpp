#include "calibrate/tone/patch_reading.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "calibrate/card/homography.h"
#include "calibrate/tone/coding.h"
#include "picture/input_error.h"
#include "picture/linear_picture.h"

namespace tonemend {
namespace {

constexpr double margin = 0.15;  // of a patch's side that is not read
constexpr std::size_t least_pixels = 16;
constexpr double outlier_sigmas = 4.0;
constexpr double most_samples = 4000;

struct Sample {
    double x, y;  // picture pixels, from the centre of the patch's bounds
    Vector3 rgb;
};

Region inner_area(const Patch& patch, const Matrix3& card_to_picture) {
    const double dx = margin * (patch.x1 - patch.x0), dy = margin * (patch.y1 - patch.y0);
    Region region;
    for (const Point corner : {Point{patch.x0 + dx, patch.y0 + dy}, Point{patch.x1 - dx, patch.y0 + dy},
                               Point{patch.x1 - dx, patch.y1 - dy}, Point{patch.x0 + dx, patch.y1 - dy}}) {
        region.corners.push_back(map_point(card_to_picture, corner));
    }
    return region;
}

// Median and a robust standard deviation (1.4826 × the median absolute deviation) of one channel.
std::pair<double, double> robust_centre(const std::vector<Sample>& samples, std::size_t channel) {
    std::vector<double> values;
    values.reserve(samples.size());
    for (const Sample& sample : samples) values.push_back(sample.rgb[channel]);
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    const double median = *middle;
    for (double& value : values) value = std::abs(value - median);
    std::nth_element(values.begin(), middle, values.end());
    return {median, 1.4826 * *middle};
}

std::size_t drop_outliers(std::vector<Sample>& samples) {
    std::array<std::pair<double, double>, 3> centres;
    for (std::size_t c = 0; c < 3; ++c) {
        centres[c] = robust_centre(samples, c);
        // A quantised flat patch has no spread at all: a step of the quantiser is no outlier.
        centres[c].second = std::max(centres[c].second, 0.004 * std::abs(centres[c].first) + 2e-4);
    }
    return std::erase_if(samples, [&](const Sample& sample) {
        for (std::size_t c = 0; c < 3; ++c) {
            if (std::abs(sample.rgb[c] - centres[c].first) > outlier_sigmas * centres[c].second) return true;
        }
        return false;
    });
}

// Relative slopes of brightness by least squares on a plane; x and y are centred first.
void fit_slopes(const std::vector<Sample>& samples, PatchReading& reading) {
    const double n = static_cast<double>(samples.size());
    const double brightness = reading.mean[0] + reading.mean[1] + reading.mean[2];
    if (brightness <= 0) return;
    double mx = 0, my = 0;
    for (const Sample& s : samples) mx += s.x / n, my += s.y / n;
    double xx = 0, xy = 0, yy = 0, xv = 0, yv = 0, vv = 0;
    for (const Sample& s : samples) {
        const double x = s.x - mx, y = s.y - my;
        const double v = (s.rgb[0] + s.rgb[1] + s.rgb[2]) / brightness - 1.0;
        xx += x * x, xy += x * y, yy += y * y, xv += x * v, yv += y * v, vv += v * v;
    }
    const double determinant = xx * yy - xy * xy;
    if (determinant <= 0) return;
    reading.slope_x = (xv * yy - yv * xy) / determinant;
    reading.slope_y = (yv * xx - xv * xy) / determinant;
    const double residual = std::max(0.0, vv - reading.slope_x * xv - reading.slope_y * yv) / n;
    reading.slope_u = std::sqrt(residual * std::max(xx, yy) / determinant);
}

PatchReading read_patch(const Frame& frame, const Patch& patch, const Matrix3& card_to_picture) {
    const Region area = inner_area(patch, card_to_picture);
    if (!lies_inside(area, frame.width, frame.height)) {
        throw InputError(
            fmt::format("{}: card patch '{}' lies outside the picture, which is {} × {} pixels; take the "
                        "picture with the "
                        "whole card in it, or give corners inside it with --card-at",
                        frame.name, patch.name, frame.width, frame.height));
    }
    PatchReading reading = read_area(frame, area);
    reading.patch = patch;
    const std::size_t all = reading.pixels + reading.outliers + reading.clipped;
    if (all < least_pixels) {
        throw InputError(fmt::format(
            "{}: card patch '{}' covers only {} pixels; take the picture closer or give the card's "
            "corners with --card-at",
            frame.name, patch.name, all));
    }
    return reading;
}

}  // namespace

PatchReading read_area(const Frame& frame, const Region& area) {
    PatchReading reading;
    reading.area = area;
    const PixelRect window = bounds(reading.area);
    const LinearPicture picture = linear_light(frame, window);
    // A large patch is read on a lattice: enough pixels for any mean, and no more work than they cost.
    const int stride = std::max(1, static_cast<int>(std::sqrt(tonemend::area(area) / most_samples)));
    std::vector<Sample> samples;
    samples.reserve(static_cast<std::size_t>(most_samples));
    for (const Span& span : spans(reading.area)) {
        if ((span.row - window.y) % stride != 0) continue;
        for (int x = span.first; x < span.last; x += stride) {
            const int column = x - window.x, row = span.row - window.y;
            if (picture.clipped[static_cast<std::size_t>(row) * static_cast<std::size_t>(window.width) +
                                static_cast<std::size_t>(column)]) {
                ++reading.clipped;
                continue;
            }
            const float* rgb = picture.at(column, row);
            samples.push_back({x + 0.5, span.row + 0.5, {rgb[0], rgb[1], rgb[2]}});
        }
    }
    if (samples.size() < least_pixels) {
        reading.outliers = samples.size();
        return reading;
    }
    reading.outliers = drop_outliers(samples);
    reading.pixels = samples.size();
    const double n = static_cast<double>(samples.size());
    const Coding coding = coding_of(frame);
    for (std::size_t c = 0; c < 3; ++c) {
        double sum = 0, squares = 0;
        for (const Sample& sample : samples) sum += sample.rgb[c];
        reading.mean[c] = sum / n;
        for (const Sample& sample : samples) squares += std::pow(sample.rgb[c] - reading.mean[c], 2);
        reading.spread[c] = std::sqrt(squares / n);
        // Demosaicing and JPEG tie neighbours together: count one independent sample in each four.
        reading.mean_u[c] =
            std::hypot(reading.spread[c] / std::sqrt(std::max(1.0, n / 4.0)),
                       coding.mean_u(reading.mean[c], reading.spread[c], tonemend::area(area)));
    }
    fit_slopes(samples, reading);
    return reading;
}

double PatchReading::clipped_share() const {
    const std::size_t all = pixels + outliers + clipped;
    return all == 0 ? 1.0 : static_cast<double>(clipped) / static_cast<double>(all);
}

std::vector<PatchReading> read_patches(const Frame& frame, const Card& card, const Quad& corners) {
    const Matrix3 card_to_picture = unit_square_to_quad(corners);
    std::vector<PatchReading> readings;
    for (const Patch& patch : card.patches) readings.push_back(read_patch(frame, patch, card_to_picture));
    return readings;
}

}  // namespace tonemend
