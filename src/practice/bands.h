#pragma once

#include <array>
#include <cstddef>

#include "colour/spectrum.h"

namespace tonemend {

/// The practice bench's one grid of wavelengths, for reflectances, lamps, observer and camera alike: 380 to
/// 780 nm every 5 nm. One grid for all of them, so that eye and camera see exactly the same world.
inline constexpr double first_band_nm = 380;
inline constexpr double band_step_nm = 5;
inline constexpr std::size_t band_count = 81;

using Bands = std::array<double, band_count>;

/// Wavelength of band `index` in nm.
constexpr double band_nm(std::size_t index) {
    return first_band_nm + band_step_nm * static_cast<double>(index);
}

/// `function(wavelength in nm)` at each band.
template <typename Function>
Bands make_bands(Function function) {
    Bands bands{};
    for (std::size_t i = 0; i < band_count; ++i) bands[i] = function(band_nm(i));
    return bands;
}

/// A spectrum on the bench's grid: exact where the grids share a wavelength, linear between.
Bands sample_bands(const Spectrum& spectrum);
/// The bands as a spectrum of 81 values.
Spectrum to_spectrum(const Bands& bands);
/// Sum over the bands of the product of two spectra (no width: every use is a ratio).
double inner_product(const Bands& left, const Bands& right);

}  // namespace tonemend
