#include "calibrate/keep/input_profile.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "calibrate/keep/input_profile_table.h"
#include "picture/input_error.h"
#include "picture/lcms_instance.h"

namespace tonemend {
namespace {

constexpr std::size_t steps = 4096;

void write_text(cmsContext context, cmsHPROFILE profile, cmsTagSignature tag, const std::string& text) {
    const LcmsText words(cmsMLUalloc(context, 1));
    std::string plain = text;
    std::replace_if(
        plain.begin(), plain.end(), [](char letter) { return letter < ' ' || letter > '~'; }, '?');
    cmsMLUsetASCII(words.get(), "en", "US", plain.c_str());
    cmsWriteTag(profile, tag, words.get());
}

LcmsProfile begin_profile(const LcmsInstance& lcms, const std::string& description) {
    LcmsProfile profile(cmsCreateProfilePlaceholder(lcms.context()));
    cmsSetProfileVersion(profile.get(), 4.4);
    cmsSetDeviceClass(profile.get(), cmsSigInputClass);
    cmsSetColorSpace(profile.get(), cmsSigRgbData);
    cmsSetPCS(profile.get(), cmsSigXYZData);
    cmsSetHeaderRenderingIntent(profile.get(), INTENT_RELATIVE_COLORIMETRIC);
    write_text(lcms.context(), profile.get(), cmsSigProfileDescriptionTag, description);
    write_text(lcms.context(), profile.get(), cmsSigCopyrightTag,
               "Measured from a picture of one's own; free to use");
    cmsWriteTag(profile.get(), cmsSigMediaWhitePointTag, cmsD50_XYZ());
    constexpr std::array<cmsCIEXYZ, 3> identity{{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};
    cmsWriteTag(profile.get(), cmsSigChromaticAdaptationTag, identity.data());
    return profile;
}

// Light of each channel alone, step by step of its code; 1 for the perfect diffuser.
std::array<std::vector<double>, 3> sample_light(const Frame& frame, const Calibration& calibration) {
    std::vector<float> grey(3 * steps);
    for (std::size_t i = 0; i < grey.size(); ++i) grey[i] = static_cast<float>(i / 3) / (steps - 1);
    frame.encoding.decoding->decode(grey.data(), grey.data(), steps);
    std::array<std::vector<double>, 3> light;
    for (std::size_t i = 0; i < grey.size(); ++i)
        light[i % 3].push_back(std::max(0.0, calibration.curves[i % 3](static_cast<double>(grey[i]))));
    return light;
}

double brightest(const std::array<std::vector<double>, 3>& light) {
    double most = 0;
    for (const auto& channel : light) most = std::max(most, channel.back());
    return most;
}

LcmsCurve table_curve(cmsContext context, const std::vector<double>& values, double scale) {
    std::vector<cmsUInt16Number> table;
    for (const double value : values)
        table.push_back(
            static_cast<cmsUInt16Number>(std::lround(65535 * std::clamp(value / scale, 0.0, 1.0))));
    return LcmsCurve(
        cmsBuildTabulatedToneCurve16(context, static_cast<cmsUInt32Number>(table.size()), table.data()));
}

void write_matrix(const LcmsInstance& lcms, cmsHPROFILE profile, const Matrix3& matrix,
                  const std::array<std::vector<double>, 3>& light) {
    const double scale = brightest(light);
    constexpr std::array colorants{cmsSigRedColorantTag, cmsSigGreenColorantTag, cmsSigBlueColorantTag};
    constexpr std::array curves{cmsSigRedTRCTag, cmsSigGreenTRCTag, cmsSigBlueTRCTag};
    for (std::size_t c = 0; c < 3; ++c) {
        const auto& m = matrix.m;
        const cmsCIEXYZ colorant{scale * m[0][c], scale * m[1][c], scale * m[2][c]};
        cmsWriteTag(profile, colorants[c], &colorant);
        const LcmsCurve curve = table_curve(lcms.context(), light[c], scale);
        cmsWriteTag(profile, curves[c], curve.get());
    }
}

void require_light(const Frame& frame, double most) {
    constexpr double representable = 1.99;  // XYZ in a profile end below 2 (ICC.1:2022, 6.3.4.2)
    if (most < representable) return;
    throw InputError(fmt::format(
        "{}: is so dark that its brightest code means {:.1f} times white, and a profile holds less than 2; "
        "expose more and take it again",
        frame.name, most));
}

}  // namespace

std::vector<std::uint8_t> input_profile(const Frame& frame, const Calibration& calibration,
                                        const std::string& description) {
    const LcmsInstance lcms;
    const LcmsProfile profile = begin_profile(lcms, description);
    const auto light = sample_light(frame, calibration);
    require_light(frame, brightest(light));
    const ColourModel& model = calibration.characterisation.model;
    if (frame.encoding.decoding->separable() && model.is_matrix())
        write_matrix(lcms, profile.get(), model.matrix(), light);
    else
        write_colour_table(lcms, profile.get(), frame, calibration, light);
    return identified_profile(lcms, profile);
}

}  // namespace tonemend
