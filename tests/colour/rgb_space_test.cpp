#include "colour/rgb_space.h"

#include <lcms2.h>

#include <cmath>
#include <memory>
#include <string>

#include "colour/illuminant.h"
#include "tests/catch.h"
#include "tests/support/check_tight.h"

using namespace tonemend;

namespace {

struct PublishedMatrix {
    RgbSpace space;
    Matrix3 matrix;
    double last_digit;
};

const PublishedMatrix published[] = {
    // IEC 61966-2-1.
    {srgb, {{{{0.4124, 0.3576, 0.1805}, {0.2126, 0.7152, 0.0722}, {0.0193, 0.1192, 0.9505}}}}, 1e-4},
    // SMPTE EG 432-1, to four digits (from memory).
    {display_p3, {{{{0.4866, 0.2657, 0.1982}, {0.2290, 0.6917, 0.0793}, {0.0000, 0.0451, 1.0439}}}}, 1e-4},
    // IEC 61966-2-5, to four digits (from memory).
    {op_rgb, {{{{0.5767, 0.1856, 0.1882}, {0.2973, 0.6274, 0.0753}, {0.0270, 0.0707, 0.9913}}}}, 1e-4},
    // Rec. ITU-R BT.2087, six digits (from memory).
    {bt2020,
     {{{{0.636958, 0.144617, 0.168881}, {0.262700, 0.677998, 0.059302}, {0.000000, 0.028073, 1.060985}}}},
     1e-6},
};

struct CloseProfile {
    void operator()(void* profile) const { cmsCloseProfile(profile); }
};

// The colorants of a matrix profile as columns.
Matrix3 read_colorants(const std::string& path) {
    const std::unique_ptr<void, CloseProfile> profile(cmsOpenProfileFromFile(path.c_str(), "r"));
    INFO(path << ": this test needs the packages colord-data and icc-profiles-free");
    REQUIRE(profile);
    Matrix3 colorants;
    const cmsTagSignature tags[] = {cmsSigRedColorantTag, cmsSigGreenColorantTag, cmsSigBlueColorantTag};
    for (std::size_t column = 0; column < 3; ++column) {
        const auto* xyz = static_cast<const cmsCIEXYZ*>(cmsReadTag(profile.get(), tags[column]));
        REQUIRE(xyz);
        colorants.m[0][column] = xyz->X;
        colorants.m[1][column] = xyz->Y;
        colorants.m[2][column] = xyz->Z;
    }
    return colorants;
}

double worst_entry(const Matrix3& a, const Matrix3& b) {
    double worst = 0;
    for (std::size_t row = 0; row < 3; ++row) {
        for (std::size_t column = 0; column < 3; ++column) {
            worst = std::fmax(worst, std::abs(a.m[row][column] - b.m[row][column]));
        }
    }
    return worst;
}

}  // namespace

TEST_CASE("Linear RGB to XYZ follows from the chromaticities to the published digits") {
    for (const PublishedMatrix& row : published) {
        const std::string name(row.space.name);
        check_tight((name + " against the published matrix (half the last digit)").c_str(),
                    worst_entry(rgb_to_xyz(row.space), row.matrix), row.last_digit / 2);
    }
}

TEST_CASE("ROMM RGB has the published matrix to the D50 of the ICC") {
    // ISO 22028-2, to four digits (from memory).
    const Matrix3 matrix{{{{0.7977, 0.1352, 0.0313}, {0.2880, 0.7119, 0.0001}, {0.0000, 0.0000, 0.8249}}}};
    check_tight("ROMM RGB against the published matrix (half the last digit)",
                worst_entry(rgb_to_xyz_d50(romm_rgb), matrix), 5e-5);
}

TEST_CASE("RGB spaces adapted to D50 have the colorants of their ICC profiles") {
    struct Row {
        RgbSpace space;
        const char* file;
    };
    // Some profiles have a white of their own instead of the chromaticity in the space's standard: the point
    // for 6504 K on CIE's daylight locus, 0.0001 away in y, and the ICC's D50 itself.
    const auto with_white = [](RgbSpace space, const Chromaticity& white) {
        space.white = white;
        return space;
    };
    const Chromaticity d65 = daylight_chromaticity(6504);
    const Chromaticity d50 = to_xy(perfect_diffuser(d50_icc));
    const std::string folder = "/usr/share/color/icc/";
    for (const Row& row :
         {Row{with_white(srgb, d65), "colord/sRGB.icc"}, Row{with_white(srgb, d65), "colord/Rec709.icc"},
          Row{with_white(srgb, d65), "sRGB.icc"}, Row{with_white(op_rgb, d65), "colord/AdobeRGB1998.icc"},
          Row{op_rgb, "compatibleWithAdobeRGB1998.icc"},
          Row{with_white(romm_rgb, d50), "colord/ProPhotoRGB.icc"}}) {
        check_tight(row.file, worst_entry(rgb_to_xyz_d50(row.space), read_colorants(folder + row.file)),
                    1e-5);
    }
}

TEST_CASE("RGB white is the space's white, and D50 after adaptation") {
    double worst = 0;
    for (const RgbSpace& space : rgb_spaces) {
        const WhitePoint white = white_point(space.white);
        const Vector3 own = rgb_to_xyz(space) * Vector3{1, 1, 1};
        const Vector3 adapted = rgb_to_xyz_d50(space) * Vector3{1, 1, 1};
        worst = std::fmax(worst, std::hypot(own[0] - white.X, own[1] - white.Y, own[2] - white.Z));
        worst = std::fmax(worst,
                          std::hypot(adapted[0] - d50_icc.X, adapted[1] - d50_icc.Y, adapted[2] - d50_icc.Z));
    }
    check_tight("white of the RGB spaces", worst, 1e-15);
}
