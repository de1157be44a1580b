#include "measure/lamp_positions.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "calibrate/card/homography.h"
#include "measure/grain_likeness.h"
#include "measure/registration.h"
#include "measure/resample_light.h"
#include "picture/input_error.h"

namespace tonemend {
namespace {

constexpr double still_px = 1.5, still_grain_px = 0.1;
constexpr double most_apart_px = 2;
constexpr double telling_grain = 0.03;  // contrast from which grain must be found again
constexpr double least_likeness = 0.3;  // correlation of the grain

bool stood_still(const LampPosition& first, const LampPosition& other, const Matrix3& by_card,
                 const Region& region) {
    if (first.frame->width != other.frame->width || first.frame->height != other.frame->height) return false;
    return std::all_of(region.corners.begin(), region.corners.end(), [&](const Point& corner) {
        const Point there = map_point(by_card, corner);
        return std::hypot(there.x - corner.x, there.y - corner.y) < still_px;
    });
}

void require_same_wood(const LinearPicture& first, const LinearPicture& other, const Frame& here,
                       const Frame& there, const std::string& role) {
    const GrainLikeness likeness = compare_grain(first, other);
    if (likeness.contrast < telling_grain || likeness.correlation >= least_likeness) return;
    throw InputError(fmt::format(
        "{}: {}: the wood of {} is not found where the card says it is; take all the pictures of the same "
        "work, card and work untouched between them",
        there.name, role, here.name));
}

RegionPixels with_states_of(const RegionPixels& first, LinearPicture picture) {
    RegionPixels pixels;
    pixels.picture = std::move(picture);
    pixels.state = first.state;
    for (std::size_t i = 0; i < pixels.state.size(); ++i) {
        if (pixels.state[i] == PixelState::outside) continue;
        const bool clipped = pixels.picture.clipped[i] != 0;
        pixels.state[i] = clipped ? PixelState::clipped : PixelState::used;
        ++(clipped ? pixels.clipped : pixels.used);
    }
    return pixels;
}

}  // namespace

Matrix3 map_between(const LampPosition& first, const LampPosition& other) {
    const Matrix3 by_card = register_on_card(first.card, other.card);
    const Region whole = rectangle({0, 0, first.frame->width, first.frame->height});
    return stood_still(first, other, by_card, whole) ? Matrix3::identity() : by_card;
}

void require_lamp_positions(const std::vector<LampPosition>& positions) {
    if (positions.size() < 2)
        throw InputError(
            "gloss: one picture says nothing of gloss; give two or more, the lamp moved between them");
    for (std::size_t i = 0; i < positions.size(); ++i) {
        const Frame& frame = *positions[i].frame;
        if (positions[i].card.frame.name != positions.front().card.frame.name)
            throw InputError(fmt::format("{}: another card frame than in {}; use one for all the pictures",
                                         frame.name, positions.front().frame->name));
        for (std::size_t j = 0; j < i; ++j) {
            if (frame.samples != positions[j].frame->samples) continue;
            throw InputError(
                fmt::format("{}: the same picture as {}; gloss shows only when the lamp is moved between two "
                            "pictures",
                            frame.name, positions[j].frame->name));
        }
    }
}

LaidOver lay_over(const std::vector<LampPosition>& positions, const Region& region, const std::string& role) {
    const LampPosition& first = positions.front();
    LaidOver result;
    result.pixels.push_back(collect_pixels(*first.frame, first.calibration, region, role));
    const PixelRect window = bounds(region);
    for (auto other = positions.begin() + 1; other != positions.end(); ++other) {
        const Matrix3 by_card = register_on_card(first.card, other->card);
        const bool still = stood_still(first, *other, by_card, region);
        const RegionMatch match =
            match_region(*first.frame, first.calibration, *other->frame, other->calibration,
                         still ? Matrix3::identity() : by_card, region);
        const bool untouched = still && match.moved_px < still_grain_px;
        LinearPicture light = resample_light(*other->frame, other->calibration,
                                             untouched ? Matrix3::identity() : match.to_other, window);
        require_same_wood(result.pixels.front().picture, light, *first.frame, *other->frame, role);
        if (match.seen && match.shift_px > most_apart_px)
            throw InputError(
                fmt::format("{}: {}: lies {:.1f} pixels off {} even after laying one over the other; keep "
                            "camera, card and work where they are and move the lamp alone",
                            other->frame->name, role, match.shift_px, first.frame->name));
        if (match.seen) result.shift_px = std::max(result.shift_px, match.shift_px);
        result.pixels.push_back(with_states_of(result.pixels.front(), std::move(light)));
    }
    return result;
}

}  // namespace tonemend
