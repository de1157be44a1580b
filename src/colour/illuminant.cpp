#include "colour/illuminant.h"

#include <cassert>
#include <cmath>
#include <cstddef>

namespace tonemend {

Spectrum planckian_radiator(double kelvin, double start_nm, double end_nm, double step_nm) {
    assert(kelvin > 0 && start_nm > 0 && end_nm >= start_nm && step_nm > 0);
    const double c2 = 1.4388e7;  // nm·K
    const double nm560 = 560;
    const auto count = static_cast<std::size_t>((end_nm - start_nm) / step_nm + 1e-6) + 1;
    Spectrum spectrum{start_nm, step_nm, std::vector<double>(count)};
    for (std::size_t i = 0; i < count; ++i) {
        const double nm = start_nm + static_cast<double>(i) * step_nm;
        spectrum.values[i] = 100 * std::pow(nm560 / nm, 5) * std::expm1(c2 / (nm560 * kelvin)) /
                             std::expm1(c2 / (nm * kelvin));
    }
    return spectrum;
}

Chromaticity daylight_chromaticity(double kelvin) {
    assert(kelvin >= 4000 && kelvin <= 25000);
    const double T = kelvin;
    const double x = T <= 7000 ? -4.6070e9 / (T * T * T) + 2.9678e6 / (T * T) + 0.09911e3 / T + 0.244063
                               : -2.0064e9 / (T * T * T) + 1.9018e6 / (T * T) + 0.24748e3 / T + 0.237040;
    return {x, -3.000 * x * x + 2.870 * x - 0.275};
}

Spectrum daylight(double kelvin, const DaylightComponents& components) {
    const auto [x, y] = daylight_chromaticity(kelvin);
    const double M = 0.0241 + 0.2562 * x - 0.7341 * y;
    const double M1 = std::round(1000 * (-1.3515 - 1.7703 * x + 5.9114 * y) / M) / 1000;
    const double M2 = std::round(1000 * (0.0300 - 31.4424 * x + 30.0717 * y) / M) / 1000;
    const auto& [S0, S1, S2] = components;
    assert(S0.values.size() == S1.values.size() && S0.values.size() == S2.values.size());
    Spectrum spectrum = S0;
    for (std::size_t i = 0; i < spectrum.values.size(); ++i) {
        spectrum.values[i] += M1 * S1.values[i] + M2 * S2.values[i];
    }
    return spectrum;
}

}  // namespace tonemend
