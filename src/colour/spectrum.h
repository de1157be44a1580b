#pragma once

#include <vector>

namespace tonemend {

/// Values on an even grid of wavelengths: value i stands at start_nm + i·step_nm. n values span n−1 intervals.
struct Spectrum {
    double start_nm = 0;
    double step_nm = 0;
    std::vector<double> values;

    bool empty() const { return values.empty(); }
    double end_nm() const;
    /// Linear interpolation; outside the grid the end values hold (CIE 15:2018, 7.2.3).
    double at(double nm) const;
};

/// The same spectrum on another grid: Sprague's fifth-order interpolation for even grids of at least six values
/// (CIE 167:2005), end values held outside.
Spectrum resample(const Spectrum& spectrum, double start_nm, double end_nm, double step_nm);

}  // namespace tonemend
