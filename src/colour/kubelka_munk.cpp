#include "colour/kubelka_munk.h"

#include <cmath>

namespace tonemend {

namespace {

// The closed forms written with S·b = √(K² + 2KS), which stays finite as S or K goes to 0: multiplying
// numerator and denominator by S and using tanh(x)/x leaves no division by either.
struct Hyperbolic {
    double attenuation;  // b·SX
    double tanh_over_x;  // tanh(bSX)/(bSX), 1 at 0

    explicit Hyperbolic(const KubelkaMunkLayer& layer)
        : attenuation(std::sqrt(layer.absorption * (layer.absorption + 2 * layer.scattering))),
          tanh_over_x(attenuation < 1e-6 ? 1 - attenuation * attenuation / 3
                                         : std::tanh(attenuation) / attenuation) {}
};

}  // namespace

double layer_reflectance(const KubelkaMunkLayer& layer, double backing) {
    const Hyperbolic h(layer);
    const double both = layer.absorption + layer.scattering;  // a·SX
    const double numerator = backing + h.tanh_over_x * (layer.scattering - backing * both);
    const double denominator = 1 + h.tanh_over_x * (both - backing * layer.scattering);
    return numerator / denominator;
}

double layer_transmittance(const KubelkaMunkLayer& layer) {
    const Hyperbolic h(layer);
    const double both = layer.absorption + layer.scattering;
    return 1 / (std::cosh(h.attenuation) * (1 + h.tanh_over_x * both));
}

double infinite_reflectance(double k_over_s) {
    // 1 + q − √(q² + 2q) without the cancellation at large q.
    return 1 / (1 + k_over_s + std::sqrt(k_over_s * (k_over_s + 2)));
}

double k_over_s(double reflectance) {
    return (1 - reflectance) * (1 - reflectance) / (2 * reflectance);
}

}  // namespace tonemend
