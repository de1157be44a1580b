#include "practice/wet_surface.h"

#include <cmath>
#include <numbers>

#include "colour/kubelka_munk.h"

namespace tonemend {

namespace {

// Fresnel's reflectance of unpolarised light from a medium of index 1 into `index`, at this cosine outside
// it.
double fresnel(double index, double cosine) {
    const double sine = std::sqrt(1 - cosine * cosine) / index;
    if (sine >= 1) return 1;
    const double inside = std::sqrt(1 - sine * sine);
    const double across = (cosine - index * inside) / (cosine + index * inside);
    const double along = (index * cosine - inside) / (index * cosine + inside);
    return (across * across + along * along) / 2;
}

// The mean of function(cosine) over diffuse light.
template <typename Function>
double over_hemisphere(Function function) {
    constexpr int steps = 400;
    double sum = 0;
    for (int i = 0; i < steps; ++i) {
        const double square = (i + 0.5) / steps;  // cosine² is evenly spread in diffuse light
        sum += function(std::sqrt(square));
    }
    return sum / steps;
}

// One optical interface with an amber film below it.
struct Film {
    double in = 1, out = 1, inside = 0;  // transmittances at 45° and straight up, diffuse internal reflection
    double slant = 1;                    // path of light at 45° outside, inside the film

    explicit Film(double index) {
        const double forty_five = std::numbers::sqrt2 / 2;
        in = 1 - fresnel(index, forty_five);
        out = (1 - fresnel(index, 1)) / (index * index);
        inside = internal_diffuse_reflection(index);
        const double sine = forty_five / index;
        slant = 1 / std::sqrt(1 - sine * sine);
    }
    double seen(double below, double density) const {
        const auto pass = [density](double path) { return std::pow(10.0, -density * path); };
        // Diffuse light passes a thin film along twice its thickness.
        const double round = pass(4);
        return in * pass(slant) * below * pass(1) * out / (1 - inside * round * below);
    }
};

}  // namespace

double internal_diffuse_reflection(double index) {
    return over_hemisphere([index](double cosine) { return fresnel(1 / index, cosine); });
}

Bands surface_reflectance(const Bands& body, const SurfaceFill& fill) {
    const Film film(fill.index);
    const double scattering = 1 - fill.filled * fill.scattering_lost;
    Bands seen{};
    for (std::size_t i = 0; i < band_count; ++i) {
        const double below = infinite_reflectance(k_over_s(body[i]) / scattering);
        const double density = fill.amber * std::exp((400 - band_nm(i)) / fill.amber_decay);
        seen[i] = (1 - fill.covered) * below + fill.covered * (film.seen(below, density) + fill.haze);
    }
    return seen;
}

}  // namespace tonemend
