#include "calibrate/card/card.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "calibrate/card/card_spectra.h"
#include "calibrate/card/cgats.h"
#include "picture/input_error.h"

namespace tonemend {
namespace {

/// Which columns give a patch's colour.
enum class ColourColumns { lab, xyz, reflectance };

[[noreturn]] void refuse(const CgatsTable& table, std::size_t row, const std::string& what) {
    throw InputError(fmt::format("{}: {} {}", table.source, table.row_name(row), what));
}

std::array<double, 3> three_numbers(const CgatsTable& table, std::size_t row,
                                    const std::array<const char*, 3>& names) {
    std::array<double, 3> values{};
    for (std::size_t i = 0; i < 3; ++i) values[i] = table.number(row, table.column(names[i]));
    return values;
}

ColourColumns choose_columns(const CgatsTable& table) {
    const auto has = [&](const char* name) { return table.find_column(name).has_value(); };
    if (has("LAB_L") || has("LAB_A") || has("LAB_B")) return ColourColumns::lab;
    if (has("XYZ_X") || has("XYZ_Y") || has("XYZ_Z")) return ColourColumns::xyz;
    if (has("REFLECTANCE")) return ColourColumns::reflectance;
    throw InputError(
        fmt::format("{}: no column says what colour a patch is; add LAB_L LAB_A LAB_B, or XYZ_X XYZ_Y XYZ_Z, "
                    "or REFLECTANCE",
                    table.source));
}

Lab read_lab(const CgatsTable& table, std::size_t row) {
    const auto [L, a, b] = three_numbers(table, row, {"LAB_L", "LAB_A", "LAB_B"});
    if (L < 0 || L > 100) refuse(table, row, fmt::format("has LAB_L {:g}; L* lies between 0 and 100", L));
    constexpr double most = 150;  // beyond any surface colour
    for (const double value : {a, b})
        if (std::abs(value) > most)
            refuse(table, row,
                   fmt::format("has an a* or b* of {:g}; those of a surface lie within ±{:g}", value, most));
    return {L, a, b};
}

Lab read_xyz(const CgatsTable& table, std::size_t row) {
    const auto values = three_numbers(table, row, {"XYZ_X", "XYZ_Y", "XYZ_Z"});
    constexpr double most = 100;
    for (const double value : values)
        if (value < 0 || value > most)
            refuse(table, row,
                   fmt::format("has {:g} among its XYZ; give XYZ under D50 on the scale 0 to 100", value));
    return to_lab({values[0] / 100, values[1] / 100, values[2] / 100}, d50_icc);
}

Lab read_reflectance(const CgatsTable& table, std::size_t row) {
    const double reflectance = table.number(row, table.column("REFLECTANCE"));
    if (reflectance < 0 || reflectance > 1)
        refuse(table, row,
               fmt::format("has REFLECTANCE {:g}; give it on the scale 0 to 1 (18 % is 0.18)", reflectance));
    const XYZ neutral{d50_icc.X * reflectance, d50_icc.Y * reflectance, d50_icc.Z * reflectance};
    return to_lab(neutral, d50_icc);
}

Lab read_colour(const CgatsTable& table, std::size_t row, ColourColumns columns) {
    switch (columns) {
        case ColourColumns::lab:
            return read_lab(table, row);
        case ColourColumns::xyz:
            return read_xyz(table, row);
        case ColourColumns::reflectance:
            break;
    }
    return read_reflectance(table, row);
}

void read_rectangle(const CgatsTable& table, std::size_t row, Patch& patch) {
    const auto read = [&](const char* name) { return table.number(row, table.column(name)); };
    patch.x0 = read("X0"), patch.y0 = read("Y0"), patch.x1 = read("X1"), patch.y1 = read("Y1");
    for (const double edge : {patch.x0, patch.y0, patch.x1, patch.y1})
        if (edge < 0 || edge > 1)
            refuse(table, row,
                   fmt::format("reaches to {:g}, off the card; X0 Y0 X1 Y1 are shares of the card's sides, "
                               "0 to 1 from its top-left corner",
                               edge));
    if (!(patch.x1 > patch.x0 && patch.y1 > patch.y0))
        refuse(table, row, "has an empty rectangle; X1 must be greater than X0, and Y1 than Y0");
}

bool overlap(const Patch& a, const Patch& b) {
    constexpr double touching = 1e-6;  // patches may share an edge
    return std::min(a.x1, b.x1) - std::max(a.x0, b.x0) > touching &&
           std::min(a.y1, b.y1) - std::max(a.y0, b.y0) > touching;
}

void check_patches(const CgatsTable& table, const std::vector<Patch>& patches) {
    for (std::size_t i = 0; i < patches.size(); ++i)
        for (std::size_t k = 0; k < i; ++k) {
            if (patches[i].name == patches[k].name)
                refuse(table, i, "is there twice; give every patch its own SAMPLE_NAME");
            if (overlap(patches[i], patches[k]))
                refuse(table, i,
                       fmt::format("overlaps {}; correct X0 Y0 X1 Y1 of one of them", table.row_name(k)));
        }
    if (std::none_of(patches.begin(), patches.end(), [](const Patch& patch) { return patch.neutral(); }))
        throw InputError(fmt::format(
            "{}: no patch is neutral (a* and b* both within ±2); a card needs a grey or white patch",
            table.source));
}

/// XYZ on the scale 0 to 1 would pass for a card of blacks.
void check_xyz_scale(const CgatsTable& table, const std::vector<Patch>& patches) {
    constexpr double lightest_black = 9;  // L* of Y = 1 on the scale 0 to 100
    if (std::all_of(patches.begin(), patches.end(),
                    [](const Patch& patch) { return patch.lab.L < lightest_black; }))
        throw InputError(fmt::format(
            "{}: no XYZ_Y is above 1; give XYZ on the scale 0 to 100 (the perfect diffuser has Y = 100)",
            table.source));
}

std::size_t name_column(const CgatsTable& table) {
    if (const auto id = table.find_column("SAMPLE_ID"); id && !table.find_column("SAMPLE_NAME")) return *id;
    return table.column("SAMPLE_NAME");
}

}  // namespace

bool Patch::neutral() const {
    constexpr double most = 2;
    return std::abs(lab.a) <= most && std::abs(lab.b) <= most;
}

Card read_card(const std::filesystem::path& path) {
    const CgatsTable table = read_cgats(path);
    const std::size_t names = name_column(table);
    const ColourColumns columns = choose_columns(table);
    const SpectralColumns spectral = find_spectral_columns(table);

    Card card;
    card.name = path.stem().string();
    constexpr std::size_t most_patches = 2000;
    if (table.rows.size() > most_patches)
        throw InputError(fmt::format("{}: {} patches are more than a card holds ({})", table.source,
                                     table.rows.size(), most_patches));
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        Patch patch;
        patch.name = table.rows[row][names];
        read_rectangle(table, row, patch);
        patch.lab = read_colour(table, row, columns);
        patch.reflectance = read_spectrum(table, row, spectral);
        card.patches.push_back(std::move(patch));
    }
    if (columns == ColourColumns::xyz) check_xyz_scale(table, card.patches);
    check_patches(table, card.patches);
    return card;
}

}  // namespace tonemend
