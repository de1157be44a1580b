#pragma once

#include <vector>

namespace tonemend {

/// Values on an even grid of wavelengths: value i stands at start_nm + i·step_nm. n values span n−1
/// intervals.
struct Spectrum {
    double start_nm = 0;
    double step_nm = 0;
    std::vector<double> values;

    bool empty() const { return values.empty(); }
    double end_nm() const;
    /// Linear interpolation; outside the grid the end values hold (CIE 15:2018, 7.2.3).
    double at(double nm) const;
};

/// The same spectrum on another grid, both ends included: Sprague's fifth-order interpolation (CIE 167:2005)
/// for six values or more, else linear; end values held outside. Given values are kept exactly, and a quartic
/// too from the third value to the last but two; beside the ends only a straight line is. May overshoot
/// beside spikes.
Spectrum resample(const Spectrum& spectrum, double start_nm, double end_nm, double step_nm);

}  // namespace tonemend
