#include "measure/gloss.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "calibrate/flat/paper_spots.h"
#include "colour/difference.h"
#include "measure/glare_free.h"
#include "measure/gloss_warnings.h"
#include "measure/region_warnings.h"

namespace tonemend {
namespace {

constexpr double channel_floor = 0.002;  // relative: curves and cards of two pictures, a channel each
// What the best picture still mirrors, as a share of the gloss seen: lobes are wide. Common practice, no
// source.
constexpr double left_over = 0.03;

// Of one picture's light at a place compared with its card's, relative; root of the mean square over
// pictures.
UnevenLight uneven_light(const std::vector<LampPosition>& positions, const Point& at) {
    double common = 0, channel = 0;
    for (const LampPosition& position : positions) {
        const Calibration& calibration = position.calibration;
        const Point card = middle_of(calibration.card_corners);
        const LightSlope& slope = calibration.light;
        if (const auto& field = calibration.flat_field) {
            const double variance = std::max(0.0, field->covariance(at, at));
            common += variance, channel += variance * field->colour_share * field->colour_share;
            // What the paper still shows once it is evened out, if that is more than noise.
            if (std::hypot(slope.x, slope.y) > 2 * slope.u)
                common += std::pow(slope.x * (at.x - card.x), 2) + std::pow(slope.y * (at.y - card.y), 2);
        } else {
            common += std::pow(std::max(std::abs(slope.x), slope.u) * (at.x - card.x), 2) +
                      std::pow(std::max(std::abs(slope.y), slope.u) * (at.y - card.y), 2);
        }
    }
    const auto n = static_cast<double>(positions.size());
    return {std::sqrt(common / n), std::hypot(channel_floor, std::sqrt(channel / n))};
}

// The first picture's calibration with the light that a mean over all of them has.
Calibration shared_light(const std::vector<LampPosition>& positions) {
    Calibration calibration = positions.front().calibration;
    const auto n = static_cast<double>(positions.size());
    LightSlope slope;
    bool all_flat = true;
    for (const LampPosition& position : positions) {
        const LightSlope& its = position.calibration.light;
        slope.x += its.x / n, slope.y += its.y / n, slope.u += its.u * its.u / (n * n);
        all_flat = all_flat && position.calibration.flat_field.has_value();
    }
    slope.u = std::sqrt(slope.u);
    calibration.light = slope;
    if (!all_flat) {
        calibration.flat_field.reset();
    } else {
        for (double& entry : calibration.flat_field->doubt) entry /= n;
        calibration.flat_field->misfit /= std::sqrt(n);
    }
    return calibration;
}

struct OneRegion {
    GlossSplit split;
    Reading reading;
    double shift_px = 0, shimmer_de2000 = 0;
};

OneRegion look_at_region(const std::vector<LampPosition>& positions, const Region& region,
                         const std::string& role, SampleSide side) {
    OneRegion one;
    const LaidOver laid = lay_over(positions, region, role);
    one.shift_px = laid.shift_px;
    const GlossCells cells = cut_into_cells(laid);
    const PixelRect box = bounds(region);
    one.split =
        split_gloss(cells, uneven_light(positions, {box.x + box.width / 2.0, box.y + box.height / 2.0}));
    const Calibration& calibration = positions.front().calibration;
    RegionPixels pixels = take_gloss_off(laid, cells, one.split);
    require_enough(pixels, *positions.front().frame, role);
    one.reading = read_pixels(pixels, calibration, region, side);
    const double u = std::hypot(one.split.veil_u, left_over * one.split.gloss);
    for (auto& line : one.reading.sampled.covariance.m)
        for (double& entry : line) entry += u * u;
    Vector3 lighter = one.reading.sampled.mean;
    for (double& channel : lighter) channel *= 1 + one.split.shimmer;
    one.shimmer_de2000 = ciede2000(one.reading.lab, calibration.lab(lighter, side)).value;
    return one;
}

// Of all the pictures, each code once.
std::vector<Warning> warnings_of(const std::vector<LampPosition>& positions) {
    std::vector<Warning> all;
    for (const LampPosition& position : positions)
        for (const Warning& warning : position.calibration.warnings)
            if (std::none_of(all.begin(), all.end(),
                             [&](const Warning& known) { return known.code == warning.code; }))
                all.push_back(&position == &positions.front()
                                  ? warning
                                  : Warning{warning.code,
                                            fmt::format("{}: {}", position.frame->name, warning.text),
                                            warning.unfit});
    return all;
}

}  // namespace

GlossResult measure_gloss(const std::vector<LampPosition>& positions, const Region& original,
                          const Region& repair, double tolerance) {
    require_lamp_positions(positions);
    GlossResult result;
    result.with_gloss =
        compare_regions(*positions.front().frame, positions.front().calibration, original, repair, tolerance);
    OneRegion o = look_at_region(positions, original, "--original", SampleSide::original);
    OneRegion r = look_at_region(positions, repair, "--repair", SampleSide::repair);
    Comparison& comparison = result.without_gloss;
    comparison.tolerance = tolerance;
    comparison.original = std::move(o.reading), comparison.repair = std::move(r.reading);
    const Calibration shared = shared_light(positions);
    conclude(comparison, propagate(shared, comparison.original, comparison.repair));
    result.original = std::move(o.split), result.repair = std::move(r.split);
    result.original_shimmer_de2000 = o.shimmer_de2000, result.repair_shimmer_de2000 = r.shimmer_de2000;
    result.sheen = judge_sheen(result.original, result.repair);
    result.figure = judge_figure(result.original, result.repair);
    result.shift_px = std::max(o.shift_px, r.shift_px);
    comparison.warnings = warnings_of(positions);
    for (const auto& more : {warn_of_regions(shared, comparison), warn_of_gloss(positions, result)})
        comparison.warnings.insert(comparison.warnings.end(), more.begin(), more.end());
    if (!shows_moved_lamp(positions, result)) {
        if (result.sheen.verdict == SheenVerdict::alike) result.sheen.verdict = SheenVerdict::undecided;
        if (result.figure == FigureVerdict::plain) result.figure = FigureVerdict::undecided;
    }
    std::stable_partition(comparison.warnings.begin(), comparison.warnings.end(),
                          [](const Warning& w) { return w.unfit; });
    return result;
}

}  // namespace tonemend
