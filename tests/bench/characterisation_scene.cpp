#include "tests/bench/characterisation_scene.h"

#include <algorithm>
#include <cmath>
#include <cstring>

#include "picture/standard_encodings.h"
#include "practice/camera_curve.h"
#include "practice/mean_reflectance.h"
#include "practice/pair.h"
#include "practice/random.h"
#include "practice/recipe.h"
#include "tests/bench/in_threads.h"

namespace tonemend::bench {
namespace {

constexpr int cell = 40, width = 6 * cell, card_height = 2 * cell, boards_top = card_height + 60;
constexpr double region_distance = 80;
// Of the card as a whole, relative: print, wear, instrument; and of the reflectance of each known wood.
constexpr double card_error = 0.005, wood_error = 0.004;
constexpr std::array step_reflectances{0.88, 0.55, 0.32, 0.17, 0.08, 0.035};

Bands even(double reflectance) {
    Bands bands;
    bands.fill(reflectance);
    return bands;
}

// Which reflectance lies at a pixel.
std::size_t surface_at(int x, int y) {
    if (y < card_height) return static_cast<std::size_t>(x / cell + (y / cell) * 6);
    if (y < boards_top) return 12 + static_cast<std::size_t>(x / (2 * cell));
    return 15 + static_cast<std::size_t>(x / cell + ((y - boards_top) / cell) * 6);
}

}  // namespace

const Quad card_corners{Point{0, 0}, Point{width, 0}, Point{width, card_height}, Point{0, card_height}};

std::vector<WoodTrio> draw_trios(std::uint64_t seed, std::size_t count) {
    const Lamp daylight = make_lamp("CIE-D65");
    std::vector<WoodTrio> trios(count);
    in_threads(2, count, [&](std::size_t i) {
        Random random(seed, "trio", i);
        const WoodKind& wood = wood_kinds()[i % wood_kinds().size()];
        const NodeWeights weights =
            long_run_weights({wood.figure_share, wood.pore_share, wood.along_px, wood.across_px, 0, 0.12})
                .all;
        const Finish finish = random.uniform() < 0.25 ? Finish::raw : Finish::clear_coat;
        const double difference = random.uniform(0, 8);
        const auto reflectance = [&](const Recipe& recipe) {
            return mean_reflectance(wood, recipe, weights);
        };
        // The original is drawn before the kind matters, so both pairs have the same.
        const Pair same =
            draw_pair(wood, weights, daylight, {PairKind::same_colourant, difference, finish}, seed, i);
        const Pair earth = draw_pair(wood, weights, daylight, {PairKind::earth, difference, finish}, seed, i);
        trios[i] = {reflectance(same.original), reflectance(same.repair), reflectance(earth.repair)};
    });
    return trios;
}

std::vector<Bands> draw_boards(std::uint64_t seed, std::size_t count) {
    std::vector<Bands> boards;
    for (std::size_t i = 0; i < count; ++i) {
        Random random(seed, "board", i);
        const WoodKind& wood = wood_kinds()[static_cast<std::size_t>(random.below(9))];
        Recipe recipe;
        recipe.finish = random.uniform() < 0.25 ? Finish::raw : Finish::clear_coat;
        const double strength = random.uniform();
        const Colourant& colourant = colourants()[static_cast<std::size_t>(random.below(10))];
        if (i % 4 != 0) recipe.steps.push_back({&colourant, 0.04 + 0.9 * strength * strength, {}});
        boards.push_back(stained_reflectance(wood, recipe, random.uniform()));
    }
    return boards;
}

PaintedScene paint(const SceneSpec& spec) {
    Random random(spec.seed, "characterisation scene");
    const CameraView view = look_at(spec.camera, spec.lamp, WhiteBalance::automatic);
    std::vector<Bands> surfaces;
    const double card = 1 + card_error * random.normal();
    for (const double step : step_reflectances) surfaces.push_back(even(card * step));
    surfaces.insert(surfaces.end(), spec.patches.begin(), spec.patches.end());
    surfaces.insert(surfaces.end(), {spec.woods.same, spec.woods.original, spec.woods.earth});
    surfaces.insert(surfaces.end(), spec.boards.begin(), spec.boards.end());
    const int rows_of_boards = static_cast<int>((spec.boards.size() + 5) / 6);
    const int height = boards_top + rows_of_boards * cell;
    surfaces.resize(15 + 6 * static_cast<std::size_t>(rows_of_boards), even(0.5));
    std::vector<Vector3> raw;
    for (const Bands& surface : surfaces) raw.push_back(view.raw(surface));

    PaintedScene scene;
    scene.original = spec.lamp.lab(spec.woods.original);
    scene.same = spec.lamp.lab(spec.woods.same);
    scene.earth = spec.lamp.lab(spec.woods.earth);
    scene.slope_u = spec.light_residual / region_distance;
    const double exposure = random.uniform(0.75, 0.92), black = random.uniform(0, 0.01);
    const double slope_x = scene.slope_u * random.normal(), slope_y = scene.slope_u * random.normal();
    const CameraCurve curve(random.uniform(0.05, 0.2));
    const Matrix3 output = view.output_matrix();
    Frame& frame = scene.frame;
    frame.name = "bench";
    frame.width = width, frame.height = height, frame.type = SampleType::uint16;
    frame.encoding = srgb_encoding(Provenance::stated);
    std::vector<float> noise(static_cast<std::size_t>(3 * width * height));
    NormalTable::get().fill(random, noise.data(), noise.size());
    std::vector<std::uint16_t> samples(noise.size());
    const double well = spec.camera.full_well, read = spec.camera.read_noise;
    std::size_t at = 0;
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const Vector3& surface = raw[surface_at(x, y)];
            const double light = exposure * (1 + slope_x * (x - width / 2.0) + slope_y * (y - cell));
            Vector3 seen{};
            for (std::size_t c = 0; c < 3; ++c) {
                const double value = light * surface[c] + black;
                seen[c] = value + noise[at + c] * std::sqrt(std::max(value, 0.0) * well + read * read) / well;
            }
            const Vector3 linear = output * seen;
            for (std::size_t c = 0; c < 3; ++c)
                samples[at + c] =
                    static_cast<std::uint16_t>(curve.encode(static_cast<float>(linear[c])) * 65535.0F + 0.5F);
            at += 3;
        }
    frame.samples.resize(2 * samples.size());
    std::memcpy(frame.samples.data(), samples.data(), frame.samples.size());
    return scene;
}

Card card_of(const SceneSpec& spec, std::size_t known_woods) {
    static const Lamp d50 = make_lamp("CIE-D50");
    Card card;
    card.name = "bench";
    const auto add = [&](std::size_t column, std::size_t row, const Lab& lab) -> Patch& {
        Patch patch;
        patch.name = std::to_string(row) + "-" + std::to_string(column);
        patch.x0 = static_cast<double>(column) / 6, patch.x1 = patch.x0 + 1.0 / 6;
        patch.y0 = static_cast<double>(row) / 2, patch.y1 = patch.y0 + 0.5;
        patch.lab = lab;
        return card.patches.emplace_back(patch);
    };
    for (std::size_t i = 0; i < 6; ++i) {
        const double y = step_reflectances[i];
        add(i, 0, to_lab({d50_icc.X * y, y, d50_icc.Z * y}, d50_icc));
    }
    Random random(spec.seed, "stated woods");
    for (std::size_t i = 0; i < known_woods; ++i) {
        const double lighter = wood_error * random.normal(), redder = wood_error * random.normal();
        Bands stated = spec.patches[i];
        for (std::size_t band = 0; band < band_count; ++band)
            stated[band] *= 1 + lighter + redder * (band_nm(band) - 550) / 100;
        add(i, 1, d50.lab(stated)).reflectance = to_spectrum(stated);
    }
    return card;
}

Region same_region() {
    return rectangle({8, card_height + 6, 64, 48});
}
Region original_region() {
    return rectangle({88, card_height + 6, 64, 48});
}
Region earth_region() {
    return rectangle({168, card_height + 6, 64, 48});
}
Region board_region(std::size_t board) {
    const int column = static_cast<int>(board % 6), row = static_cast<int>(board / 6);
    return rectangle({column * cell + 6, boards_top + row * cell + 6, cell - 12, cell - 12});
}
std::array<Region, 2> original_halves() {
    return {rectangle({84, card_height + 6, 34, 48}), rectangle({122, card_height + 6, 34, 48})};
}

}  // namespace tonemend::bench
