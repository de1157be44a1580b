// A frame written beside the profile of its encoding is read back as the same light. The outside opinion on
// what the profile says is Little CMS's own transform.
#include "picture/encoding_profile.h"

#include <lcms2.h>

#include <cmath>
#include <cstdio>

#include "colour/rgb_space.h"
#include "picture/linear_picture.h"
#include "picture/read_picture.h"
#include "picture/standard_encodings.h"
#include "picture/write_picture.h"
#include "support.h"
#include "tests/catch.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

/// A camera's raw numbers: linear, in primaries of its own.
ColourEncoding raw_encoding() {
    ColourEncoding encoding = linear_srgb_encoding(Provenance::stated);
    encoding.description = "raw: linear camera RGB, the camera's own matrix";
    encoding.camera_native = true;
    encoding.to_xyz_d50 =
        encoding.to_xyz_d50 * Matrix3{{{{1.6, -0.5, -0.1}, {-0.2, 1.5, -0.3}, {0.05, -0.45, 1.4}}}};
    return encoding;
}

/// A curve that no formula of ours has, each channel its own.
ColourEncoding bent_encoding() {
    ColourEncoding encoding = srgb_encoding(Provenance::stated);
    const auto bent = [](double part) {
        return [part](double v) { return (1 - part) * std::pow(v, 1.9) + part * v * v * v; };
    };
    encoding.decoding = separable_decoding({bent(0.1), bent(0.2), bent(0.3)});
    return encoding;
}

struct Row {
    const char* name;
    ColourEncoding encoding;
    double worst_xyz;  ///< of white = 1
};

std::vector<std::array<double, 3>> read_back_xyz(const Frame& frame) {
    const LinearPicture linear = linear_light(frame, {0, 0, frame.width, frame.height});
    std::vector<std::array<double, 3>> result;
    for (std::size_t i = 0; i < linear.clipped.size(); ++i)
        result.push_back(frame.encoding.to_xyz_d50 * Vector3{static_cast<double>(linear.rgb[3 * i]),
                                                             static_cast<double>(linear.rgb[3 * i + 1]),
                                                             static_cast<double>(linear.rgb[3 * i + 2])});
    return result;
}

double worst(const std::vector<std::array<double, 3>>& ours,
             const std::vector<std::array<double, 3>>& theirs) {
    double most = 0;
    for (std::size_t i = 0; i < ours.size(); ++i)
        for (std::size_t c = 0; c < 3; ++c) most = std::max(most, std::abs(ours[i][c] - theirs[i][c]));
    return most;
}

std::vector<std::array<double, 3>> lcms_xyz(const std::vector<std::uint8_t>& profile, const Frame& frame) {
    cmsHPROFILE input = cmsOpenProfileFromMem(profile.data(), static_cast<cmsUInt32Number>(profile.size()));
    REQUIRE(input);
    cmsHPROFILE xyz_profile = cmsCreateXYZProfile();
    cmsHTRANSFORM transform =
        cmsCreateTransform(input, TYPE_RGB_DBL, xyz_profile, TYPE_XYZ_DBL, INTENT_RELATIVE_COLORIMETRIC,
                           cmsFLAGS_NOOPTIMIZE | cmsFLAGS_NOCACHE);
    REQUIRE(transform);
    const auto* const codes = reinterpret_cast<const std::uint16_t*>(frame.samples.data());
    std::vector<std::array<double, 3>> all(frame.samples.size() / 6);
    for (std::size_t i = 0; i < all.size(); ++i) {
        const double rgb[3] = {codes[3 * i] / 65535.0, codes[3 * i + 1] / 65535.0,
                               codes[3 * i + 2] / 65535.0};
        cmsDoTransform(transform, rgb, all[i].data(), 1);
    }
    cmsDeleteTransform(transform);
    cmsCloseProfile(xyz_profile);
    cmsCloseProfile(input);
    return all;
}

}  // namespace

TEST_CASE("Samples beside the profile of their encoding come back as the same samples and the same light") {
    // Colorants and parameters are rounded to 1/65536 (ICC.1:2022, s15Fixed16Number), a table's entries to
    // 1/65535; Little CMS rounds the value of a table once more.
    const Row rows[] = {{"sRGB", srgb_encoding(Provenance::assumed), 1.2e-5},
                        {"linear sRGB", linear_srgb_encoding(Provenance::assumed), 1.2e-5},
                        {"opRGB", op_rgb_encoding("opRGB (stated in EXIF)"), 1.2e-5},
                        {"gamma 1.8 ROMM", gamma_encoding(1.8, romm_rgb, "gamma 1.8"), 1.2e-5},
                        {"raw", raw_encoding(), 1.2e-5},
                        {"bent", bent_encoding(), 1.2e-5}};
    const ScratchFolder folder;
    for (const Row& row : rows) {
        for (const SampleType type : {SampleType::uint8, SampleType::uint16, SampleType::float32}) {
            INFO(row.name);
            Frame frame = make_frame(96, 64, type);
            frame.encoding = row.encoding;
            WriteOptions options;
            options.icc_profile = encoding_profile(row.encoding);
            CHECK(encoding_profile(row.encoding) == options.icc_profile);
            const char* name = type == SampleType::float32 ? "a.tif" : "a.png";
            write_picture(frame, folder / name, options);
            const Frame back = read_picture(folder / name);
            CHECK(back.type == frame.type);
            CHECK(back.samples == frame.samples);
            CHECK_FALSE(back.encoding.assumed);
            CHECK(back.encoding.description.find("assumed") == std::string::npos);
            const double error = worst(read_back_xyz(back), read_back_xyz(frame));
            CHECK(error < row.worst_xyz);
            if (type == SampleType::uint16) {
                const double beside = worst(read_back_xyz(frame), lcms_xyz(options.icc_profile, frame));
                std::printf("%s: worst XYZ read back %.1e, beside Little CMS %.1e\n", row.name, error,
                            beside);
                CHECK(beside < row.worst_xyz + 0.8e-5);
            }
        }
    }
}
