// ICC profiles: matrix and curves, lookup tables, grey.
#include "picture/icc_decoding.h"

#include <lcms2.h>

#include <cmath>

#include "picture/input_error.h"
#include "target.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

std::string saved(cmsHPROFILE profile) {
    cmsUInt32Number size = 0;
    cmsSaveProfileToMem(profile, nullptr, &size);
    std::string bytes(size, '\0');
    cmsSaveProfileToMem(profile, bytes.data(), &size);
    cmsCloseProfile(profile);
    return bytes;
}

std::string matrix_profile(double gamma) {
    const cmsCIExyY white{0.3457, 0.3585, 1};
    const cmsCIExyYTRIPLE primaries{{0.64, 0.33, 1}, {0.30, 0.60, 1}, {0.15, 0.06, 1}};
    cmsToneCurve* curve = cmsBuildGamma(nullptr, gamma);
    cmsToneCurve* const curves[] = {curve, curve, curve};
    const std::string bytes = saved(cmsCreateRGBProfile(&white, &primaries, curves));
    cmsFreeToneCurve(curve);
    return bytes;
}

std::string grey_profile() {
    const cmsCIExyY white{0.3457, 0.3585, 1};
    cmsToneCurve* curve = cmsBuildGamma(nullptr, 1.8);
    const std::string bytes = saved(cmsCreateGrayProfile(&white, curve));
    cmsFreeToneCurve(curve);
    return bytes;
}

cmsInt32Number halve(const cmsUInt16Number* in, cmsUInt16Number* out, void*) {
    for (int c = 0; c < 3; ++c) out[c] = static_cast<cmsUInt16Number>(in[c] / 2 + 16000);
    return TRUE;
}

/// A small lookup table from RGB to Lab.
std::string table_profile() {
    cmsHPROFILE profile = cmsCreateProfilePlaceholder(nullptr);
    cmsSetProfileVersion(profile, 4.3);
    cmsSetDeviceClass(profile, cmsSigInputClass);
    cmsSetColorSpace(profile, cmsSigRgbData);
    cmsSetPCS(profile, cmsSigLabData);
    cmsPipeline* table = cmsPipelineAlloc(nullptr, 3, 3);
    cmsStage* grid = cmsStageAllocCLut16bit(nullptr, 5, 3, 3, nullptr);
    cmsStageSampleCLut16bit(grid, halve, nullptr, 0);
    cmsPipelineInsertStage(table, cmsAT_BEGIN, grid);
    cmsWriteTag(profile, cmsSigAToB0Tag, table);
    cmsWriteTag(profile, cmsSigMediaWhitePointTag, cmsD50_XYZ());
    cmsPipelineFree(table);
    return saved(profile);
}

void try_profile(const std::vector<std::uint8_t>& bytes, StoredChannels channels) {
    try {
        const ColourEncoding encoding = icc_encoding(bytes, channels, "input");
        float rgb[9] = {0, 0, 0, 1, 1, 1, 0.2F, 0.5F, 0.8F};
        encoding.decoding->decode(rgb, rgb, 3);
        for (const float value : rgb) require_promise(std::isfinite(value), "linear light is finite");
        for (const auto& row : encoding.to_xyz_d50.m)
            for (const double value : row)
                require_promise(std::isfinite(value), "the matrix to XYZ is finite");
    } catch (const InputError& error) {
        const std::string text = error.what();
        require_promise(text.starts_with("input: "), "a refusal names its file");
        require_promise(text.find('\n') == text.npos, "a refusal is one line");
    }
}

}  // namespace

std::vector<std::string> tonemend::testing::fuzz_seeds() {
    std::string wild_header = saved(cmsCreate_sRGBProfile());
    wild_header.replace(16, 4, "\xff\xff\xff\xff");  // a colour space that no enumeration holds
    return {saved(cmsCreate_sRGBProfile()),
            matrix_profile(2.2),
            matrix_profile(1.0),
            grey_profile(),
            table_profile(),
            wild_header};
}

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::vector<std::uint8_t> bytes(data, data + size);
    try_profile(bytes, StoredChannels::three);
    try_profile(bytes, StoredChannels::one);
    return 0;
}
