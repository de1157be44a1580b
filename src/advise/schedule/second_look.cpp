#include "advise/schedule/second_look.h"

#include "calibrate/model/reference_spectra.h"
#include "colour/adaptation.h"
#include "colour/integrate.h"
#include "measure/smoothest_reflectance.h"

namespace tonemend {

SecondLook::SecondLook(const StatedLight& light, const Lab& original, const Lab& repair,
                       const Lab& repair_first)
    : table_([weights = weigh(light.power, read_observer_1931())](const Lab& first) {
          const SmoothestReflectance surface(first);
          const Spectrum reflectance{SmoothestReflectance::wavelength(0), 10, surface.values()};
          const XYZ there = integrate(reflectance, weights);
          return to_lab(transform(bradford(white_point(weights), d50_icc), there), d50_icc);
      }),
      original_(original) {
    const Lab plain = table_(repair_first);
    offset_ = {repair.L - plain.L, repair.a - plain.a, repair.b - plain.b};
}

Lab SecondLook::repair(const Lab& first) const {
    const Lab plain = table_(first);
    return {plain.L + offset_.L, plain.a + offset_.a, plain.b + offset_.b};
}

}  // namespace tonemend
