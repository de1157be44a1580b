#include "calibrate/card/card_spectra.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "picture/input_error.h"

namespace tonemend {
namespace {

std::optional<double> wavelength_of(std::string_view column) {
    constexpr std::string_view prefix = "SPECTRAL_NM_";
    if (!column.starts_with(prefix)) return std::nullopt;
    column.remove_prefix(prefix.size());
    double nm = 0;
    const auto result = std::from_chars(column.data(), column.data() + column.size(), nm);
    const bool whole = result.ec == std::errc{} && result.ptr == column.data() + column.size();
    return whole && nm >= 200 && nm <= 2500 ? std::optional(nm) : std::nullopt;
}

}  // namespace

SpectralColumns find_spectral_columns(const CgatsTable& table) {
    std::vector<std::pair<double, std::size_t>> found;
    for (std::size_t i = 0; i < table.columns.size(); ++i)
        if (const auto nm = wavelength_of(table.columns[i])) found.emplace_back(*nm, i);
    std::sort(found.begin(), found.end());

    SpectralColumns spectral;
    if (found.empty()) return spectral;
    if (found.size() == 1)
        throw InputError(fmt::format(
            "{}: a single SPECTRAL_NM_ column is no spectrum; give at least two, or none", table.source));
    spectral.start_nm = found.front().first;
    spectral.step_nm = (found.back().first - spectral.start_nm) / static_cast<double>(found.size() - 1);
    for (std::size_t i = 0; i < found.size(); ++i) {
        const double expected = spectral.start_nm + spectral.step_nm * static_cast<double>(i);
        if (!(spectral.step_nm > 0) || std::abs(found[i].first - expected) > 1e-6)
            throw InputError(
                fmt::format("{}: the SPECTRAL_NM_ columns are not evenly spaced at {:g} nm; give every "
                            "wavelength of an even grid once",
                            table.source, found[i].first));
        spectral.columns.push_back(found[i].second);
    }
    return spectral;
}

Spectrum read_spectrum(const CgatsTable& table, std::size_t row, const SpectralColumns& spectral) {
    Spectrum spectrum{spectral.start_nm, spectral.step_nm, {}};
    constexpr double most = 1.2;  // brightened papers and the error of an instrument
    for (const std::size_t column : spectral.columns) {
        const double value = table.number(row, column);
        if (value < 0 || value > most)
            throw InputError(fmt::format("{}: {} has {:g} for {}; give reflectance on the scale 0 to 1",
                                         table.source, table.row_name(row), value, table.columns[column]));
        spectrum.values.push_back(value);
    }
    return spectrum;
}

}  // namespace tonemend
