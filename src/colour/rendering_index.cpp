#include "colour/rendering_index.h"

#include <cassert>
#include <cmath>
#include <numeric>

#include "colour/cct.h"
#include "colour/integrate.h"

namespace tonemend {
namespace {

Spectrum reference_light(double kelvin, const Spectrum& lamp, const DaylightComponents& components) {
    if (kelvin < 5000) {
        return planckian_radiator(kelvin, lamp.start_nm, lamp.end_nm(), lamp.step_nm);
    }
    // Between the tabulated wavelengths a daylight phase is linear (CIE 15:2018, 4.1.2).
    const Spectrum phase = daylight(kelvin, components);
    Spectrum light = lamp;
    for (std::size_t i = 0; i < light.values.size(); ++i) {
        light.values[i] = phase.at(light.start_nm + static_cast<double>(i) * light.step_nm);
    }
    return light;
}

// c and d of CIE 13.3, 5.7, the coordinates in which the adaptation is a scaling.
struct Adapting {
    double c = 0;
    double d = 0;
};

Adapting to_adapting(const Ucs1960& uv) {
    return {(4 - uv.u - 10 * uv.v) / uv.v, (1.708 * uv.v + 0.404 - 1.481 * uv.u) / uv.v};
}

// CIE 1964 U*V*W* about the reference white.
struct Uvw {
    double U = 0;
    double V = 0;
    double W = 0;
};

Uvw to_uvw(const Ucs1960& uv, double Y, const Ucs1960& white) {
    const double W = 25 * std::cbrt(100 * Y) - 17;
    return {13 * W * (uv.u - white.u), 13 * W * (uv.v - white.v), W};
}

}  // namespace

std::optional<RenderingIndex> rendering_index(const Spectrum& lamp, const std::vector<Spectrum>& test_colours,
                                              const DaylightComponents& components,
                                              const Observer& observer) {
    assert(test_colours.size() >= 8);
    const Weights k = weigh(lamp, observer);
    const auto temperature = correlated_colour_temperature(white_point(k));
    if (!temperature) {
        return std::nullopt;
    }
    const Weights r = weigh(reference_light(temperature->kelvin, lamp, components), observer);
    const Ucs1960 white_k = to_ucs1960(perfect_diffuser(white_point(k)));
    const Ucs1960 white_r = to_ucs1960(perfect_diffuser(white_point(r)));
    const Adapting from = to_adapting(white_k);
    const Adapting to = to_adapting(white_r);

    RenderingIndex index;
    index.kelvin = temperature->kelvin;
    for (const Spectrum& reflectance : test_colours) {
        const XYZ under_k = integrate(reflectance, k);
        const XYZ under_r = integrate(reflectance, r);
        const Adapting sample = to_adapting(to_ucs1960(under_k));
        const double c = to.c / from.c * sample.c;
        const double d = to.d / from.d * sample.d;
        const double divisor = 16.518 + 1.481 * c - d;
        const Ucs1960 adapted{(10.872 + 0.404 * c - 4 * d) / divisor, 5.520 / divisor};
        const Uvw seen = to_uvw(adapted, under_k.Y, white_r);
        const Uvw meant = to_uvw(to_ucs1960(under_r), under_r.Y, white_r);
        const double dE = std::hypot(seen.U - meant.U, seen.V - meant.V, seen.W - meant.W);
        index.special.push_back(100 - 4.6 * dE);
    }
    index.Ra = std::accumulate(index.special.begin(), index.special.begin() + 8, 0.0) / 8;
    return index;
}

}  // namespace tonemend
