#include "calibrate/keep/input_profile_table.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <new>

namespace tonemend {
namespace {

constexpr cmsUInt32Number nodes = 33;
// XYZ of a profile's numbers 0..1 (ICC.1:2022, 6.3.4.2).
constexpr double full_xyz = 1 + 32767.0 / 32768;

// From the lattice's coordinates to XYZ.
using NodeColour = std::function<XYZ(const Vector3&)>;

cmsUInt16Number to_sixteen(double value) {
    return static_cast<cmsUInt16Number>(std::lround(65535 * std::clamp(value, 0.0, 1.0)));
}

// The lattice holds cube roots, between which XYZ is straighter.
cmsInt32Number sample_node(const cmsUInt16Number in[], cmsUInt16Number out[], void* cargo) {
    const auto& colour = *static_cast<const NodeColour*>(cargo);
    const XYZ xyz = colour({in[0] / 65535.0, in[1] / 65535.0, in[2] / 65535.0});
    out[0] = to_sixteen(std::cbrt(std::max(0.0, xyz.X / full_xyz)));
    out[1] = to_sixteen(std::cbrt(std::max(0.0, xyz.Y / full_xyz)));
    out[2] = to_sixteen(std::cbrt(std::max(0.0, xyz.Z / full_xyz)));
    return 1;
}

void add_stage(const LcmsPipeline& pipeline, cmsStage* stage) {
    if (stage == nullptr || !cmsPipelineInsertStage(pipeline.get(), cmsAT_END, stage)) throw std::bad_alloc();
}

void add_curves(const LcmsPipeline& pipeline, cmsContext context, const std::array<LcmsCurve, 3>& curves) {
    const std::array<cmsToneCurve*, 3> plain{curves[0].get(), curves[1].get(), curves[2].get()};
    add_stage(pipeline, cmsStageAllocToneCurves(context, 3, plain.data()));
}

std::array<LcmsCurve, 3> powers(cmsContext context, double exponent) {
    return {LcmsCurve(cmsBuildGamma(context, exponent)), LcmsCurve(cmsBuildGamma(context, exponent)),
            LcmsCurve(cmsBuildGamma(context, exponent))};
}

// Codes to the cube root of their light, as a share of the brightest.
std::array<LcmsCurve, 3> even_curves(cmsContext context, const std::array<std::vector<double>, 3>& light,
                                     double scale) {
    std::array<LcmsCurve, 3> curves;
    for (std::size_t c = 0; c < 3; ++c) {
        std::vector<cmsUInt16Number> table;
        for (const double value : light[c]) table.push_back(to_sixteen(std::cbrt(value / scale)));
        curves[c].reset(
            cmsBuildTabulatedToneCurve16(context, static_cast<cmsUInt32Number>(table.size()), table.data()));
    }
    return curves;
}

Vector3 decode_codes(const Frame& frame, const Calibration& calibration, const Vector3& codes) {
    std::array<float, 3> rgb{static_cast<float>(codes[0]), static_cast<float>(codes[1]),
                             static_cast<float>(codes[2])};
    frame.encoding.decoding->decode(rgb.data(), rgb.data(), 1);
    Vector3 light{};
    for (std::size_t c = 0; c < 3; ++c) light[c] = calibration.curves[c](static_cast<double>(rgb[c]));
    return light;
}

}  // namespace

void write_colour_table(const LcmsInstance& lcms, cmsHPROFILE profile, const Frame& frame,
                        const Calibration& calibration, const std::array<std::vector<double>, 3>& light) {
    cmsContext context = lcms.context();
    const LcmsPipeline table(cmsPipelineAlloc(context, 3, 3));
    if (!table) throw std::bad_alloc();
    const double scale = std::max({light[0].back(), light[1].back(), light[2].back()});
    const ColourModel& model = calibration.characterisation.model;
    NodeColour colour;
    if (frame.encoding.decoding->separable()) {
        add_curves(table, context, even_curves(context, light, scale));
        colour = [&model, scale](const Vector3& at) {
            const auto cube = [scale](double root) { return scale * root * root * root; };
            return model.to_xyz({cube(at[0]), cube(at[1]), cube(at[2])});
        };
    } else {
        add_curves(table, context, powers(context, 1));
        colour = [&](const Vector3& at) { return model.to_xyz(decode_codes(frame, calibration, at)); };
    }
    cmsStage* lattice = cmsStageAllocCLut16bit(context, nodes, 3, 3, nullptr);
    add_stage(table, lattice);
    cmsStageSampleCLut16bit(lattice, sample_node, &colour, 0);
    add_curves(table, context, powers(context, 3));
    constexpr std::array<cmsFloat64Number, 9> identity{1, 0, 0, 0, 1, 0, 0, 0, 1};
    constexpr std::array<cmsFloat64Number, 3> nothing{0, 0, 0};
    add_stage(table, cmsStageAllocMatrix(context, 3, 3, identity.data(), nothing.data()));
    add_curves(table, context, powers(context, 1));
    cmsWriteTag(profile, cmsSigAToB0Tag, table.get());
}

}  // namespace tonemend
