#include "drying_stills.h"

#include <fmt/format.h>

#include <chrono>
#include <cmath>

#include "bench.h"
#include "picture/write_picture.h"
#include "practice/render.h"
#include "practice/wet_surface.h"

namespace tonemend::testing {

PracticeScene DryingStills::scene(double minutes) const {
    PracticeOptions options = small_picture(static_cast<std::uint64_t>(seed));
    options.bits = 8;
    options.finish = Finish::raw;
    PracticeScene scene = make_scene(options);
    SurfaceFill fill;
    fill.scattering_lost = 0.5;
    fill.filled = std::exp(-minutes / fibre_minutes);
    for (std::size_t node = 0; node < darkness_nodes; ++node) {
        const Bands dry = stained_reflectance(scene.wood, scene.repair.recipe, node_darkness(node));
        const Bands now = surface_reflectance(dry, fill);
        scene.repair.xyz[node] = scene.lamp.xyz(now);
        scene.repair.raw[node] = scene.view.raw(now);
    }
    return scene;
}

void DryingStills::write(const std::filesystem::path& path, double minutes) const {
    write_picture(render(scene(minutes)), path);
    const auto taken =
        std::chrono::sys_seconds(std::chrono::seconds(std::llround(first_still + 60 * minutes)));
    std::filesystem::last_write_time(path, std::chrono::file_clock::from_sys(taken));
}

void DryingStills::write_series(const std::filesystem::path& folder, int count, double every) const {
    for (int i = 0; i < count; ++i) write(folder / fmt::format("{:02}.png", i), every * i);
}

std::string DryingStills::region() const {
    return text_of(scene(0).repair.region);
}

}  // namespace tonemend::testing
