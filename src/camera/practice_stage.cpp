#include "camera/practice_stage.h"

#include <fmt/format.h>

#include "picture/input_error.h"
#include "practice/sensor.h"

namespace tonemend {

namespace {

// A film of water, refractive index 1.33: Fresnel's reflection from outside; from inside for diffuse light,
// from memory.
constexpr ClearCoat water{0.02, 0.47, 0};
// What such a film mirrors of the lamp's surroundings into the camera.
constexpr double film_gloss = 0.01;

void change_repair(PracticeScene& scene, const PracticeSettings& settings) {
    const bool wet = settings.repair_surface == Surface::wet;
    BoardSide& repair = scene.repair;
    for (RecipeStep& step : repair.recipe.steps) step.amount *= settings.repair_amount;
    for (std::size_t node = 0; node < darkness_nodes; ++node) {
        const Bands dry = stained_reflectance(scene.wood, repair.recipe, node_darkness(node));
        const Bands reflectance = wet ? under_clear_coat(dry, water) : dry;
        repair.xyz[node] = scene.lamp.xyz(reflectance);
        repair.raw[node] = scene.view.raw(reflectance);
    }
    if (wet) repair.gloss += film_gloss;
}

void move_card(PlacedCard& card, double right, double down) {
    for (Quad* quad : {&card.sheet, &card.corners})
        for (Point& corner : *quad) corner = {corner.x + right, corner.y + down};
}

}  // namespace

PracticeOptions PracticeSettings::live_bench() {
    PracticeOptions options;
    options.width = 1920;
    options.height = 1080;
    options.bits = 8;
    options.finish = Finish::raw;
    options.difference = 4;
    options.white_balance = WhiteBalance::daylight;  // as a camera that holds still: another lamp shows
    return options;
}

PracticeScene make_live_scene(const PracticeSettings& settings) {
    if (!(settings.repair_amount >= 0 && settings.repair_amount <= 10))
        throw InputError(
            fmt::format("practice bench: the repair's amount is {}; give 0 to 10", settings.repair_amount));
    if (!(settings.flicker.swing_percent >= 0 && settings.flicker.swing_percent <= 90))
        throw InputError(fmt::format("practice bench: the lamp's flicker is {} %; give 0 to 90",
                                     settings.flicker.swing_percent));
    PracticeScene scene = make_scene(settings.bench);
    change_repair(scene, settings);
    if (scene.card) move_card(*scene.card, settings.card_right, settings.card_down);
    return scene;
}

RawPicture PracticeStage::render(const PracticeScene& scene) {
    const GrainKey key{scene.grain, scene.board.width, scene.board.height, scene.options.seed};
    if (key_ != key) {
        darkness_ = grow_grain(key.style, key.width, key.height, key.seed);
        key_ = key;
    }
    RawPicture light = light_map(scene, darkness_);
    blur(light, scene.blur);
    return light;
}

}  // namespace tonemend
