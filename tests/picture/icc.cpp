// Embedded profiles against Little CMS's own transform of the same codes.
#include <lcms2.h>

#include <cmath>
#include <cstdio>
#include <filesystem>
#include <random>

#include "picture/encoding_profile.h"
#include "picture/icc_decoding.h"
#include "picture/linear_picture.h"
#include "picture/read_picture.h"
#include "picture/write_picture.h"
#include "support.h"
#include "tests/catch.h"
#include "tests/support/table_profile.h"

using namespace tonemend;
using namespace tonemend::testing;
using tonemend::testing::table_profile;

namespace {

/// A 16-bit picture of every corner of the cube, a grey ramp and random colours.
Frame cube_frame() {
    Frame frame = make_frame(64, 64, SampleType::uint16);
    auto* const codes = reinterpret_cast<std::uint16_t*>(frame.samples.data());
    std::mt19937 random(7);
    for (int i = 0; i < 64 * 64 * 3; ++i) codes[i] = static_cast<std::uint16_t>(random());
    for (int i = 0; i < 8; ++i)
        for (int c = 0; c < 3; ++c) codes[3 * i + c] = (i >> c) & 1 ? 65535 : 0;
    for (int i = 0; i < 64; ++i)
        for (int c = 0; c < 3; ++c) codes[3 * (64 + i) + c] = static_cast<std::uint16_t>(i * 65535 / 63);
    return frame;
}

std::vector<std::array<double, 3>> xyz_of(const Frame& frame) {
    const LinearPicture linear = linear_light(frame, {0, 0, frame.width, frame.height});
    std::vector<std::array<double, 3>> result;
    for (std::size_t i = 0; i < linear.clipped.size(); ++i)
        result.push_back(frame.encoding.to_xyz_d50 * Vector3{static_cast<double>(linear.rgb[3 * i]),
                                                             static_cast<double>(linear.rgb[3 * i + 1]),
                                                             static_cast<double>(linear.rgb[3 * i + 2])});
    return result;
}

/// Relative colorimetric XYZ by Little CMS in double-precision floats, and the largest difference to ours.
double worst_difference(const std::vector<std::uint8_t>& profile, const Frame& frame) {
    cmsHPROFILE input = cmsOpenProfileFromMem(profile.data(), static_cast<cmsUInt32Number>(profile.size()));
    cmsHPROFILE xyz_profile = cmsCreateXYZProfile();
    cmsHTRANSFORM transform =
        cmsCreateTransform(input, TYPE_RGB_DBL, xyz_profile, TYPE_XYZ_DBL, INTENT_RELATIVE_COLORIMETRIC,
                           cmsFLAGS_NOOPTIMIZE | cmsFLAGS_NOCACHE);
    REQUIRE(transform);
    const auto ours = xyz_of(frame);
    const auto* const codes = reinterpret_cast<const std::uint16_t*>(frame.samples.data());
    double worst = 0;
    for (std::size_t i = 0; i < ours.size(); ++i) {
        const double rgb[3] = {codes[3 * i] / 65535.0, codes[3 * i + 1] / 65535.0,
                               codes[3 * i + 2] / 65535.0};
        double xyz[3];
        cmsDoTransform(transform, rgb, xyz, 1);
        for (std::size_t c = 0; c < 3; ++c) worst = std::max(worst, std::abs(xyz[c] - ours[i][c]));
    }
    cmsDeleteTransform(transform);
    cmsCloseProfile(xyz_profile);
    cmsCloseProfile(input);
    return worst;
}

bool is_rgb_matrix(const std::vector<std::uint8_t>& bytes) {
    cmsHPROFILE profile = cmsOpenProfileFromMem(bytes.data(), static_cast<cmsUInt32Number>(bytes.size()));
    const bool matrix = profile && cmsGetColorSpace(profile) == cmsSigRgbData && cmsIsMatrixShaper(profile);
    if (profile) cmsCloseProfile(profile);
    return matrix;
}

}  // namespace

TEST_CASE("A matrix profile embedded in a PNG gives the XYZ that Little CMS gives") {
    const ScratchFolder folder;
    double worst = 0;
    int profiles = 0;
    for (const char* where : {"/usr/share/color/icc/colord", "/usr/share/color/icc"})
        for (const auto& entry : std::filesystem::directory_iterator(where)) {
            if (entry.path().extension() != ".icc") continue;
            const auto bytes = bytes_of(entry.path());
            if (!is_rgb_matrix(bytes)) continue;
            INFO(entry.path());
            WriteOptions options;
            options.icc_profile = bytes;
            write_picture(cube_frame(), folder / "a.png", options);
            const Frame frame = read_picture(folder / "a.png");
            CHECK(frame.encoding.description.starts_with("embedded ICC profile"));
            CHECK_FALSE(frame.encoding.assumed);
            CHECK(frame.encoding.decoding->separable());
            const double difference = worst_difference(bytes, frame);
            worst = std::max(worst, difference);
            ++profiles;
            // Little CMS rounds each table curve's value to 16 bits: half a code times a colorant of about 1.
            CHECK(difference < 1.2e-5);
        }
    std::printf("%d matrix profiles: worst XYZ difference to Little CMS %.2e\n", profiles, worst);
    CHECK(profiles >= 20);
}

TEST_CASE("A lookup-table profile gives the XYZ that Little CMS gives") {
    const ScratchFolder folder;
    WriteOptions options;
    options.icc_profile = table_profile();
    for (const char* name : {"a.png", "a.tif"}) {
        write_picture(cube_frame(), folder / name, options);
        const Frame frame = read_picture(folder / name);
        CHECK(frame.encoding.description == "embedded ICC profile 'practice scanner'");
        CHECK_FALSE(frame.encoding.decoding->separable());
        CHECK(encoding_profile(frame.encoding) == options.icc_profile);  // handed on byte for byte
        const double worst = worst_difference(options.icc_profile, frame);
        std::printf("table profile: worst XYZ difference to Little CMS %.2e\n", worst);
        CHECK(worst < 1e-7);
    }
}

TEST_CASE("Profiles travel in PNG, TIFF, JPEG and WebP byte for byte") {
    const ScratchFolder folder;
    WriteOptions options;
    options.icc_profile = bytes_of("/usr/share/color/icc/colord/ProPhotoRGB.icc");
    options.jpeg_quality = 95;
    const ColourEncoding alone = read_icc_profile("/usr/share/color/icc/colord/ProPhotoRGB.icc");
    for (const char* name : {"a.png", "a.tif", "a.jpg", "a.webp"}) {
        INFO(name);
        write_picture(make_frame(16, 16, SampleType::uint8), folder / name, options);
        const Frame frame = read_picture(folder / name);
        CHECK(frame.encoding.to_xyz_d50.m == alone.to_xyz_d50.m);
        CHECK(frame.encoding.description == "embedded " + alone.description);
    }
    // Larger than one APP2 segment: parts are put together in order.
    auto padded = options.icc_profile;
    padded.resize(200'000, 0xab);
    padded[0] = 0, padded[1] = 3, padded[2] = 0x0d, padded[3] = 0x40;  // the size in the header, 200000
    options.icc_profile = padded;
    write_picture(make_frame(16, 16, SampleType::uint8), folder / "b.jpg", options);
    CHECK(read_picture(folder / "b.jpg").encoding.to_xyz_d50.m == alone.to_xyz_d50.m);
}

TEST_CASE("A grey profile serves a grey picture: R = G = B, white is D50") {
    const auto bytes = bytes_of("/usr/share/color/icc/Gray.icc");
    const ColourEncoding encoding = icc_encoding(bytes, StoredChannels::one, "grey.png");
    const float codes[3] = {0.5F, 0.5F, 0.5F};
    float linear[3];
    encoding.decoding->decode(codes, linear, 1);
    cmsHPROFILE profile = cmsOpenProfileFromMem(bytes.data(), static_cast<cmsUInt32Number>(bytes.size()));
    cmsHPROFILE xyz_profile = cmsCreateXYZProfile();
    cmsHTRANSFORM transform = cmsCreateTransform(profile, TYPE_GRAY_DBL, xyz_profile, TYPE_XYZ_DBL,
                                                 INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_NOOPTIMIZE);
    const double code = 0.5;
    double xyz[3];
    cmsDoTransform(transform, &code, xyz, 1);
    const Vector3 ours =
        encoding.to_xyz_d50 * Vector3{static_cast<double>(linear[0]), static_cast<double>(linear[1]),
                                      static_cast<double>(linear[2])};
    for (std::size_t c = 0; c < 3; ++c) CHECK(ours[c] == Approx(xyz[c]).margin(2e-5));
    cmsDeleteTransform(transform);
    cmsCloseProfile(xyz_profile);
    cmsCloseProfile(profile);
}
