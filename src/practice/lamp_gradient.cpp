#include "practice/lamp_gradient.h"

#include <algorithm>

namespace tonemend {

namespace {

constexpr std::size_t reference_band = 35;  // 555 nm, where the observer is the same for every lamp

// Of a lamp's power: what it takes to bring all lamps to one luminance.
double per_luminance(const Lamp& lamp) {
    return lamp.weights_y[reference_band] / lamp.power[reference_band];
}

CameraView look_with_same_settings(const PracticeScene& scene, const Lamp& lamp) {
    const PracticeCamera& camera = scene.camera;
    const double exposure = scene.view.weights[1][reference_band] /
                            (scene.lamp.power[reference_band] * camera.sensitivity[1][reference_band]);
    const double scale = exposure * per_luminance(lamp) / per_luminance(scene.lamp);
    CameraView view = scene.view;
    Bands diffuser;
    diffuser.fill(1);
    for (std::size_t c = 0; c < 3; ++c) {
        for (std::size_t i = 0; i < band_count; ++i)
            view.weights[c][i] = scale * lamp.power[i] * camera.sensitivity[c][i];
        view.white[c] = inner_product(view.weights[c], diffuser);
    }
    return view;
}

}  // namespace

PracticeScene relit(const PracticeScene& scene, const std::string& lamp) {
    PracticeScene result = scene;
    result.view = look_with_same_settings(scene, make_lamp(lamp));
    for (BoardSide* side : {&result.original, &result.repair})
        for (std::size_t node = 0; node < darkness_nodes; ++node)
            side->raw[node] =
                result.view.raw(stained_reflectance(scene.wood, side->recipe, node_darkness(node)));
    return result;
}

double second_share_at(const PracticeScene& scene, double x) {
    const PracticeOptions& options = scene.options;
    return std::clamp(options.second_lamp_share + options.faults.lamp_gradient * (x / options.width - 0.5),
                      0.0, 1.0);
}

}  // namespace tonemend
