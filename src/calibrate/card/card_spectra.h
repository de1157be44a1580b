#pragma once

#include <cstddef>
#include <vector>

#include "calibrate/card/cgats.h"
#include "colour/spectrum.h"

namespace tonemend {

/// The columns SPECTRAL_NM_380 … of a table, from short wavelengths to long.
struct SpectralColumns {
    double start_nm = 0;
    double step_nm = 0;
    std::vector<std::size_t> columns;  ///< empty when the table has none
};

/// Throws InputError when there is only one, or when the wavelengths are not evenly spaced.
SpectralColumns find_spectral_columns(const CgatsTable& table);

/// A row's reflectance, 0..1; empty when there are no columns for it. Throws InputError for a value that is
/// negative, or so far above 1 that it must be a percentage.
Spectrum read_spectrum(const CgatsTable& table, std::size_t row, const SpectralColumns& spectral);

}  // namespace tonemend
