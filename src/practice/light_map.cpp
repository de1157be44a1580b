#include "practice/light_map.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "calibrate/card/homography.h"
#include "practice/card_lay.h"
#include "practice/card_paint.h"
#include "practice/fault_light.h"
#include "practice/grey_sheet.h"
#include "practice/lamp_gradient.h"
#include "practice/sheen.h"

namespace tonemend {

namespace {

using Raw = std::array<float, 3>;

Raw to_float(const Vector3& raw) {
    return {static_cast<float>(raw[0]), static_cast<float>(raw[1]), static_cast<float>(raw[2])};
}

void draw_bench(const PracticeScene& scene, RawPicture& picture) {
    const Raw bench = to_float(scene.view.raw(bench_top()));
    for (std::size_t i = 0; i < picture.rgb.size(); ++i) picture.rgb[i] = bench[i % 3];
}

void draw_side(const PracticeScene& scene, const BoardSide& side, const std::vector<float>& darkness,
               RawPicture& picture) {
    const Sheen sheen = grow_sheen(scene, side);
    const Raw white = to_float(scene.view.white);
    std::array<Raw, darkness_nodes> table{};
    for (std::size_t node = 0; node < darkness_nodes; ++node) {
        table[node] = to_float(side.raw[node]);
        if (scene.options.lamp_from) continue;
        for (std::size_t c = 0; c < 3; ++c)
            table[node][c] += static_cast<float>(side.gloss * scene.view.white[c]);
    }
    std::size_t at = 0;
    for (int y = 0; y < side.board.height; ++y) {
        const float* dark = darkness.data() + static_cast<std::ptrdiff_t>(y) * scene.board.width +
                            (side.board.x - scene.board.x);
        float* out = picture.row(side.board.y + y) + 3 * static_cast<std::ptrdiff_t>(side.board.x);
        for (int x = 0; x < side.board.width; ++x, ++at, out += 3) {
            const float place = (dark[x] + 0.5F) * 32;
            const std::size_t node = std::min(static_cast<std::size_t>(place), darkness_nodes - 2);
            const float rest = place - static_cast<float>(node);
            for (std::size_t c = 0; c < 3; ++c)
                out[c] = table[node][c] + rest * (table[node + 1][c] - table[node][c]);
            if (!sheen.shimmer.empty())
                for (std::size_t c = 0; c < 3; ++c) out[c] *= sheen.shimmer[at];
            if (!sheen.gloss.empty())
                for (std::size_t c = 0; c < 3; ++c) out[c] += sheen.gloss[at] * white[c];
        }
    }
}

// Sixteen points a pixel, each traced back to the sheet.
void draw_card(const PracticeScene& scene, RawPicture& picture) {
    constexpr int across = 4;
    const SheetMap sheet(*scene.card);
    std::vector<Raw> raws;
    for (const Bands& material : card_materials(*scene.card))
        raws.push_back(to_float(scene.view.raw(material)));
    const Quad& corners = scene.card->sheet;
    const Matrix3 to_sheet = inverse(unit_square_to_quad(corners));
    const auto [left, right] = std::minmax({corners[0].x, corners[1].x, corners[2].x, corners[3].x});
    const auto [top, bottom] = std::minmax({corners[0].y, corners[1].y, corners[2].y, corners[3].y});
    const int x_end = std::min(picture.width, static_cast<int>(std::ceil(right)));
    const int y_end = std::min(picture.height, static_cast<int>(std::ceil(bottom)));
    for (int y = std::max(0, static_cast<int>(top)); y < y_end; ++y) {
        float* row = picture.row(y);
        for (int x = std::max(0, static_cast<int>(left)); x < x_end; ++x) {
            Raw sum{};
            int inside = 0;
            for (int k = 0; k < across * across; ++k) {
                const double px = x + (k % across + 0.5) / across;
                const double py = y + (k / across + 0.5) / across;
                const Point at = map_point(to_sheet, {px, py});
                if (at.x < 0 || at.x >= 1 || at.y < 0 || at.y >= 1) continue;
                const Raw& raw = raws[sheet.material_at(at.x, at.y)];
                for (std::size_t c = 0; c < 3; ++c) sum[c] += raw[c];
                ++inside;
            }
            if (inside == 0) continue;
            const float share = 1.0F / (across * across);
            const float left_over = 1 - share * static_cast<float>(inside);
            for (std::size_t c = 0; c < 3; ++c)
                row[3 * x + static_cast<int>(c)] =
                    share * sum[c] + left_over * row[3 * x + static_cast<int>(c)];
        }
    }
}

RawPicture draw_things(const PracticeScene& scene, const std::vector<float>& darkness) {
    const int width = scene.options.width;
    const int height = scene.options.height;
    RawPicture picture{
        width, height,
        std::vector<float>(3 * static_cast<std::size_t>(width) * static_cast<std::size_t>(height))};
    if (scene.options.subject == PracticeSubject::grey_sheet) {
        draw_grey_sheet(scene, picture);
        return picture;
    }
    draw_bench(scene, picture);
    draw_side(scene, scene.original, darkness, picture);
    draw_side(scene, scene.repair, darkness, picture);
    if (scene.card) draw_card(scene, picture);
    add_glint(scene, picture);
    return picture;
}

// Two lamps from two sides: the picture under either, mixed column by column.
RawPicture draw_under_both(const PracticeScene& scene, const std::vector<float>& darkness) {
    RawPicture picture = draw_things(relit(scene, scene.options.lamp), darkness);
    const RawPicture second = draw_things(relit(scene, scene.options.second_lamp), darkness);
    for (int y = 0; y < picture.height; ++y) {
        for (int x = 0; x < picture.width; ++x) {
            const auto share = static_cast<float>(second_share_at(scene, x + 0.5));
            for (int i = 3 * x; i < 3 * x + 3; ++i)
                picture.row(y)[i] = std::lerp(picture.row(y)[i], second.row(y)[i], share);
        }
    }
    return picture;
}

void light_up(const PracticeScene& scene, RawPicture& picture) {
    dim_by_faults(scene, picture);
    Raw veil{};
    for (std::size_t c = 0; c < 3; ++c)
        veil[c] = static_cast<float>(scene.black_level * scene.exposure * scene.view.white[c]);
    for (int y = 0; y < picture.height; ++y) {
        float* pixel = picture.row(y);
        for (int x = 0; x < picture.width; ++x, pixel += 3) {
            const double fall = scene.light.loss > 0 ? scene.light.at(x + 0.5, y + 0.5) : 1;
            const auto light = static_cast<float>(scene.exposure * fall);
            for (std::size_t c = 0; c < 3; ++c) pixel[c] = light * pixel[c] + veil[c];
        }
    }
}

}  // namespace

RawPicture light_map(const PracticeScene& scene) {
    if (scene.options.subject == PracticeSubject::grey_sheet) return light_map(scene, {});
    return light_map(scene,
                     grow_grain(scene.grain, scene.board.width, scene.board.height, scene.options.seed));
}

RawPicture light_map(const PracticeScene& scene, const std::vector<float>& darkness) {
    RawPicture picture = scene.options.faults.lamp_gradient > 0 ? draw_under_both(scene, darkness)
                                                                : draw_things(scene, darkness);
    light_up(scene, picture);
    return picture;
}

}  // namespace tonemend
