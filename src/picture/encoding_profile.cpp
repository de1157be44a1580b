#include "picture/encoding_profile.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "colour/srgb_curve.h"
#include "picture/lcms_instance.h"

namespace tonemend {
namespace {

constexpr std::size_t steps = 4096;
using Samples = std::array<double, steps>;

double encoded_at(std::size_t step) {
    return static_cast<double>(step) / (steps - 1);
}

std::array<Samples, 3> sample_curves(const Decoding& decoding) {
    std::vector<float> grey(3 * steps);
    for (std::size_t i = 0; i < grey.size(); ++i) grey[i] = static_cast<float>(encoded_at(i / 3));
    decoding.decode(grey.data(), grey.data(), steps);
    std::array<Samples, 3> samples{};
    for (std::size_t i = 0; i < grey.size(); ++i) samples[i % 3][i / 3] = static_cast<double>(grey[i]);
    return samples;
}

template <typename Formula>
bool follows(const Samples& samples, Formula formula) {
    // As near as single precision brings the samples.
    constexpr double near = 1e-6;
    for (std::size_t i = 0; i < steps; ++i)
        if (std::abs(samples[i] - formula(encoded_at(i))) > near) return false;
    return true;
}

LcmsCurve curve_through(cmsContext context, const Samples& samples) {
    // IEC 61966-2-1 as ICC.1:2022, 10.18, function type 3 wants it.
    constexpr std::array<double, 5> srgb_parameters{2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045};
    if (follows(samples, decode_srgb))
        return LcmsCurve(cmsBuildParametricToneCurve(context, 4, srgb_parameters.data()));
    const double gamma = std::log(samples[steps / 2]) / std::log(encoded_at(steps / 2));
    if (follows(samples, [gamma](double encoded) { return std::pow(encoded, gamma); }))
        return LcmsCurve(cmsBuildGamma(context, gamma));
    std::array<cmsUInt16Number, steps> table{};
    std::transform(samples.begin(), samples.end(), table.begin(), [](double light) {
        return static_cast<cmsUInt16Number>(std::lround(65535 * std::clamp(light, 0.0, 1.0)));
    });
    return LcmsCurve(cmsBuildTabulatedToneCurve16(context, steps, table.data()));
}

void write_description(cmsContext context, cmsHPROFILE profile, const std::string& text) {
    const LcmsText words(cmsMLUalloc(context, 1));
    // "assumed" would be said of what the profile states from now on.
    cmsMLUsetASCII(words.get(), "en", "US", text.substr(0, text.find(" (assumed")).c_str());
    cmsWriteTag(profile, cmsSigProfileDescriptionTag, words.get());
}

}  // namespace

std::vector<std::uint8_t> encoding_profile(const ColourEncoding& encoding) {
    if (!encoding.decoding->separable()) {
        const auto own = encoding.decoding->profile();
        return {own.begin(), own.end()};
    }
    const LcmsInstance lcms;
    const LcmsProfile profile(cmsCreateProfilePlaceholder(lcms.context()));
    cmsSetProfileVersion(profile.get(), 4.3);
    cmsSetDeviceClass(profile.get(), cmsSigInputClass);
    cmsSetColorSpace(profile.get(), cmsSigRgbData);
    cmsSetPCS(profile.get(), cmsSigXYZData);
    write_description(lcms.context(), profile.get(), encoding.description);
    cmsWriteTag(profile.get(), cmsSigMediaWhitePointTag, cmsD50_XYZ());
    constexpr std::array colorants{cmsSigRedColorantTag, cmsSigGreenColorantTag, cmsSigBlueColorantTag};
    constexpr std::array curves{cmsSigRedTRCTag, cmsSigGreenTRCTag, cmsSigBlueTRCTag};
    const auto samples = sample_curves(*encoding.decoding);
    for (std::size_t c = 0; c < 3; ++c) {
        const auto& m = encoding.to_xyz_d50.m;
        const cmsCIEXYZ colorant{m[0][c], m[1][c], m[2][c]};
        cmsWriteTag(profile.get(), colorants[c], &colorant);
        const LcmsCurve curve = curve_through(lcms.context(), samples[c]);
        cmsWriteTag(profile.get(), curves[c], curve.get());
    }
    return saved_profile(profile);
}

}  // namespace tonemend
