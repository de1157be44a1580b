#pragma once

#include <lcms2.h>

#include <cmath>
#include <cstdint>
#include <vector>

namespace tonemend::testing {

inline std::vector<std::uint8_t> saved(cmsHPROFILE profile) {
    cmsUInt32Number size = 0;
    cmsSaveProfileToMem(profile, nullptr, &size);
    std::vector<std::uint8_t> bytes(size);
    cmsSaveProfileToMem(profile, bytes.data(), &size);
    cmsCloseProfile(profile);
    return bytes;
}

/// A made-up scanner: RGB → Lab by a 17-step table with a bent tone and crossed channels.
inline std::vector<std::uint8_t> table_profile() {
    cmsHPROFILE profile = cmsCreateProfilePlaceholder(nullptr);
    cmsSetProfileVersion(profile, 4.3);
    cmsSetDeviceClass(profile, cmsSigInputClass);
    cmsSetColorSpace(profile, cmsSigRgbData);
    cmsSetPCS(profile, cmsSigLabData);
    cmsPipeline* pipeline = cmsPipelineAlloc(nullptr, 3, 3);
    cmsStage* table = cmsStageAllocCLut16bit(nullptr, 17, 3, 3, nullptr);
    const auto sampler = [](const cmsUInt16Number in[], cmsUInt16Number out[], void*) -> cmsInt32Number {
        const double r = in[0] / 65535.0, g = in[1] / 65535.0, b = in[2] / 65535.0;
        const cmsCIELab lab{100 * std::pow(0.25 * r + 0.65 * g + 0.1 * b, 0.7), 60 * (r - g),
                            50 * (0.5 * (r + g) - b)};
        cmsFloat2LabEncoded(out, &lab);
        return 1;
    };
    cmsStageSampleCLut16bit(table, sampler, nullptr, 0);
    cmsPipelineInsertStage(pipeline, cmsAT_END, cmsStageAllocToneCurves(nullptr, 3, nullptr));
    cmsPipelineInsertStage(pipeline, cmsAT_END, table);
    cmsPipelineInsertStage(pipeline, cmsAT_END, cmsStageAllocToneCurves(nullptr, 3, nullptr));
    cmsWriteTag(profile, cmsSigAToB0Tag, pipeline);
    cmsPipelineFree(pipeline);
    cmsMLU* text = cmsMLUalloc(nullptr, 1);
    cmsMLUsetASCII(text, "en", "US", "practice scanner");
    cmsWriteTag(profile, cmsSigProfileDescriptionTag, text);
    cmsWriteTag(profile, cmsSigMediaWhitePointTag, cmsD50_XYZ());
    cmsMLUfree(text);
    return saved(profile);
}

}  // namespace tonemend::testing
