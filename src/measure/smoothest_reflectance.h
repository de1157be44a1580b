#pragma once

#include <vector>

#include "colour/lab.h"

namespace tonemend {

/// The smoothest reflectance between 0 and 1 that has a given colour: of all curves (tanh z + 1)/2 that have
/// it, the one whose z changes least from wavelength to wavelength. Source: S. A. Burns, "Numerical methods
/// for smoothest reflectance reconstruction", Color Research & Application 45 (2020), the least slope squared
/// of the hyperbolic tangent; Newton's method on the Lagrangian.
class SmoothestReflectance {
  public:
    /// For `lab` under D50. Colours that no surface has are brought to the nearest L* and chroma that one
    /// has; what is then missing is kept as a difference in CIELAB and given back by lab_after. Throws
    /// InputError when the CIE's tables are missing (see read_observer_1931).
    explicit SmoothestReflectance(const Lab& lab);

    /// 380 to 730 nm every 10 nm.
    static constexpr std::size_t count = 36;
    static constexpr double wavelength(std::size_t index) { return 380 + 10 * static_cast<double>(index); }
    /// Each over 0 and under 1.
    const std::vector<double>& values() const { return values_; }

    /// What the curve itself falls short by, CIELAB; 0 to a millionth for colours that a surface can have.
    const Lab& missed() const { return missed_; }

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
