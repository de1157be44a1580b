#include "calibrate/model/characterisation_prior.h"

#include <algorithm>
#include <cmath>

namespace tonemend {
namespace {

// The two lamps of a family beside `kelvin` on the scale of reciprocal temperature, interpolated; beyond the
// ends the end.
FormPrior interpolate(const FormPrior& low, const FormPrior& high, double at) {
    FormPrior between;
    between.mean = (1 - at) * low.mean + at * high.mean;
    between.covariance = (1 - at) * low.covariance + at * high.covariance;
    for (std::size_t k = 0; k < stated_for_count; ++k) {
        const StatedPrior &l = low.stated[k], &h = high.stated[k];
        between.stated[k] = {(1 - at) * l.mean + at * h.mean, (1 - at) * l.covariance + at * h.covariance,
                             (1 - at) * l.cross + at * h.cross};
    }
    between.residual_other = (1 - at) * low.residual_other + at * high.residual_other;
    for (std::size_t kind = 0; kind < repair_colourants_count; ++kind) {
        const DifferenceScatter &l = low.difference[kind], &h = high.difference[kind];
        between.residual[kind] = (1 - at) * low.residual[kind] + at * high.residual[kind];
        between.difference[kind] = {(1 - at) * l.always + at * h.always, (1 - at) * l.share + at * h.share};
    }
    return between;
}

LightPrior interpolate(const LightPrior& low, const LightPrior& high, double at) {
    return {low.family, (1 - at) * low.kelvin + at * high.kelvin, interpolate(low.linear, high.linear, at),
            interpolate(low.root, high.root, at)};
}

LightPrior of_family(const std::vector<LightPrior>& lights, LampFamily family, double kelvin) {
    std::vector<const LightPrior*> lamps;
    for (const LightPrior& light : lights)
        if (light.family == family) lamps.push_back(&light);
    std::sort(lamps.begin(), lamps.end(),
              [](const auto* left, const auto* right) { return left->kelvin < right->kelvin; });
    std::size_t above = 0;
    while (above < lamps.size() && lamps[above]->kelvin < kelvin) ++above;
    if (above == 0) return *lamps.front();
    if (above == lamps.size()) return *lamps.back();
    const LightPrior &low = *lamps[above - 1], &high = *lamps[above];
    return interpolate(low, high, (1 / low.kelvin - 1 / kelvin) / (1 / low.kelvin - 1 / high.kelvin));
}

// Equal shares of each: the covariance gains the spread of the means.
FormPrior mix(const std::vector<LightPrior>& lights, ModelForm form) {
    FormPrior mixed = lights.front().of(form);
    double weight = 1;
    for (std::size_t i = 1; i < lights.size(); ++i) {
        const FormPrior& next = lights[i].of(form);
        const double at = 1 / (weight + 1);
        const FormPrior before = mixed;
        mixed = interpolate(before, next, at);
        const Eigen::VectorXd apart = next.mean - before.mean;
        mixed.covariance += at * (1 - at) * apart * apart.transpose();
        for (std::size_t k = 0; k < stated_for_count; ++k) {
            const Eigen::VectorXd other = next.stated[k].mean - before.stated[k].mean;
            mixed.stated[k].covariance += at * (1 - at) * other * other.transpose();
            mixed.stated[k].cross += at * (1 - at) * apart * other.transpose();
        }
        weight += 1;
    }
    return mixed;
}

LightPrior mix(const std::vector<LightPrior>& lights) {
    LightPrior mixed = lights.front();
    for (std::size_t i = 1; i < lights.size(); ++i)
        mixed = interpolate(mixed, lights[i], 1 / (1.0 + static_cast<double>(i)));
    mixed.linear = mix(lights, ModelForm::linear);
    mixed.root = mix(lights, ModelForm::root);
    return mixed;
}

}  // namespace

LightPrior CharacterisationPrior::under(const std::optional<StatedLight>& light) const {
    if (!light) return mix(lights);
    if (light->family) return of_family(lights, *light->family, light->kelvin);
    return mix({of_family(lights, LampFamily::thermal, light->kelvin),
                of_family(lights, LampFamily::led, light->kelvin)});
}

}  // namespace tonemend
