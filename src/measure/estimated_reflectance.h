#pragma once

#include <vector>

#include "colour/lab.h"

namespace tonemend {

/// A smooth reflectance that has a given colour. K/S is an exponential of a quadratic in the wavelength, as
/// wood's and most stains' nearly is: three numbers, which the colour decides.
class EstimatedReflectance {
  public:
    /// For `lab` under D50. What such a curve cannot reach, for colours that no stained wood has, is kept as
    /// a difference in CIELAB and given back by lab_after. Throws InputError when the CIE's tables are
    /// missing (see read_observer_1931).
    explicit EstimatedReflectance(const Lab& lab);

    /// 400 to 700 nm every 10 nm.
    static constexpr std::size_t count = 31;
    static constexpr double wavelength(std::size_t index) { return 400 + 10 * static_cast<double>(index); }

    /// CIELAB under D50 after `change(reflectance, nm)` at each wavelength.
    template <typename Change>
    Lab lab_after(Change change) const {
        std::vector<double> changed(count);
        for (std::size_t i = 0; i < count; ++i) changed[i] = change(values_[i], wavelength(i));
        return lab_of(changed);
    }

  private:
    Lab lab_of(const std::vector<double>& reflectance) const;

    std::vector<double> values_;
    Lab missed_;  // what the curve falls short by
};

}  // namespace tonemend
