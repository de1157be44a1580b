#include "calibrate/model/read_samples.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "calibrate/flat/paper_spots.h"
#include "colour/difference.h"
#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

constexpr std::size_t least_pixels = 64;

using Axes = std::array<double, 3>;

Axes lab_axes(const Calibration& calibration, const Vector3& rgb) {
    const Lab lab = to_lab(calibration.to_xyz(rgb), d50_icc);
    return {lab.L, lab.a, lab.b};
}

SampleReading read_sample(const Frame& frame, const Calibration& calibration, const ColourSample& sample,
                          Vector3& rgb) {
    require_inside(sample.region, frame.width, frame.height, "--sample");
    PatchReading reading = read_area(frame, sample.region);
    if (reading.pixels < least_pixels)
        throw InputError(fmt::format("--sample {}: only {} of its pixels can be read; give at least {}",
                                     one_line(sample.text, 60), reading.pixels, least_pixels));
    if (calibration.flat_field) reading.light = calibration.flat_field->light_at(middle_of(sample.region));
    rgb = calibration.light_of(reading);
    const Axes seen = lab_axes(calibration, rgb);
    SampleReading result{sample, {seen[0], seen[1], seen[2]}, {}, false, {}};
    Axes variance{};
    variance.fill(sample.u * sample.u);
    for (std::size_t c = 0; c < 3; ++c) {
        Vector3 moved = rgb;
        moved[c] +=
            std::hypot(calibration.curves[c].slope(reading.mean[c]) * reading.mean_u[c] / reading.light[c],
                       calibration.uncertainty.step * rgb[c]);
        const Axes there = lab_axes(calibration, moved);
        for (std::size_t axis = 0; axis < 3; ++axis)
            variance[axis] += (there[axis] - seen[axis]) * (there[axis] - seen[axis]);
    }
    for (std::size_t axis = 0; axis < 3; ++axis) result.u[axis] = std::sqrt(variance[axis]);
    return result;
}

// What the calibration may be off by at `rgb`: the camera, and the card as a whole.
LocalPrior prior_at(const Calibration& calibration, const Vector3& rgb) {
    const Characterisation& characterisation = calibration.characterisation;
    const Axes here = lab_axes(calibration, rgb);
    const Vector3 working = characterisation.model.to_working * rgb;
    Axes variance{};
    const auto add = [&](const Axes& there) {
        for (std::size_t axis = 0; axis < 3; ++axis)
            variance[axis] += (there[axis] - here[axis]) * (there[axis] - here[axis]);
    };
    const XYZ xyz = calibration.to_xyz(rgb);
    for (const ModelChange& change : characterisation.doubt) {
        const XYZ by = change.of(working);
        const Lab there = to_lab({xyz.X + by.X, xyz.Y + by.Y, xyz.Z + by.Z}, d50_icc);
        add({there.L, there.a, there.b});
    }
    const double card = 1 + calibration.uncertainty.card;
    add(lab_axes(calibration, {card * rgb[0], card * rgb[1], card * rgb[2]}));
    LocalPrior prior;
    prior.instrument = instrument_shared_u;
    for (std::size_t axis = 0; axis < 3; ++axis) {
        const double all = variance[axis] + characterisation.unexplained.common.m[axis][axis];
        const double apart = characterisation.unexplained.apart.m[axis][axis];
        prior.u[axis] = std::sqrt(all);
        prior.between[axis] = all > 0 ? std::clamp(1 - apart / (2 * all), 0.0, 1.0) : 1.0;
    }
    return prior;
}

}  // namespace

LocalCorrection read_samples(const Frame& frame, const Calibration& calibration,
                             const std::vector<ColourSample>& samples) {
    if (samples.empty()) return {};
    std::vector<SampleReading> readings;
    Vector3 mean{};
    for (const ColourSample& sample : samples) {
        Vector3 rgb{};
        readings.push_back(read_sample(frame, calibration, sample, rgb));
        for (std::size_t c = 0; c < 3; ++c) mean[c] += rgb[c] / static_cast<double>(samples.size());
    }
    return {prior_at(calibration, mean), std::move(readings)};
}

std::vector<Warning> warn_of_samples(const LocalCorrection& correction) {
    std::vector<Warning> warnings;
    for (const SampleReading& reading : correction.samples()) {
        if (!reading.left_out) continue;
        const Lab &stated = reading.sample.lab, &expected = reading.expected;
        warnings.push_back(
            {"sample-disagrees",
             fmt::format(
                 "sample {}: the picture and the other samples make it L* {:.1f} a* {:.1f} b* {:.1f}, "
                 "ΔE2000 {:.1f} from what is stated; it was left out: check the numbers and the "
                 "region",
                 one_line(reading.sample.text, 60), expected.L, expected.a, expected.b,
                 ciede2000(expected, stated).value),
             false});
    }
    return warnings;
}

}  // namespace tonemend
