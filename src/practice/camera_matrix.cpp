#include "practice/camera_matrix.h"

#include <cmath>

#include "colour/rgb_space.h"
#include "practice/lamp.h"
#include "practice/recipe.h"

namespace tonemend {

namespace {

std::vector<Bands> make_training() {
    Random random(1, "training");
    std::vector<Bands> all;
    for (const WoodKind& wood : wood_kinds()) {
        for (const double darkness : {0.0, 1.0}) {
            for (const Finish finish : {Finish::raw, Finish::clear_coat})
                all.push_back(stained_reflectance(wood, {{}, finish, {}}, darkness));
            for (int i = 0; i < 4; ++i) {
                const Colourant& colourant = colourants()[static_cast<std::size_t>(random.below(10))];
                const RecipeStep step{&colourant, random.uniform(0.2, 1.5), {}};
                all.push_back(stained_reflectance(wood, {{step}, Finish::clear_coat, {}}, darkness));
            }
        }
    }
    const std::size_t woods = all.size();
    for (std::size_t i = 0; i < 2 * woods; ++i) all.push_back(draw_smooth_reflectance(random));
    return all;
}

}  // namespace

Bands draw_smooth_reflectance(Random& random) {
    const double c0 = random.uniform(-2.5, 1.5);
    const double c1 = random.uniform(-2, 2);
    const double c2 = random.uniform(-2, 2);
    return make_bands([=](double nm) {
        const double u = (nm - 550) / 120;
        return 1 / (1 + std::exp(-(c0 + c1 * u + c2 * u * u)));
    });
}

const std::vector<Bands>& training_reflectances() {
    static const std::vector<Bands> all = make_training();
    return all;
}

Matrix3 fit_camera_matrix(const std::array<Bands, 3>& sensitivity) {
    const Lamp lamp = make_lamp("CIE-D65");
    const Matrix3 to_rgb = inverse(rgb_to_xyz(srgb)) * bradford(lamp.white, white_point(srgb.white));
    Bands diffuser;
    diffuser.fill(1);
    Vector3 white{};
    std::array<Bands, 3> weights{};
    for (std::size_t c = 0; c < 3; ++c) {
        for (std::size_t i = 0; i < band_count; ++i) weights[c][i] = lamp.power[i] * sensitivity[c][i];
        white[c] = inner_product(weights[c], diffuser);
    }
    // With each row's sum held to 1 a row is m0·(r − b) + m1·(g − b) + b: two unknowns, normal equations of 2
    // × 2.
    double rr = 0, rg = 0, gg = 0;
    std::array<std::array<double, 2>, 3> right{};
    for (const Bands& reflectance : training_reflectances()) {
        const XYZ xyz = lamp.xyz(reflectance);
        const Vector3 target = to_rgb * Vector3{xyz.X, xyz.Y, xyz.Z};
        const double weight = 1 / xyz.Y;
        const double r = inner_product(weights[0], reflectance) / white[0];
        const double g = inner_product(weights[1], reflectance) / white[1];
        const double b = inner_product(weights[2], reflectance) / white[2];
        rr += weight * (r - b) * (r - b);
        rg += weight * (r - b) * (g - b);
        gg += weight * (g - b) * (g - b);
        for (std::size_t row = 0; row < 3; ++row) {
            right[row][0] += weight * (r - b) * (target[row] - b);
            right[row][1] += weight * (g - b) * (target[row] - b);
        }
    }
    const double determinant_2x2 = rr * gg - rg * rg;
    Matrix3 matrix;
    for (std::size_t row = 0; row < 3; ++row) {
        const double m0 = (right[row][0] * gg - right[row][1] * rg) / determinant_2x2;
        const double m1 = (right[row][1] * rr - right[row][0] * rg) / determinant_2x2;
        matrix.m[row] = {m0, m1, 1 - m0 - m1};
    }
    return matrix;
}

}  // namespace tonemend
