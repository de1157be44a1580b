#include "live/display_profile.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "picture/file_bytes.h"
#include "picture/lcms_instance.h"
#include "picture/srgb_profile.h"
#include "picture/still.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

constexpr const char* cure = "choose the profile that belongs to this display, or none to show colours as sRGB";
constexpr std::size_t nodes_for_curves = 33;
constexpr std::size_t nodes_for_tables = 65;  // a profile's own tables bend between its nodes

struct FreeTransform {
    void operator()(void* transform) const { cmsDeleteTransform(transform); }
};
using Transform = std::unique_ptr<void, FreeTransform>;

/// The two ways across one profile.
struct Crossing {
    Transform to_codes;  // XYZ → R, G, B
    Transform to_xyz;

    Vector3 codes(const XYZ& xyz) const {
        const cmsCIEXYZ in{xyz.X, xyz.Y, xyz.Z};
        Vector3 out{};
        cmsDoTransform(to_codes.get(), &in, out.data(), 1);
        for (double& code : out) code = std::isfinite(code) ? std::clamp(code, 0.0, 1.0) : 0.0;
        return out;
    }
    Vector3 xyz(const Vector3& codes) const {
        cmsCIEXYZ out{};
        cmsDoTransform(to_xyz.get(), codes.data(), &out, 1);
        return {out.X, out.Y, out.Z};
    }
};

Crossing open_crossing(const LcmsInstance& lcms, cmsHPROFILE profile, const std::string& name) {
    const LcmsProfile xyz(cmsCreateXYZProfileTHR(lcms.context()));
    constexpr cmsUInt32Number exactly = cmsFLAGS_NOCACHE | cmsFLAGS_NOOPTIMIZE;
    Crossing crossing;
    if (xyz) {
        crossing.to_codes.reset(cmsCreateTransformTHR(lcms.context(), xyz.get(), TYPE_XYZ_DBL, profile, TYPE_RGB_DBL,
                                                      INTENT_RELATIVE_COLORIMETRIC, exactly));
        crossing.to_xyz.reset(cmsCreateTransformTHR(lcms.context(), profile, TYPE_RGB_DBL, xyz.get(), TYPE_XYZ_DBL,
                                                    INTENT_RELATIVE_COLORIMETRIC, exactly));
    }
    if (!crossing.to_codes || !crossing.to_xyz)
        refuse(name, fmt::format("cannot encode colours for a display ({})", lcms.error()), cure);
    return crossing;
}

/// Where on the display's linear scale, as its cube root, each of `side` evenly spaced codes of channel c lies.
std::vector<double> roots_of_codes(const std::vector<float>& shaper, std::size_t c, std::size_t side) {
    std::vector<double> roots(side);
    std::size_t i = 0;
    const auto entry = [&](std::size_t at) { return static_cast<double>(shaper[3 * at + c]); };
    for (std::size_t node = 0; node < side; ++node) {
        const double code = static_cast<double>(node) / static_cast<double>(side - 1);
        while (i + 2 < DisplayTable::shaper_entries && entry(i + 1) < code) ++i;
        const double rise = entry(i + 1) - entry(i);
        const double share = rise > 0 ? std::clamp((code - entry(i)) / rise, 0.0, 1.0) : 0.0;
        roots[node] = (static_cast<double>(i) + share) / static_cast<double>(DisplayTable::shaper_entries - 1);
    }
    return roots;
}

XYZ light_of(const Matrix3& to_xyz, const XYZ& black, const Vector3& roots) {
    const Vector3 v = to_xyz * Vector3{std::pow(roots[0], 3), std::pow(roots[1], 3), std::pow(roots[2], 3)};
    return {v[0] + black.X, v[1] + black.Y, v[2] + black.Z};
}

void fill_shaper(DisplayTable& table, const Matrix3& to_xyz, const Crossing& crossing) {
    table.shaper.resize(3 * DisplayTable::shaper_entries);
    for (std::size_t i = 0; i < DisplayTable::shaper_entries; ++i) {
        const double root = static_cast<double>(i) / static_cast<double>(DisplayTable::shaper_entries - 1);
        const Vector3 codes = crossing.codes(light_of(to_xyz, table.black, {root, root, root}));
        for (std::size_t c = 0; c < 3; ++c) {
            const float before = i > 0 ? table.shaper[3 * (i - 1) + c] : 0.0F;
            table.shaper[3 * i + c] = std::max(before, static_cast<float>(codes[c]));
        }
    }
}

void fill_nodes(DisplayTable& table, const Matrix3& to_xyz, const Crossing& crossing) {
    std::array<std::vector<double>, 3> roots;
    for (std::size_t c = 0; c < 3; ++c) roots[c] = roots_of_codes(table.shaper, c, table.side);
    table.nodes.reserve(3 * table.side * table.side * table.side);
    for (std::size_t b = 0; b < table.side; ++b)
        for (std::size_t g = 0; g < table.side; ++g)
            for (std::size_t r = 0; r < table.side; ++r)
                for (const double code :
                     crossing.codes(light_of(to_xyz, table.black, {roots[0][r], roots[1][g], roots[2][b]})))
                    table.nodes.push_back(static_cast<float>(code));
}

}  // namespace

DisplayTable make_display_table(std::span<const std::uint8_t> bytes, const std::string& name) {
    const LcmsInstance lcms;
    const LcmsProfile profile = lcms.open(bytes);
    if (!profile) refuse(name, "is no ICC profile, or a damaged one", cure);
    if (cmsGetColorSpace(profile.get()) != cmsSigRgbData) refuse(name, "is an ICC profile, but not of an RGB display", cure);
    const Crossing crossing = open_crossing(lcms, profile.get(), name);

    DisplayTable table;
    const Vector3 black = crossing.xyz({0, 0, 0});
    table.black = {black[0], black[1], black[2]};
    Matrix3 to_xyz;
    for (std::size_t c = 0; c < 3; ++c) {
        Vector3 codes{};
        codes[c] = 1;
        const Vector3 primary = crossing.xyz(codes);
        for (std::size_t row = 0; row < 3; ++row) to_xyz.m[row][c] = primary[row] - black[row];
    }
    // Written so that a determinant that is not a number is refused too.
    if (!(std::abs(determinant(to_xyz)) > 1e-6)) refuse(name, "is an ICC profile whose colorants are in line", cure);
    table.from_xyz = inverse(to_xyz);
    table.side = cmsIsMatrixShaper(profile.get()) ? nodes_for_curves : nodes_for_tables;
    fill_shaper(table, to_xyz, crossing);
    fill_nodes(table, to_xyz, crossing);
    return table;
}

DisplayTable make_srgb_display_table() {
    return make_display_table(srgb_profile(), "sRGB");
}

DisplayTable read_display_profile(const std::filesystem::path& path) {
    const FileBytes file = read_file_bytes(path);
    return make_display_table({reinterpret_cast<const std::uint8_t*>(file.data.get()), file.size},
                              one_line(path.string(), 400));
}

}  // namespace tonemend
