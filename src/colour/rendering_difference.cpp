#include "colour/rendering_difference.h"

#include <cassert>

#include "colour/adaptation.h"
#include "colour/difference.h"
#include "colour/integrate.h"
#include "colour/lab.h"

namespace tonemend {
namespace {

// What a light makes of a reflectance, as it is reported everywhere.
struct AdaptedLight {
    Weights weights;
    Matrix3 to_d50;

    AdaptedLight(const Spectrum& power, const Observer& observer)
        : weights(weigh(power, observer)), to_d50(bradford(white_point(weights), d50_icc)) {}
    Lab lab(const Spectrum& reflectance) const {
        return to_lab(transform(to_d50, integrate(reflectance, weights)), d50_icc);
    }
};

}  // namespace

double rendering_difference(const Spectrum& first, const Spectrum& second,
                            const std::vector<Spectrum>& reflectances, const Observer& observer) {
    assert(!reflectances.empty());
    const AdaptedLight one(first, observer), other(second, observer);
    double sum = 0;
    for (const Spectrum& reflectance : reflectances)
        sum += ciede2000(one.lab(reflectance), other.lab(reflectance)).value;
    return sum / static_cast<double>(reflectances.size());
}

}  // namespace tonemend
