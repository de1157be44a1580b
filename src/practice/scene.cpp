#include "practice/scene.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "colour/difference.h"
#include "picture/input_error.h"
#include "practice/card_lay.h"
#include "practice/random.h"

namespace tonemend {

namespace {

double draw(const std::optional<double>& given, std::uint64_t seed, const char* stream, double low,
            double high) {
    return given ? *given : Random(seed, stream).uniform(low, high);
}

WoodKind draw_wood(const PracticeOptions& options) {
    Random random(options.seed, "wood");
    const auto& kinds = wood_kinds();
    WoodKind wood = kinds[static_cast<std::size_t>(random.below(static_cast<int>(kinds.size())))];
    if (options.wood) wood = find_wood(*options.wood);
    // No two boards are alike.
    wood.ground_k *= std::exp(random.uniform(-0.25, 0.25));
    wood.decay_nm *= random.uniform(0.94, 1.06);
    wood.figure_share *= random.uniform(0.7, 1.3);
    wood.figure_depth *= options.grain_strength * random.uniform(0.8, 1.2);
    return wood;
}

GrainStyle style_of(const WoodKind& wood, const PracticeOptions& options) {
    const double scale = options.grain_size * options.width / 1600;
    GrainStyle style;
    style.figure_share = wood.figure_share;
    style.pore_share = wood.pore_share;
    style.along = wood.along_px * scale;
    style.across = wood.across_px * scale;
    style.streaks = options.streaks;
    return style;
}

LightFall draw_light(const PracticeOptions& options) {
    LightFall light;
    light.shape = options.fall_off;
    light.loss = options.fall_off_percent / 100;
    std::optional<double> darker = options.fall_off_direction;
    if (!darker && options.lamp_from) darker = *options.lamp_from + 180;
    const double degrees = draw(darker, options.seed, "fall-off direction", 0, 360);
    light.cosine = std::cos(degrees * std::numbers::pi / 180);
    light.sine = std::sin(degrees * std::numbers::pi / 180);
    const double w = options.width;
    const double h = options.height;
    light.offset = std::min(0.0, w * light.cosine) + std::min(0.0, h * light.sine);
    light.span = w * std::abs(light.cosine) + h * std::abs(light.sine);
    Random random(options.seed, "fall-off centre");
    light.centre_x = random.uniform(0.2, 0.8) * w;
    light.centre_y = random.uniform(0.2, 0.8) * h;
    light.reach = std::hypot(std::max(light.centre_x, w - light.centre_x),
                             std::max(light.centre_y, h - light.centre_y));
    return light;
}

// Both halves of the board fill the lower half of the picture; the card lies above.
void lay_board(PracticeScene& scene) {
    const PracticeOptions& options = scene.options;
    const auto part = [](int whole, double share) { return static_cast<int>(std::lround(whole * share)); };
    const int left = part(options.width, 0.02);
    const int top = part(options.height, 0.48);
    const int half = part(options.width, 0.48);
    const int height = part(options.height, 0.50);
    scene.board = {left, top, 2 * half, height};
    scene.original.board = {left, top, half, height};
    scene.repair.board = {left + half, top, half, height};
    Random random(options.seed, "regions");
    const double drawn = random.uniform(350, 450) * options.width / 1600;
    const int size = options.region_size.value_or(std::min(static_cast<int>(drawn), height * 9 / 10));
    const int margin = 8 + part(options.width, 0.01);
    for (BoardSide* side : {&scene.original, &scene.repair}) {
        const int room_x = half - size - 2 * margin;
        const int room_y = height - size - 2 * margin;
        if (room_x < 0 || room_y < 0)
            throw InputError(
                fmt::format("practice picture: a region of {} pixels does not fit its half of the board; "
                            "give at most {} or a larger picture",
                            size, std::min(half, height) - 2 * margin));
        side->region = {side->board.x + margin + random.below(room_x + 1),
                        side->board.y + margin + random.below(room_y + 1), size, size};
    }
}

void paint(PracticeScene& scene, BoardSide& side) {
    for (std::size_t node = 0; node < darkness_nodes; ++node) {
        const Bands reflectance = stained_reflectance(scene.wood, side.recipe, node_darkness(node));
        side.xyz[node] = scene.lamp.xyz(reflectance);
        side.raw[node] = scene.view.raw(reflectance);
    }
}

// Neither too dark nor too pale to be finished wood, and inside what the camera's file can hold.
bool ordinary(const PracticeScene& scene, const BoardSide& side) {
    const Lab lab = scene.lamp.lab(mean_xyz(side.xyz, scene.wood_weights.all));
    if (lab.L < 25 || lab.L > 80) return false;
    const Matrix3 output = scene.view.output_matrix();
    for (std::size_t node = 0; node < darkness_nodes; ++node) {
        if (scene.wood_weights.all[node] < 1e-6) continue;
        const Vector3 rgb = output * side.raw[node];
        if (std::min({rgb[0], rgb[1], rgb[2]}) < 0.005) return false;
    }
    return true;
}

void colour_board(PracticeScene& scene) {
    const PracticeOptions& options = scene.options;
    if (options.original && options.repair) {
        scene.original.recipe = recipe_of(*options.original);
        scene.repair.recipe = recipe_of(*options.repair);
        paint(scene, scene.original);
        paint(scene, scene.repair);
        return;
    }
    PairRequest request;
    request.kind = options.pair;
    request.finish = options.finish;
    request.difference = draw(options.difference, options.seed, "difference", options.smallest_difference,
                              options.largest_difference);
    // A lamp that leaves blue to no camera has no ordinary board; then the last try has to do.
    for (std::uint64_t attempt = 0; attempt < 40; ++attempt) {
        const Pair pair =
            draw_pair(scene.wood, scene.wood_weights.all, scene.lamp, request, options.seed, attempt);
        scene.original.recipe = pair.original;
        scene.repair.recipe = pair.repair;
        paint(scene, scene.original);
        paint(scene, scene.repair);
        const double reached = ciede2000(scene.lamp.lab(mean_xyz(scene.original.xyz, scene.wood_weights.all)),
                                         scene.lamp.lab(mean_xyz(scene.repair.xyz, scene.wood_weights.all)))
                                   .value;
        if (std::abs(reached - request.difference) > 0.3) continue;
        if (ordinary(scene, scene.original) && ordinary(scene, scene.repair)) return;
    }
}

PracticeOptions under_pair_lamp(PracticeOptions options) {
    options.lamp = *options.pair_lamp;
    options.pair_lamp.reset();
    options.second_lamp.clear();
    options.second_lamp_share = 0;
    return options;
}

// The boards of `other`, seen under this scene's lamp.
void take_board(PracticeScene& scene, const PracticeScene& other) {
    scene.original.recipe = other.original.recipe;
    scene.repair.recipe = other.repair.recipe;
    paint(scene, scene.original);
    paint(scene, scene.repair);
}

}  // namespace

double LightFall::at(double x, double y) const {
    if (shape == FallOff::linear) return 1 - loss * (x * cosine + y * sine - offset) / span;
    const double distance = std::hypot(x - centre_x, y - centre_y) / reach;
    return 1 - loss * distance * distance;
}

PracticeScene make_scene(const PracticeOptions& options) {
    require_valid(options);
    PracticeScene scene;
    scene.options = options;
    scene.wood = draw_wood(options);
    scene.grain = style_of(scene.wood, options);
    scene.wood_weights = long_run_weights(scene.grain);
    scene.lamp = make_lamp(options.lamp, options.second_lamp, options.second_lamp_share);
    scene.light = draw_light(options);
    const auto drawn_camera = static_cast<std::uint64_t>(Random(options.seed, "camera number").below(24));
    scene.camera = make_camera(options.camera.value_or(drawn_camera));
    scene.view = look_at(scene.camera, scene.lamp, options.white_balance);
    scene.exposure = draw(options.exposure, options.seed, "exposure", 0.75, 0.92);
    scene.black_level =
        draw(options.black_level, options.seed, "black level", 0, options.largest_black_level);
    scene.s_curve =
        options.tone == CameraTone::srgb ? 0 : draw(options.s_curve, options.seed, "S-curve", 0.05, 0.2);
    scene.blur = draw(options.blur, options.seed, "blur", 0.4, 0.8);
    lay_board(scene);
    if (options.pair_lamp && *options.pair_lamp != options.lamp)
        take_board(scene, make_scene(under_pair_lamp(options)));
    else
        colour_board(scene);
    scene.original.gloss = options.original_gloss_percent / 100;
    scene.repair.gloss = options.repair_gloss_percent / 100;
    scene.original.shimmer = options.original_shimmer_percent / 100;
    scene.repair.shimmer = options.repair_shimmer_percent / 100;
    if (options.card_mount != CardMount::absent) scene.card = lay_card(options);
    return scene;
}

}  // namespace tonemend
