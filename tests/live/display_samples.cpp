#include "tests/live/display_samples.h"

#include <lcms2.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>
#include <iterator>
#include <stdexcept>

#include "colour/lch.h"
#include "colour/rgb_space.h"
#include "colour/srgb_curve.h"

namespace tonemend::testing {
namespace {

// The invented display's linear RGB for codes, before its colorants; every channel takes 4 % of the next
// one's code.
std::array<double, 3> linear_of(const std::array<double, 3>& code) {
    std::array<double, 3> linear{};
    for (std::size_t c = 0; c < 3; ++c) {
        const double leaked = 0.96 * code[c] + 0.04 * code[(c + 1) % 3];
        linear[c] = 0.002 + 0.998 * std::pow(leaked, 2.3);
    }
    return linear;
}

std::array<double, 3> codes_for(const std::array<double, 3>& linear) {
    std::array<double, 3> leaked{}, code{};
    for (std::size_t c = 0; c < 3; ++c)
        leaked[c] = std::pow(std::clamp((linear[c] - 0.002) / 0.998, 0.0, 1.0), 1 / 2.3);
    code = leaked;
    for (int i = 0; i < 30; ++i) {
        const std::array<double, 3> before = code;
        for (std::size_t c = 0; c < 3; ++c) code[c] = (leaked[c] - 0.04 * before[(c + 1) % 3]) / 0.96;
    }
    for (double& c : code) c = std::clamp(c, 0.0, 1.0);
    return code;
}

std::uint16_t to16(double value) {
    return static_cast<std::uint16_t>(std::lround(std::clamp(value, 0.0, 1.0) * 65535));
}

// ICC.1:2022, 10.10 and 6.3.4.2: 100 is FF00h in lut16Type and FFFFh elsewhere; 0 of a* and b* is 8000h and
// 8080h.
double lightness_top(const TableFlavour& flavour) {
    return flavour.version < 4 ? 65280 : 65535;
}
double chroma_unit(const TableFlavour& flavour) {
    return flavour.version < 4 ? 256 : 257;
}

cmsInt32Number sample_forward(const cmsUInt16Number in[], cmsUInt16Number out[], void* cargo) {
    const auto& flavour = *static_cast<const TableFlavour*>(cargo);
    const auto linear = linear_of({in[0] / 65535.0, in[1] / 65535.0, in[2] / 65535.0});
    const Vector3 xyz = rgb_to_xyz_d50(display_p3) * Vector3{linear[0], linear[1], linear[2]};
    const Lab lab = to_lab({xyz[0], xyz[1], xyz[2]}, d50_icc);
    out[0] = to16(lab.L / 100 * lightness_top(flavour) / 65535);
    out[1] = to16((lab.a + 128) * chroma_unit(flavour) / 65535);
    out[2] = to16((lab.b + 128) * chroma_unit(flavour) / 65535);
    return 1;
}

cmsInt32Number sample_backward(const cmsUInt16Number in[], cmsUInt16Number out[], void* cargo) {
    const auto& flavour = *static_cast<const TableFlavour*>(cargo);
    const auto unbent = [&](cmsUInt16Number value) {
        return 65535 * std::pow(value / 65535.0, 1 / flavour.bend);
    };
    const Lab lab{unbent(in[0]) * 100 / lightness_top(flavour), unbent(in[1]) / chroma_unit(flavour) - 128,
                  unbent(in[2]) / chroma_unit(flavour) - 128};
    const XYZ xyz = to_xyz(lab, d50_icc);
    const Vector3 linear = inverse(rgb_to_xyz_d50(display_p3)) * Vector3{xyz.X, xyz.Y, xyz.Z};
    const auto code = codes_for({linear[0], linear[1], linear[2]});
    for (std::size_t c = 0; c < 3; ++c) out[c] = to16(code[c]);
    return 1;
}

void write_table(cmsHPROFILE profile, cmsTagSignature tag, cmsSAMPLER16 sampler, TableFlavour flavour,
                 double bend) {
    cmsPipeline* pipeline = cmsPipelineAlloc(nullptr, 3, 3);
    cmsStage* table = cmsStageAllocCLut16bit(nullptr, flavour.side, 3, 3, nullptr);
    cmsStageSampleCLut16bit(table, sampler, &flavour, 0);
    cmsToneCurve* curve = cmsBuildGamma(nullptr, bend);
    const std::array<cmsToneCurve*, 3> curves{curve, curve, curve};
    // The file format wants curves on either side.
    cmsPipelineInsertStage(pipeline, cmsAT_END, cmsStageAllocToneCurves(nullptr, 3, curves.data()));
    cmsPipelineInsertStage(pipeline, cmsAT_END, table);
    cmsPipelineInsertStage(pipeline, cmsAT_END, cmsStageAllocToneCurves(nullptr, 3, nullptr));
    cmsWriteTag(profile, tag, pipeline);
    cmsPipelineFree(pipeline);
    cmsFreeToneCurve(curve);
}

std::vector<XYZ> make_samples() {
    std::vector<XYZ> samples;
    const Matrix3 to_xyz_d50 = rgb_to_xyz_d50(srgb);
    for (int r = 0; r <= 17; ++r)
        for (int g = 0; g <= 17; ++g)
            for (int b = 0; b <= 17; ++b) {
                const Vector3 xyz =
                    to_xyz_d50 * Vector3{decode_srgb(r / 17.0), decode_srgb(g / 17.0), decode_srgb(b / 17.0)};
                samples.push_back({xyz[0], xyz[1], xyz[2]});
            }
    const Matrix3 from_xyz = inverse(to_xyz_d50);
    for (double L = 12; L <= 90; L += 1.7)
        for (double C = 2; C <= 60; C += 2.3)
            for (double h = 30; h <= 100; h += 2.9) {
                const XYZ xyz = to_xyz(to_lab(LCh{L, C, h}), d50_icc);
                const Vector3 rgb = from_xyz * Vector3{xyz.X, xyz.Y, xyz.Z};
                if (*std::ranges::min_element(rgb) >= 0 && *std::ranges::max_element(rgb) <= 1)
                    samples.push_back(xyz);
            }
    return samples;
}

}  // namespace

const std::vector<XYZ>& display_samples() {
    static const std::vector<XYZ> samples = make_samples();
    return samples;
}

std::vector<std::uint8_t> bytes_of(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

bool is_rgb_of_curves(const std::vector<std::uint8_t>& bytes) {
    cmsHPROFILE profile = cmsOpenProfileFromMem(bytes.data(), static_cast<cmsUInt32Number>(bytes.size()));
    if (!profile) return false;
    const bool fits = cmsGetColorSpace(profile) == cmsSigRgbData && cmsIsMatrixShaper(profile);
    cmsCloseProfile(profile);
    return fits;
}

std::vector<std::uint8_t> make_table_profile(const TableFlavour& flavour) {
    cmsHPROFILE profile = cmsCreateProfilePlaceholder(nullptr);
    cmsSetProfileVersion(profile, flavour.version);
    cmsSetDeviceClass(profile, cmsSigDisplayClass);
    cmsSetColorSpace(profile, cmsSigRgbData);
    cmsSetPCS(profile, cmsSigLabData);
    cmsWriteTag(profile, cmsSigMediaWhitePointTag, cmsD50_XYZ());
    write_table(profile, cmsSigAToB1Tag, sample_forward, flavour, 1);
    write_table(profile, cmsSigAToB0Tag, sample_forward, flavour, 1);
    write_table(profile, cmsSigBToA1Tag, sample_backward, flavour, flavour.bend);
    write_table(profile, cmsSigBToA0Tag, sample_backward, flavour, flavour.bend);
    cmsUInt32Number size = 0;
    cmsSaveProfileToMem(profile, nullptr, &size);
    std::vector<std::uint8_t> bytes(size);
    cmsSaveProfileToMem(profile, bytes.data(), &size);
    cmsCloseProfile(profile);
    return bytes;
}

LcmsDisplay::LcmsDisplay(const std::vector<std::uint8_t>& bytes) {
    cmsHPROFILE profile = cmsOpenProfileFromMem(bytes.data(), static_cast<cmsUInt32Number>(bytes.size()));
    cmsHPROFILE xyz = cmsCreateXYZProfile();
    transform_ = {cmsCreateTransform(xyz, TYPE_XYZ_DBL, profile, TYPE_RGB_DBL, INTENT_RELATIVE_COLORIMETRIC,
                                     cmsFLAGS_NOCACHE | cmsFLAGS_NOOPTIMIZE),
                  [](void* transform) {
                      if (transform) cmsDeleteTransform(transform);
                  }};
    cmsCloseProfile(profile);
    cmsCloseProfile(xyz);
    if (!transform_) throw std::runtime_error("Little CMS makes no transform");
}

Vector3 LcmsDisplay::encode(const XYZ& colour) const {
    const cmsCIEXYZ in{colour.X, colour.Y, colour.Z};
    Vector3 out{};
    cmsDoTransform(transform_.get(), &in, out.data(), 1);
    for (double& code : out) code = std::clamp(code, 0.0, 1.0);
    return out;
}

}  // namespace tonemend::testing
