#include "colour/spectrum.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>

namespace tonemend {
namespace {

// The values at places −2 … n+1, with the two beyond each end as CIE 167:2005 makes them. Its coefficients
// carry a straight line on exactly and let the curvature at the end go to zero.
std::vector<double> pad_for_sprague(const std::vector<double>& v) {
    const std::size_t n = v.size();
    std::vector<double> padded(n + 4);
    std::copy(v.begin(), v.end(), padded.begin() + 2);
    const double outer[6] = {884, -1960, 3033, -2648, 1080, -180};
    const double inner[6] = {508, -540, 488, -367, 144, -24};
    for (std::size_t i = 0; i < 6; ++i) {
        padded[0] += outer[i] * v[i] / 209;
        padded[1] += inner[i] * v[i] / 209;
        padded[n + 2] += inner[i] * v[n - 1 - i] / 209;
        padded[n + 3] += outer[i] * v[n - 1 - i] / 209;
    }
    return padded;
}

// Sprague's polynomial between p[2] and p[3]: their values, and the slopes and curvatures that the quartics
// through five neighbours have there (CIE 167:2005).
double sprague(const double* p, double t) {
    const double a1 = (2 * p[0] - 16 * p[1] + 16 * p[3] - 2 * p[4]) / 24;
    const double a2 = (-p[0] + 16 * p[1] - 30 * p[2] + 16 * p[3] - p[4]) / 24;
    const double a3 = (-9 * p[0] + 39 * p[1] - 70 * p[2] + 66 * p[3] - 33 * p[4] + 7 * p[5]) / 24;
    const double a4 = (13 * p[0] - 64 * p[1] + 126 * p[2] - 124 * p[3] + 61 * p[4] - 12 * p[5]) / 24;
    const double a5 = (-5 * p[0] + 25 * p[1] - 50 * p[2] + 50 * p[3] - 25 * p[4] + 5 * p[5]) / 24;
    return p[2] + t * (a1 + t * (a2 + t * (a3 + t * (a4 + t * a5))));
}

}  // namespace

double Spectrum::end_nm() const {
    assert(!empty());
    return start_nm + static_cast<double>(values.size() - 1) * step_nm;
}

double Spectrum::at(double nm) const {
    assert(!empty());
    if (nm <= start_nm || values.size() == 1) {
        return values.front();
    }
    if (nm >= end_nm()) {
        return values.back();
    }
    const double place = (nm - start_nm) / step_nm;
    const std::size_t i = std::min(static_cast<std::size_t>(place), values.size() - 2);
    const double t = place - static_cast<double>(i);
    return (1 - t) * values[i] + t * values[i + 1];
}

Spectrum resample(const Spectrum& spectrum, double start_nm, double end_nm, double step_nm) {
    assert(!spectrum.empty() && step_nm > 0 && end_nm >= start_nm);
    // The slack keeps the last value when (end − start)/step comes out a hair under a whole number.
    const auto count = static_cast<std::size_t>((end_nm - start_nm) / step_nm + 1e-6) + 1;
    Spectrum result{start_nm, step_nm, std::vector<double>(count)};
    const std::size_t n = spectrum.values.size();
    const std::vector<double> padded = n >= 6 ? pad_for_sprague(spectrum.values) : std::vector<double>{};
    for (std::size_t k = 0; k < count; ++k) {
        const double nm = start_nm + static_cast<double>(k) * step_nm;
        if (n < 6 || nm <= spectrum.start_nm || nm >= spectrum.end_nm()) {
            result.values[k] = spectrum.at(nm);
            continue;
        }
        const double place = (nm - spectrum.start_nm) / spectrum.step_nm;
        const std::size_t i = std::min(static_cast<std::size_t>(place), n - 2);
        result.values[k] = sprague(&padded[i], place - static_cast<double>(i));
    }
    return result;
}

}  // namespace tonemend
