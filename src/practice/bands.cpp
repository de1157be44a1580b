#include "practice/bands.h"

namespace tonemend {

Bands sample_bands(const Spectrum& spectrum) {
    return make_bands([&](double nm) { return spectrum.at(nm); });
}

Spectrum to_spectrum(const Bands& bands) {
    return {first_band_nm, band_step_nm, {bands.begin(), bands.end()}};
}

double inner_product(const Bands& left, const Bands& right) {
    double sum = 0;
    for (std::size_t i = 0; i < band_count; ++i) sum += left[i] * right[i];
    return sum;
}

}  // namespace tonemend
