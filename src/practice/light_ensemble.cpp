#include "practice/light_ensemble.h"

#include "colour/rgb_space.h"
#include "practice/random.h"
#include "practice/recipe.h"

namespace tonemend {
namespace {

constexpr int ensemble_cameras = 120, ensemble_surfaces = 240;
constexpr std::uint64_t first_ensemble_camera = 5000;

Vector3 working_light(const CameraView& view, const Bands& reflectance) {
    static const Matrix3 to_working = inverse(rgb_to_xyz_d50(romm_rgb)) * rgb_to_xyz_d50(srgb);
    const Vector3 white = view.output_matrix() * view.white;
    Vector3 rgb = view.output_matrix() * view.raw(reflectance);
    for (std::size_t c = 0; c < 3; ++c) rgb[c] /= white[c];
    return to_working * rgb;
}

const Colourant& draw_colourant(Random& random) {
    const ColourantFamily family =
        random.uniform() < 2.0 / 3 ? ColourantFamily::earth : ColourantFamily::other;
    while (true) {
        const auto& all = colourants();
        const Colourant& drawn = all[static_cast<std::size_t>(random.below(static_cast<int>(all.size())))];
        if (drawn.family == family) return drawn;
    }
}

}  // namespace

ViewUnderLamps::ViewUnderLamps(const PracticeCamera& camera, const std::vector<Lamp>& lamps) : lamps_(lamps) {
    for (const Lamp& lamp : lamps) views_.push_back(look_at(camera, lamp, WhiteBalance::automatic));
}

KnownSurface ViewUnderLamps::of(const Bands& reflectance) const {
    KnownSurface surface;
    surface.xyz = to_xyz(lamps_.front().lab(reflectance), d50_icc);
    for (const CameraView& view : views_) surface.seen.push_back(working_light(view, reflectance));
    return surface;
}

std::vector<Bands> draw_stained_woods(std::uint64_t seed, int count) {
    Random random(seed, "stained woods");
    std::vector<Bands> surfaces;
    for (int i = 0; i < count; ++i) {
        const auto& kinds = wood_kinds();
        const WoodKind& wood = kinds[static_cast<std::size_t>(i) % kinds.size()];
        Recipe recipe;
        recipe.finish = random.uniform() < 0.25 ? Finish::raw : Finish::clear_coat;
        const int steps = random.below(4);
        for (int step = 0; step < steps; ++step) {
            const double strength = random.uniform();
            recipe.steps.push_back({&draw_colourant(random), 0.04 + 0.9 * strength * strength, {}});
        }
        surfaces.push_back(stained_reflectance(wood, recipe, random.uniform()));
    }
    return surfaces;
}

std::vector<std::vector<KnownSurface>> camera_ensemble(const std::vector<std::string>& lamps) {
    std::vector<Lamp> made;
    for (const std::string& name : lamps) made.push_back(make_lamp(name));
    const std::vector<Bands> surfaces = draw_stained_woods(first_ensemble_camera, ensemble_surfaces);
    std::vector<std::vector<KnownSurface>> cameras;
    for (int i = 0; i < ensemble_cameras; ++i) {
        const ViewUnderLamps view(make_camera(first_ensemble_camera + static_cast<std::uint64_t>(i)), made);
        std::vector<KnownSurface>& seen = cameras.emplace_back();
        for (const Bands& surface : surfaces) seen.push_back(view.of(surface));
    }
    return cameras;
}

}  // namespace tonemend
