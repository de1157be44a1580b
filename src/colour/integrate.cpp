#include "colour/integrate.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <numeric>

namespace tonemend {
namespace {

bool on_grid_of(const Spectrum& a, const Spectrum& b) {
    return a.values.size() == b.values.size() && a.start_nm == b.start_nm && a.step_nm == b.step_nm;
}

double sum(const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0);
}

double dot(const Spectrum& a, const Spectrum& b) {
    return std::inner_product(a.values.begin(), a.values.end(), b.values.begin(), 0.0);
}

}  // namespace

Weights weigh(const Spectrum& illuminant, const Observer& observer) {
    assert(!illuminant.empty() && on_grid_of(observer.x, observer.y) && on_grid_of(observer.x, observer.z));
    const Spectrum& finer = illuminant.step_nm < observer.x.step_nm ? illuminant : observer.x;
    const double low = std::max(illuminant.start_nm, observer.x.start_nm);
    const double high = std::min(illuminant.end_nm(), observer.x.end_nm());
    // The first and last wavelengths of the finer grid that both tables have; the slack is for rounding.
    const double slack = 1e-6;
    const double first =
        finer.start_nm + std::ceil((low - finer.start_nm) / finer.step_nm - slack) * finer.step_nm;
    const double last =
        finer.start_nm + std::floor((high - finer.start_nm) / finer.step_nm + slack) * finer.step_nm;
    assert(first <= last);

    Weights weights{resample(observer.x, first, last, finer.step_nm),
                    resample(observer.y, first, last, finer.step_nm),
                    resample(observer.z, first, last, finer.step_nm)};
    const std::size_t count = weights.Y.values.size();
    for (std::size_t i = 0; i < count; ++i) {
        const double power = illuminant.at(first + static_cast<double>(i) * finer.step_nm);
        weights.X.values[i] *= power;
        weights.Y.values[i] *= power;
        weights.Z.values[i] *= power;
    }
    const double total = sum(weights.Y.values);
    assert(total > 0);
    for (Spectrum* weight : {&weights.X, &weights.Y, &weights.Z}) {
        for (double& value : weight->values) {
            value /= total;
        }
    }
    return weights;
}

XYZ integrate(const Spectrum& reflectance, const Weights& weights) {
    if (on_grid_of(reflectance, weights.Y)) {
        return {dot(reflectance, weights.X), dot(reflectance, weights.Y), dot(reflectance, weights.Z)};
    }
    const Spectrum r = resample(reflectance, weights.Y.start_nm, weights.Y.end_nm(), weights.Y.step_nm);
    return {dot(r, weights.X), dot(r, weights.Y), dot(r, weights.Z)};
}

XYZ integrate(const Spectrum& reflectance, const Spectrum& illuminant, const Observer& observer) {
    return integrate(reflectance, weigh(illuminant, observer));
}

WhitePoint white_point(const Weights& weights) {
    return {sum(weights.X.values), 1, sum(weights.Z.values)};
}

WhitePoint white_point(const Spectrum& illuminant, const Observer& observer) {
    return white_point(weigh(illuminant, observer));
}

}  // namespace tonemend
