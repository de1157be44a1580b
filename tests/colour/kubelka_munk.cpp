#include "colour/kubelka_munk.h"

#include <array>
#include <cmath>

#include "tests/support/check_tight.h"

using namespace tonemend;

namespace {

// The two flux equations (Kubelka and Munk 1931), height x measured from the backing up: the light going down
// grows upwards, dI/dx = (K + S)·I − S·J, the light going up dJ/dx = S·I − (K + S)·J.
using Fluxes = std::array<double, 2>;

Fluxes slope(const KubelkaMunkLayer& layer, const Fluxes& f) {
    const double both = layer.absorption + layer.scattering;
    return {both * f[0] - layer.scattering * f[1], layer.scattering * f[0] - both * f[1]};
}

Fluxes step(const Fluxes& f, const Fluxes& k, double h) {
    return {f[0] + h * k[0], f[1] + h * k[1]};
}

// Fourth-order Runge–Kutta over the layer's whole thickness, which the coefficients contain.
Fluxes solve(const KubelkaMunkLayer& layer, double backing) {
    constexpr int steps = 4000;
    constexpr double h = 1.0 / steps;
    Fluxes f{1, backing};
    for (int i = 0; i < steps; ++i) {
        const Fluxes k1 = slope(layer, f);
        const Fluxes k2 = slope(layer, step(f, k1, h / 2));
        const Fluxes k3 = slope(layer, step(f, k2, h / 2));
        const Fluxes k4 = slope(layer, step(f, k3, h));
        for (std::size_t c = 0; c < 2; ++c) f[c] += h / 6 * (k1[c] + 2 * k2[c] + 2 * k3[c] + k4[c]);
    }
    return f;
}

constexpr std::array thicknesses{0.0, 1e-9, 1e-4, 0.02, 0.3, 1.0, 4.0};
constexpr std::array backings{0.0, 0.3, 0.8, 1.0};

}  // namespace

TEST_CASE("The closed forms solve the two flux equations") {
    double worst_reflectance = 0;
    double worst_transmittance = 0;
    for (const double k : thicknesses)
        for (const double s : thicknesses) {
            const KubelkaMunkLayer layer{k, s};
            for (const double backing : backings) {
                const Fluxes f = solve(layer, backing);
                worst_reflectance =
                    std::max(worst_reflectance, std::abs(layer_reflectance(layer, backing) - f[1] / f[0]));
            }
            worst_transmittance =
                std::max(worst_transmittance, std::abs(layer_transmittance(layer) - 1 / solve(layer, 0)[0]));
        }
    check_tight("layer_reflectance against Runge-Kutta", worst_reflectance, 1e-12);
    check_tight("layer_transmittance against Runge-Kutta", worst_transmittance, 1e-12);
}

TEST_CASE("A layer without thickness shows its backing, a thick one hides it") {
    for (const double backing : backings) {
        CHECK(layer_reflectance({0, 0}, backing) == backing);
        CHECK(layer_reflectance({30, 100}, backing) == Approx(infinite_reflectance(0.3)).margin(1e-14));
        CHECK(layer_reflectance({1e5, 1e5}, backing) == Approx(infinite_reflectance(1)).margin(1e-14));
    }
    CHECK(layer_transmittance({0, 0}) == 1);
    CHECK(layer_transmittance({1e5, 1e5}) == 0);
}

// Kubelka 1948, the special cases.
TEST_CASE("Without absorption or without scattering the special forms hold") {
    double worst = 0;
    for (const double x : {0.1, 1.0, 5.0})
        for (const double rg : backings) {
            const double white = (x * (1 - rg) + rg) / (x * (1 - rg) + 1);
            worst = std::max(worst, std::abs(layer_reflectance({0, x}, rg) - white));
            worst = std::max(worst, std::abs(layer_reflectance({x, 0}, rg) - rg * std::exp(-2 * x)));
        }
    check_tight("special forms", worst, 5e-16);
    CHECK(layer_transmittance({0, 3}) == Approx(0.25).epsilon(1e-15));
    CHECK(layer_transmittance({3, 0}) == Approx(std::exp(-3)).epsilon(1e-14));
}

TEST_CASE("A layer that absorbs nothing loses no light") {
    for (const double s : thicknesses)
        CHECK(layer_reflectance({0, s}, 0) + layer_transmittance({0, s}) == Approx(1).epsilon(1e-15));
}

// Kubelka 1948: R over any backing from R0 and T by summing the light thrown back and forth.
TEST_CASE("A layer over a backing adds up the light thrown back and forth between them") {
    double worst = 0;
    for (const double k : {0.02, 0.3, 1.0})
        for (const double s : {0.02, 0.3, 1.0})
            for (const double rg : backings) {
                const double r0 = layer_reflectance({k, s}, 0);
                const double t = layer_transmittance({k, s});
                worst = std::max(worst,
                                 std::abs(r0 + t * t * rg / (1 - r0 * rg) - layer_reflectance({k, s}, rg)));
            }
    check_tight("adding", worst, 1e-15);
}

TEST_CASE("K/S and the reflectance of a thick layer are each other's inverse") {
    CHECK(infinite_reflectance(0) == 1);
    CHECK(k_over_s(1) == 0);
    CHECK(k_over_s(0.5) == 0.25);
    CHECK(k_over_s(0.1) == Approx(4.05).epsilon(1e-15));
    for (const double r : {1e-6, 0.01, 0.2, 0.7, 0.999})
        CHECK(infinite_reflectance(k_over_s(r)) == Approx(r).epsilon(1e-13));
}
