#include "practice/prior_ensemble.h"

#include <cmath>

#include "practice/camera_matrix.h"
#include "practice/led_lamp.h"
#include "practice/light_ensemble.h"
#include "practice/mean_reflectance.h"
#include "practice/pair.h"
#include "practice/random.h"

namespace tonemend {
namespace {

constexpr std::uint64_t first_camera = 1000;
constexpr int woods = 240, others = 120, pairs_of_a_kind = 60;
constexpr std::array pair_kinds{PairKind::same_colourant, PairKind::earth, PairKind::other};

}  // namespace

EnsembleSubjects draw_subjects(std::uint64_t seed) {
    EnsembleSubjects subjects;
    subjects.woods = draw_stained_woods(seed, woods);
    Random random(seed, "ensemble subjects");
    for (int i = 0; i < others; ++i) subjects.others.push_back(draw_smooth_reflectance(random));
    const Lamp daylight = make_lamp("CIE-D65");
    for (std::size_t kind = 0; kind < repair_colourants_count; ++kind) {
        for (int i = 0; i < pairs_of_a_kind; ++i) {
            const WoodKind& wood = wood_kinds()[static_cast<std::size_t>(i) % wood_kinds().size()];
            const NodeWeights weights =
                long_run_weights({wood.figure_share, wood.pore_share, wood.along_px, wood.across_px, 0, 0.12})
                    .all;
            const Finish finish = i % 4 == 0 ? Finish::raw : Finish::clear_coat;
            const PairRequest request{pair_kinds[kind], random.uniform(0, 8), finish};
            const Pair pair = draw_pair(wood, weights, daylight, request, seed,
                                        kind * 1000 + static_cast<std::uint64_t>(i));
            subjects.pairs[kind].push_back({mean_reflectance(wood, pair.original, weights),
                                            mean_reflectance(wood, pair.repair, weights)});
        }
    }
    return subjects;
}

CameraSight look_at_subjects(const EnsembleSubjects& subjects, const PracticeCamera& camera, const Lamp& lamp,
                             const std::array<Lamp, stated_for_count>& stated) {
    const ViewUnderLamps view(camera, {lamp});
    const auto see = [&](const Bands& reflectance) {
        const KnownSurface surface = view.of(reflectance);
        SeenSurface seen{surface.seen.front(), surface.xyz, {}};
        for (std::size_t k = 0; k < stated_for_count; ++k)
            seen.stated[k] = to_xyz(stated[k].lab(reflectance), d50_icc);
        return seen;
    };
    CameraSight sight;
    for (const Bands& wood : subjects.woods) sight.woods.push_back(see(wood));
    for (const Bands& other : subjects.others) sight.others.push_back(see(other));
    for (std::size_t kind = 0; kind < repair_colourants_count; ++kind)
        for (const auto& pair : subjects.pairs[kind])
            sight.pairs[kind].push_back({see(pair.original), see(pair.repair)});
    return sight;
}

Lamp draw_lamp(LampFamily family, double kelvin, std::uint64_t seed) {
    Random random(seed, "ensemble lamp");
    while (family == LampFamily::led) {
        const LedShape shape{random.uniform(444, 460), random.uniform(-8, 8), random.uniform(0.85, 1.15)};
        Lamp lamp = lamp_of_power("led", led_lamp(kelvin, shape));
        // Not every phosphor reaches every temperature.
        if (lamp.colour_temperature && std::abs(*lamp.colour_temperature - kelvin) < 20) return lamp;
    }
    const bool sky = kelvin >= 4000 && random.uniform() < 0.75;
    return make_lamp((sky ? "daylight:" : "planckian:") + std::to_string(kelvin));
}

LightPrior learn_light(const EnsembleSubjects& subjects, LampFamily family, double kelvin, int cameras) {
    const Lamp plain = lamp_of_power("", sample_bands(light_of_temperature(kelvin).power));
    const std::array stated{make_lamp("CIE-D50"), plain,
                            family == LampFamily::led ? lamp_of_power("", led_lamp(kelvin)) : plain};
    std::vector<CameraSight> sights;
    for (int i = 0; i < cameras; ++i) {
        const std::uint64_t number = first_camera + static_cast<std::uint64_t>(i);
        sights.push_back(
            look_at_subjects(subjects, make_camera(number), draw_lamp(family, kelvin, number), stated));
    }
    return {family, kelvin, learn_form(sights, ModelForm::linear), learn_form(sights, ModelForm::root)};
}

const std::vector<PriorLamp>& prior_lamps() {
    using enum LampFamily;
    static const std::vector<PriorLamp> lamps{
        {thermal, 2400}, {thermal, 2700}, {thermal, 3200}, {thermal, 4000}, {thermal, 5000},
        {thermal, 6500}, {thermal, 7500}, {led, 2700},     {led, 3200},     {led, 4000},
        {led, 5000},     {led, 6500},     {led, 7000}};
    return lamps;
}

CharacterisationPrior learn_prior() {
    const EnsembleSubjects subjects = draw_subjects(prior_seed);
    CharacterisationPrior prior;
    for (const PriorLamp& lamp : prior_lamps())
        prior.lights.push_back(learn_light(subjects, lamp.family, lamp.kelvin, prior_cameras));
    return prior;
}

}  // namespace tonemend
