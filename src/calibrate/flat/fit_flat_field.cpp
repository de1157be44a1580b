#include "calibrate/flat/fit_flat_field.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "calibrate/flat/light_surface.h"
#include "calibrate/flat/sheet_check.h"
#include "calibrate/flat/surface_fit.h"
#include "picture/input_error.h"

namespace tonemend {
namespace {

constexpr double sample_floor = 0.002;  // relative: texture of paper, flatness of patches
constexpr double least_light = 2e-3;    // of the perfect diffuser: darker samples are only noise
constexpr int folds = 4;
constexpr int tiles_across = 8, tiles_down = 6;
constexpr double worth_a_degree = 0.95;  // a degree more must make the residual smaller than this share
constexpr int card_degree = 4, draft_degree = 4;
constexpr std::size_t least_samples = 12;
constexpr double places_agree = 0.03;

std::vector<LogSample> through_curves(const FlatSamples& samples, const std::array<ToneCurve, 3>& curves) {
    std::vector<LogSample> result;
    for (std::size_t i = 0; i < samples.samples.size(); ++i) {
        const FlatSample& sample = samples.samples[i];
        LogSample log;
        log.at = sample.at, log.material = sample.material, log.picture = sample.picture;
        log.cell = static_cast<int>(i);
        double u = 0, darkest = 1;
        for (std::size_t c = 0; c < 3; ++c) {
            const double light = curves[c](sample.seen[c]);
            darkest = std::min(darkest, light);
            log.log_light[c] = std::log(std::max(light, least_light));
            u = std::max(u,
                         curves[c].slope(sample.seen[c]) * sample.seen_u[c] / std::max(light, least_light));
        }
        // Written so that what is not a number is left out too.
        if (!(darkest > least_light)) continue;
        log.u = std::hypot(sample_floor, u);
        result.push_back(log);
    }
    return result;
}

// Which tile of the picture a place is in.
int tile_of(const FlatSamples& samples, const Point& at) {
    const int column = std::clamp(static_cast<int>(at.x / samples.width * tiles_across), 0, tiles_across - 1);
    const int row = std::clamp(static_cast<int>(at.y / samples.height * tiles_down), 0, tiles_down - 1);
    return row * tiles_across + column;
}

int fold_of(int tile) {
    return (tile % tiles_across + 2 * (tile / tiles_across)) % folds;
}

// How far whole tiles are off when the surface is fitted without them.
struct TileMiss {
    double common = 0;   // rms, relative: what the channels share
    double channel = 0;  // rms of what they do not
};

TileMiss cross_validate(const FlatSamples& samples, const std::vector<LogSample>& logs, int degree) {
    constexpr auto tiles = static_cast<std::size_t>(tiles_across * tiles_down);
    std::array<std::array<double, 4>, tiles> sums{};  // R, G, B, weight
    for (int fold = 0; fold < folds; ++fold) {
        std::vector<bool> held_out(logs.size());
        for (std::size_t i = 0; i < logs.size(); ++i)
            held_out[i] = fold_of(tile_of(samples, logs[i].at)) == fold;
        const SurfaceFit fit =
            fit_surface(logs, samples.width, samples.height, degree, SurfacePrior::open, held_out);
        for (std::size_t i = 0; i < logs.size(); ++i) {
            if (!held_out[i]) continue;
            auto& sum = sums[static_cast<std::size_t>(tile_of(samples, logs[i].at))];
            // Dust in a tile that was left out is still dust.
            const double off =
                std::max({std::abs(fit.left[i][0]), std::abs(fit.left[i][1]), std::abs(fit.left[i][2])});
            if (off > 6 * fit.scale * logs[i].u) continue;
            for (std::size_t c = 0; c < 3; ++c) sum[c] += fit.left[i][c];
            ++sum[3];
        }
    }
    TileMiss miss;
    double used = 0;
    for (const auto& sum : sums) {
        if (sum[3] < 3) continue;
        const double common = (sum[0] + sum[1] + sum[2]) / (3 * sum[3]);
        miss.common += common * common;
        for (std::size_t c = 0; c < 3; ++c) miss.channel += std::pow(sum[c] / sum[3] - common, 2) / 3;
        ++used;
    }
    if (used == 0) return {1, 1};
    return {std::sqrt(miss.common / used), std::sqrt(miss.channel / used)};
}

double rms_left(const SurfaceFit& fit) {
    double sum = 0, weights = 0;
    for (std::size_t i = 0; i < fit.left.size(); ++i) {
        for (const double left : fit.left[i]) sum += fit.weights[i] * left * left / 3;
        weights += fit.weights[i];
    }
    return weights > 0 ? std::sqrt(sum / weights) : 0;
}

void require_little(const FlatField& field, const FlatSamples& samples) {
    double low = std::numeric_limits<double>::infinity(), high = 0;
    for (const FlatSample& sample : samples.samples)
        for (const double light : field.light_at(sample.at))
            low = std::min(low, light), high = std::max(high, light);
    if (low >= (1 - most_evened_out) * high) return;
    throw InputError(
        fmt::format("{}: the light falls off by {:.0f} % across the picture, and no more than {:.0f} % can "
                    "be evened out; move the lamp further away or add one from the other side",
                    samples.name, 100 * (1 - low / high), 100 * most_evened_out));
}

// The surface alone.
FlatField take_surface(const SurfaceFit& fit, int degree) {
    FlatField field;
    field.degree = degree;
    field.terms = fit.terms;
    field.residual = rms_left(fit);
    return field;
}

FlatField fit_sheet(const FlatSamples& samples, const std::vector<LogSample>& logs) {
    int best_degree = 1;
    TileMiss best{1, 1};
    for (int degree = 1; degree <= std::min(best_degree + 2, most_surface_degree); ++degree) {
        const TileMiss miss = cross_validate(samples, logs, degree);
        if (miss.common < worth_a_degree * best.common) best = miss, best_degree = degree;
    }
    const SurfaceFit fit = fit_surface(logs, samples.width, samples.height, best_degree, SurfacePrior::open);
    require_even_sheet(samples, logs, fit, best.common);
    FlatField field = take_surface(fit, best_degree);
    field.misfit = best.common;
    field.colour_share = best.common > 0 ? best.channel / best.common : 0;
    return field;
}

FlatField fit_card(const FlatSamples& samples, const std::vector<LogSample>& logs) {
    if (samples.pictures < 2) {
        throw InputError(fmt::format(
            "{}: one place of the card does not show how the light falls; give --flat pictures of "
            "the card where the original is and where the repair is",
            samples.name));
    }
    const SurfaceFit fit =
        fit_surface(logs, samples.width, samples.height, card_degree, SurfacePrior::usual_lamps);
    FlatField field = take_surface(fit, card_degree);
    field.places = samples.pictures;
    field.doubt = fit.doubt;
    if (field.residual > places_agree) {
        throw InputError(
            fmt::format("{}: the card's places disagree by {:.1f} %; take all pictures with the same lamp, "
                        "exposure and white balance, the card flat and nothing casting a shadow",
                        samples.name, 100 * field.residual));
    }
    // Paper and patches of one place are near each other, and their errors tell the channels apart as little
    // as they tell places.
    field.misfit = field.residual / 2;
    field.colour_share = 0.3;
    return field;
}

std::vector<LogSample> usable(const FlatSamples& samples, const std::array<ToneCurve, 3>& curves) {
    std::vector<LogSample> logs = through_curves(samples, curves);
    if (logs.size() >= least_samples) return logs;
    throw InputError(fmt::format(
        "{}: too dark to show how the light falls; take the --flat pictures with the exposure of the "
        "picture that is measured",
        samples.name));
}

FlatField complete(FlatField field, const FlatSamples& samples, const Point& middle) {
    field.source = samples.source;
    field.width = samples.width, field.height = samples.height;
    field.middle = middle;
    field.facts = samples.facts;
    field.encoding = samples.encoding.description;
    return field;
}

}  // namespace

FlatField fit_flat_field(const FlatSamples& samples, const std::array<ToneCurve, 3>& curves,
                         const Point& middle) {
    const std::vector<LogSample> logs = usable(samples, curves);
    const bool sheet = samples.source == FlatSource::grey_sheet;
    FlatField field = complete(sheet ? fit_sheet(samples, logs) : fit_card(samples, logs), samples, middle);
    require_little(field, samples);
    return field;
}

FlatField draft_flat_field(const FlatSamples& samples, const std::array<ToneCurve, 3>& curves,
                           const Point& middle) {
    const bool sheet = samples.source == FlatSource::grey_sheet;
    const SurfaceFit fit = fit_surface(usable(samples, curves), samples.width, samples.height, draft_degree,
                                       sheet ? SurfacePrior::open : SurfacePrior::usual_lamps);
    return complete(take_surface(fit, draft_degree), samples, middle);
}

}  // namespace tonemend
