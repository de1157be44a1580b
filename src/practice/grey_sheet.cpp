#include "practice/grey_sheet.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "practice/card_paint.h"
#include "practice/random.h"

namespace tonemend {

namespace {

constexpr float fibres = 0.006F, mottling = 0.003F;
constexpr int mottle_side = 10;
constexpr double pixels_a_speck = 3000;

// Multiplies what is around a place by `share`.
void darken(RawPicture& picture, double x, double y, double radius, float share) {
    const int x_end = std::min(picture.width, static_cast<int>(x + radius) + 1);
    const int y_end = std::min(picture.height, static_cast<int>(y + radius) + 1);
    for (int row = std::max(0, static_cast<int>(y - radius)); row < y_end; ++row)
        for (int column = std::max(0, static_cast<int>(x - radius)); column < x_end; ++column)
            if (std::hypot(column + 0.5 - x, row + 0.5 - y) <= radius)
                for (int c = 0; c < 3; ++c) picture.row(row)[3 * column + c] *= share;
}

void texture(const PracticeScene& scene, RawPicture& picture) {
    const auto width = static_cast<std::size_t>(picture.width);
    std::vector<float> fine(width), coarse(width / mottle_side + 1);
    for (int y = 0; y < picture.height; ++y) {
        Random random(scene.options.seed, "sheet fibres", static_cast<std::uint64_t>(y));
        NormalTable::get().fill(random, fine.data(), fine.size());
        if (y % mottle_side == 0) {
            Random patches(scene.options.seed, "sheet mottling", static_cast<std::uint64_t>(y));
            NormalTable::get().fill(patches, coarse.data(), coarse.size());
        }
        float* row = picture.row(y);
        for (std::size_t x = 0; x < width; ++x) {
            const float change = 1 + fibres * fine[x] + mottling * coarse[x / mottle_side];
            for (std::size_t c = 0; c < 3; ++c) row[3 * x + c] *= change;
        }
    }
}

}  // namespace

void draw_grey_sheet(const PracticeScene& scene, RawPicture& picture) {
    const Vector3 grey = scene.view.raw(smooth_reflectance({72.9, 0, 0}));
    for (std::size_t i = 0; i < picture.rgb.size(); ++i) picture.rgb[i] = static_cast<float>(grey[i % 3]);
    texture(scene, picture);
    Random random(scene.options.seed, "sheet dust");
    const double w = picture.width, h = picture.height, specks = w * h / pixels_a_speck;
    for (int i = 0; i < static_cast<int>(specks); ++i) {
        const double x = random.uniform(0, w), y = random.uniform(0, h);
        darken(picture, x, y, random.uniform(0.6, 2), static_cast<float>(random.uniform(0.3, 0.8)));
    }
    const double x = random.uniform(0.2, 0.8) * w, y = random.uniform(0.2, 0.8) * h;
    const double angle = random.uniform(0, 2 * std::numbers::pi), length = 0.3 * w;
    for (int step = 0; step < static_cast<int>(length); ++step)
        darken(picture, x + step * std::cos(angle), y + step * std::sin(angle), 0.8, 1.05F);
}

}  // namespace tonemend
