#include "measure/seen_region.h"

#include <algorithm>
#include <cmath>

#include "calibrate/flat/paper_spots.h"
#include "calibrate/model/known_patches.h"
#include "calibrate/tone/steps.h"
#include "measure/registration.h"

namespace tonemend {
namespace {

Vector3 working_light(const Calibration& calibration, const Vector3& rgb) {
    return calibration.characterisation.model.to_working * rgb;
}

// Of the light at a place compared with the card's, relative.
double light_noise(const Calibration& calibration, const Point& at) {
    const Point card = middle_of(calibration.card_corners);
    const LightSlope& light = calibration.light;
    if (const auto& field = calibration.flat_field)
        return std::sqrt(std::max(0.0, field->covariance(at, at)));
    return std::hypot(std::max(std::abs(light.x), light.u) * (at.x - card.x),
                      std::max(std::abs(light.y), light.u) * (at.y - card.y));
}

}  // namespace

SeenRegion see_region(const std::vector<PictureUnderLight>& pictures, const Reading& first,
                      const std::string& role) {
    SeenRegion result;
    const auto add = [&](const Calibration& calibration, const Reading& reading, double registration) {
        result.seen.push_back(working_light(calibration, reading.sampled.mean));
        result.noise.push_back({std::hypot(light_noise(calibration, reading.centre), registration),
                                calibration.uncertainty.step});
    };
    const PictureUnderLight& one = pictures.front();
    add(one.calibration, first, 0);
    for (auto other = pictures.begin() + 1; other != pictures.end(); ++other) {
        const RegionMatch match = match_region(*one.frame, one.calibration, *other->frame, other->calibration,
                                               register_on_card(one.card, other->card), first.region);
        result.shift_px = std::max(result.shift_px, match.shift_px);
        add(other->calibration, read_region(*other->frame, other->calibration, match.in_other, role),
            match.noise);
    }
    return result;
}

std::vector<KnownSurface> see_patches(const std::vector<PictureUnderLight>& pictures) {
    std::vector<KnownSurface> known;
    const auto& patches = pictures.front().calibration.patches;
    for (std::size_t i = 0; i < patches.size(); ++i) {
        if (patches[i].patch.neutral()) continue;
        KnownSurface surface;
        const Patch& patch = patches[i].patch;
        surface.xyz = to_xyz(
            patch.reflectance.empty() ? patch.lab : lab_under(patch.reflectance, pictures.front().light),
            d50_icc);
        for (const PictureUnderLight& picture : pictures) {
            const Calibration& calibration = picture.calibration;
            if (i >= calibration.patches.size()) break;
            const PatchReading& reading = calibration.patches[i];
            if (reading.pixels == 0 || reading.clipped_share() > clipped_share_allowed) break;
            const Vector3 rgb = calibration.light_of(reading);
            surface.seen.push_back(working_light(calibration, rgb));
        }
        if (surface.seen.size() == pictures.size()) known.push_back(surface);
    }
    return known;
}

}  // namespace tonemend
