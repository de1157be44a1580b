#include "measure/gloss_warnings.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "calibrate/flat/paper_spots.h"

namespace tonemend {
namespace {

constexpr double same_light = 0.005;    // relative
constexpr double unsure_gloss = 0.005;  // of white, standard uncertainty
constexpr double apart_px = 0.5;

// How the light at a place stands to the light at the card, before it was evened out.
double seen_light_at(const Calibration& calibration, const Point& place) {
    const Point card = middle_of(calibration.card_corners);
    const double slope =
        1 + calibration.light.x * (place.x - card.x) + calibration.light.y * (place.y - card.y);
    return calibration.flat_field ? slope * calibration.flat_field->light_at(place)[1] : slope;
}

double known_to(const Calibration& calibration, const Point& place) {
    const Point card = middle_of(calibration.card_corners);
    return calibration.light.u * std::hypot(place.x - card.x, place.y - card.y);
}

}  // namespace

bool shows_moved_lamp(const std::vector<LampPosition>& positions, const GlossResult& result) {
    for (const GlossSplit* split : {&result.original, &result.repair})
        if (split->gloss > 3 * split->gloss_u || split->shimmer > split->shimmer_u95) return true;
    const Calibration& first = positions.front().calibration;
    for (const LampPosition& position : positions) {
        for (const Reading* reading : {&result.without_gloss.original, &result.without_gloss.repair}) {
            const double change = std::abs(seen_light_at(position.calibration, reading->centre) /
                                               seen_light_at(first, reading->centre) -
                                           1);
            const double doubt =
                std::hypot(known_to(position.calibration, reading->centre), known_to(first, reading->centre));
            if (change > std::max(same_light, 2 * doubt)) return true;
        }
    }
    return false;
}

std::vector<Warning> warn_of_gloss(const std::vector<LampPosition>& positions, const GlossResult& result) {
    std::vector<Warning> warnings;
    if (!shows_moved_lamp(positions, result))
        warnings.push_back(
            {"lamp-not-moved",
             "the pictures show no trace of a moved lamp, so they say nothing of gloss; move the "
             "lamp a quarter round the work between them",
             false});
    for (const auto& [split, which] : {std::pair{&result.original, "original"}, {&result.repair, "repair"}})
        if (split->gloss_u > unsure_gloss)
            warnings.push_back(
                {"gloss-unsure",
                 fmt::format(
                     "the {}'s gloss is known to ± {:.1f} % of white only: its colour is too near grey "
                     "to tell gloss from uneven light; give a flat picture for each lamp position",
                     which, 196 * split->gloss_u),
                 false});
    if (result.shift_px > apart_px)
        warnings.push_back({"pictures-apart",
                            fmt::format("the pictures lie {:.1f} pixels apart even after laying one over the "
                                        "other; use a stand and touch nothing but the lamp",
                                        result.shift_px),
                            false});
    return warnings;
}

}  // namespace tonemend
