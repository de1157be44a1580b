#include "live/display_profile.h"

#include <fmt/format.h>
#include <lcms2_plugin.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <string_view>

#include "colour/lab.h"
#include "picture/file_bytes.h"
#include "picture/lcms_instance.h"
#include "picture/srgb_profile.h"
#include "picture/still.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

constexpr const char* cure =
    "choose the profile that belongs to this display, or none to show colours as sRGB";

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
        crossing.to_codes.reset(cmsCreateTransformTHR(lcms.context(), xyz.get(), TYPE_XYZ_DBL, profile,
                                                      TYPE_RGB_DBL, INTENT_RELATIVE_COLORIMETRIC, exactly));
        crossing.to_xyz.reset(cmsCreateTransformTHR(lcms.context(), profile, TYPE_RGB_DBL, xyz.get(),
                                                    TYPE_XYZ_DBL, INTENT_RELATIVE_COLORIMETRIC, exactly));
    }
    if (!crossing.to_codes || !crossing.to_xyz)
        refuse(name, fmt::format("cannot encode colours for a display ({})", lcms.error()), cure);
    return crossing;
}

/// The addresses, of number c, whose places in the table are evenly spaced: the curve backwards.
std::vector<double> addresses_of_nodes(const DisplayTable& table, std::size_t c) {
    const auto entry = [&](std::size_t at) { return static_cast<double>(table.shaper[3 * at + c]); };
    std::vector<double> addresses(table.side);
    std::size_t i = 0;
    for (std::size_t node = 0; node < table.side; ++node) {
        const double place = static_cast<double>(node) / static_cast<double>(table.side - 1);
        while (i + 2 < DisplayTable::shaper_entries && entry(i + 1) < place) ++i;
        const double rise = entry(i + 1) - entry(i);
        const double share = rise > 0 ? std::clamp((place - entry(i)) / rise, 0.0, 1.0) : 0.0;
        addresses[node] =
            (static_cast<double>(i) + share) / static_cast<double>(DisplayTable::shaper_entries - 1);
    }
    return addresses;
}

/// Fills the curves from `curve(address)`, which gives three places; where one falls the place before is
/// kept.
template <typename Curve>
void fill_shaper(DisplayTable& table, Curve curve) {
    table.shaper.resize(3 * DisplayTable::shaper_entries);
    for (std::size_t i = 0; i < DisplayTable::shaper_entries; ++i) {
        const Vector3 places =
            curve(static_cast<double>(i) / static_cast<double>(DisplayTable::shaper_entries - 1));
        for (std::size_t c = 0; c < 3; ++c) {
            const float before = i > 0 ? table.shaper[3 * (i - 1) + c] : 0.0F;
            table.shaper[3 * i + c] = std::max(before, static_cast<float>(places[c]));
        }
    }
}

/// Fills the nodes from the profile; `colour_at(address)` turns an address back into a colour.
template <typename ColourAt>
void fill_nodes(DisplayTable& table, const Crossing& crossing, ColourAt colour_at) {
    std::array<std::vector<double>, 3> at;
    for (std::size_t c = 0; c < 3; ++c) at[c] = addresses_of_nodes(table, c);
    table.nodes.reserve(3 * table.side * table.side * table.side);
    for (const double third : at[2])
        for (const double second : at[1])
            for (const double first : at[0])
                for (const double code : crossing.codes(colour_at(Vector3{first, second, third})))
                    table.nodes.push_back(static_cast<float>(code));
}

DisplayTable table_of_curves(const Crossing& crossing, const std::string& name) {
    DisplayTable table;
    table.address = DisplayAddress::linear_root;
    table.side = 33;
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
    if (!(std::abs(determinant(to_xyz)) > 1e-6))
        refuse(name, "is an ICC profile whose colorants are in line", cure);
    table.from_xyz = inverse(to_xyz);
    const auto colour_at = [&](const Vector3& roots) {
        const Vector3 v =
            to_xyz * Vector3{std::pow(roots[0], 4), std::pow(roots[1], 4), std::pow(roots[2], 4)};
        return XYZ{v[0] + black[0], v[1] + black[1], v[2] + black[2]};
    };
    // Along the greys every channel's curve shows.
    fill_shaper(table, [&](double root) { return crossing.codes(colour_at({root, root, root})); });
    fill_nodes(table, crossing, colour_at);
    return table;
}

/// The tag of the profile's own table from CIELAB for media-relative colours, if it has one and Little CMS
/// would take it.
std::optional<cmsTagSignature> lab_table_tag(cmsHPROFILE profile) {
    if (cmsGetPCS(profile) != cmsSigLabData || cmsIsTag(profile, cmsSigBToD1Tag) ||
        cmsIsTag(profile, cmsSigBToD0Tag))
        return std::nullopt;
    for (const cmsTagSignature tag : {cmsSigBToA1Tag, cmsSigBToA0Tag})
        if (cmsIsTag(profile, tag)) return tag;
    return std::nullopt;
}

/// The curves in front of the profile's table; the straight line when there are none.
Vector3 through_first_curves(const cmsPipeline* pipeline, double address) {
    const cmsStage* first = cmsPipelineGetPtrToFirstStage(pipeline);
    Vector3 places{address, address, address};
    if (!first || cmsStageType(first) != cmsSigCurveSetElemType) return places;
    const auto* curves = static_cast<const _cmsStageToneCurvesData*>(cmsStageData(first));
    for (std::size_t c = 0; c < 3 && c < curves->nCurves; ++c)
        places[c] =
            static_cast<double>(cmsEvalToneCurveFloat(curves->TheCurves[c], static_cast<float>(address)));
    return places;
}

/// Nodes a side so that the table's fall upon those of the profile's lattice.
std::size_t side_over_lattice(const cmsPipeline* pipeline) {
    constexpr unsigned intervals = 64;
    for (const cmsStage* stage = cmsPipelineGetPtrToFirstStage(pipeline); stage;
         stage = cmsStageNext(stage)) {
        if (cmsStageType(stage) != cmsSigCLutElemType) continue;
        const unsigned theirs =
            static_cast<const _cmsStageCLutData*>(cmsStageData(stage))->Params->nSamples[0] - 1;
        if (theirs > 0) return theirs * std::max(1U, intervals / theirs) + 1;
    }
    return intervals + 1;
}

DisplayTable table_over_lab(const Crossing& crossing, cmsHPROFILE profile, cmsTagSignature tag,
                            const cmsPipeline* pipeline) {
    DisplayTable table;
    table.address = DisplayAddress::lab;
    table.side = side_over_lattice(pipeline);
    table.lab_offset = {0, 128, 128};
    std::array<char, 4> type{};
    cmsReadRawTag(profile, tag, type.data(), type.size());
    // lut16Type keeps the encoding of version 2 (ICC.1:2022, 10.10): 100 is FF00h, one unit of a* and b*
    // 0100h.
    table.lab_scale = std::string_view(type.data(), 4) == "mft2"
                          ? Vector3{65280.0 / 65535 / 100, 256.0 / 65535, 256.0 / 65535}
                          : Vector3{1.0 / 100, 1.0 / 255, 1.0 / 255};
    fill_shaper(table, [&](double address) { return through_first_curves(pipeline, address); });
    fill_nodes(table, crossing, [&](const Vector3& address) {
        return to_xyz({address[0] / table.lab_scale[0], address[1] / table.lab_scale[1] - 128,
                       address[2] / table.lab_scale[2] - 128},
                      d50_icc);
    });
    return table;
}

}  // namespace

DisplayTable make_display_table(std::span<const std::uint8_t> bytes, const std::string& name) {
    const LcmsInstance lcms;
    const LcmsProfile profile = lcms.open(bytes);
    if (!profile) refuse(name, "is no ICC profile, or a damaged one", cure);
    if (cmsGetColorSpace(profile.get()) != cmsSigRgbData)
        refuse(name, "is an ICC profile, but not of an RGB display", cure);
    const Crossing crossing = open_crossing(lcms, profile.get(), name);

    if (const auto tag = lab_table_tag(profile.get())) {
        const auto* pipeline = static_cast<const cmsPipeline*>(cmsReadTag(profile.get(), *tag));
        if (!pipeline) refuse(name, fmt::format("is a damaged ICC profile ({})", lcms.error()), cure);
        return table_over_lab(crossing, profile.get(), *tag, pipeline);
    }
    return table_of_curves(crossing, name);
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
