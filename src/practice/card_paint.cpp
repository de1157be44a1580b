#include "practice/card_paint.h"

#include <cmath>

#include <fmt/format.h>

#include "colour/difference.h"
#include "picture/input_error.h"
#include "practice/lamp.h"

namespace tonemend {

namespace {

Bands logistic(const Vector3& c) {
    return make_bands([&](double nm) {
        const double u = (nm - 560) / 100;
        return 1 / (1 + std::exp(-(c[0] + c[1] * u + c[2] * u * u)));
    });
}

Vector3 to_vector(const Lab& lab) {
    return {lab.L, lab.a, lab.b};
}

}  // namespace

Bands smooth_reflectance(const Lab& lab) {
    static const Lamp d50 = make_lamp("CIE-D50");
    const double start = to_xyz(lab, d50_icc).Y;
    Vector3 c{std::log(start / (1 - start)), 0, 0};
    const auto colour = [&](const Vector3& at) { return to_vector(d50.lab(logistic(at))); };
    for (int iteration = 0; iteration < 60; ++iteration) {
        const Vector3 now = colour(c);
        const Vector3 missing{lab.L - now[0], lab.a - now[1], lab.b - now[2]};
        if (std::hypot(missing[0], missing[1], missing[2]) < 1e-9) break;
        Matrix3 jacobian;
        for (std::size_t k = 0; k < 3; ++k) {
            Vector3 moved = c;
            moved[k] += 1e-6;
            const Vector3 there = colour(moved);
            for (std::size_t row = 0; row < 3; ++row) jacobian.m[row][k] = (there[row] - now[row]) / 1e-6;
        }
        if (std::abs(determinant(jacobian)) < 1e-12) break;
        const Vector3 step = inverse(jacobian) * missing;
        const double damping = std::min(1.0, 1.0 / std::hypot(step[0], step[1], step[2]));
        for (std::size_t k = 0; k < 3; ++k) c[k] += damping * step[k];
    }
    const Bands reflectance = logistic(c);
    if (!(delta_e_76(d50.lab(reflectance), lab) < 1e-6))
        throw InputError(fmt::format(
            "patch colour Lab {:.2f} {:.2f} {:.2f}: no smooth paint has it, so the practice bench "
            "cannot draw it; use a less vivid patch or give its spectrum",
            lab.L, lab.a, lab.b));
    return reflectance;
}

std::vector<Bands> paint_card(const Card& card) {
    std::vector<Bands> paints;
    for (const Patch& patch : card.patches)
        paints.push_back(patch.reflectance.empty() ? smooth_reflectance(patch.lab)
                                                   : sample_bands(patch.reflectance));
    return paints;
}

Bands paper_white() {
    return make_bands([](double nm) { return 0.88 - 0.10 * std::exp((380 - nm) / 25); });
}

Bands toner_black() {
    return make_bands([](double nm) { return 0.035 + 0.00001 * (nm - 380); });
}

Bands bench_top() {
    return make_bands([](double nm) { return 0.13 + 0.00025 * (nm - 380); });
}

Bands card_board() {
    return make_bands([](double) { return 0.12; });
}

}  // namespace tonemend
