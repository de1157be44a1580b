// The display's table against Little CMS itself (Debian's liblcms2), over profiles from Debian's colord-data.
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <string>

#include "colour/lab.h"
#include "colour/rgb_space.h"
#include "colour/srgb_curve.h"
#include "live/display_profile.h"
#include "picture/input_error.h"
#include "picture/srgb_profile.h"
#include "tests/catch.h"
#include "tests/live/display_samples.h"
#include "tests/support/check_tight.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

const std::filesystem::path colord = "/usr/share/color/icc/colord";

double worst_against_lcms(const DisplayTable& table, const std::vector<std::uint8_t>& profile) {
    const LcmsDisplay direct(profile);
    double worst = 0;
    for (const XYZ& colour : display_samples()) {
        const auto ours = table.encode(colour);
        const auto theirs = direct.encode(colour);
        for (std::size_t c = 0; c < 3; ++c) worst = std::fmax(worst, 255 * std::abs(ours[c] - theirs[c]));
    }
    return worst;
}

}  // namespace

TEST_CASE("Without a profile the display's codes are those of sRGB") {
    const DisplayTable table = make_srgb_display_table();
    const Matrix3 from_xyz = inverse(rgb_to_xyz_d50(srgb));  // IEC 61966-2-1, adapted by Bradford
    double worst = 0;
    for (const XYZ& colour : display_samples()) {
        const auto code = table.encode(colour);
        const Vector3 linear = from_xyz * Vector3{colour.X, colour.Y, colour.Z};
        for (std::size_t c = 0; c < 3; ++c)
            worst = std::fmax(worst, 255 * std::abs(code[c] - std::clamp(encode_srgb(linear[c]), 0.0, 1.0)));
    }
    check_tight("codes of 255 off the standard's", worst, 0.1);
}

TEST_CASE(
    "The display's table is within half a code of Little CMS over the cube of sRGB and over wood, for every "
    "display of curves and a matrix") {
    check_tight("sRGB", worst_against_lcms(make_srgb_display_table(), srgb_profile()), 0.005);
    double worst = 0;
    std::string of;
    int profiles = 0;
    for (const auto& entry : std::filesystem::directory_iterator(colord)) {
        const std::vector<std::uint8_t> bytes = bytes_of(entry.path());
        if (!is_rgb_of_curves(bytes)) continue;
        ++profiles;
        const double error = worst_against_lcms(make_display_table(bytes, entry.path().filename()), bytes);
        std::printf("  %s: %.4f of 255\n", entry.path().filename().c_str(), error);
        if (error > worst) worst = error, of = entry.path().filename();
    }
    INFO("the worst is " << of);
    CHECK(profiles >= 10);
    check_tight("codes of 255 off Little CMS", worst, 0.2);
}

TEST_CASE(
    "The display's table is within half a code of Little CMS for a display that only lookup tables "
    "describe") {
    double worst = 0;
    for (const TableFlavour& flavour :
         {TableFlavour{4.3, 33, 1}, TableFlavour{4.3, 17, 0.8}, TableFlavour{2.4, 33, 1},
          TableFlavour{2.4, 37, 0.9}, TableFlavour{2.4, 45, 1}}) {
        const std::vector<std::uint8_t> profile = make_table_profile(flavour);
        const double error = worst_against_lcms(make_display_table(profile, "display of tables"), profile);
        std::printf("  version %.1f, %u nodes, curves to the power of %.1f: %.4f of 255\n", flavour.version,
                    flavour.side, flavour.bend, error);
        worst = std::fmax(worst, error);
    }
    check_tight("codes of 255 off Little CMS", worst, 0.5);
}

TEST_CASE("White is the display's white, black its black, and light beyond its range is cut") {
    const DisplayTable table = make_srgb_display_table();
    for (const double code : table.encode({d50_icc.X, d50_icc.Y, d50_icc.Z}))
        CHECK(code == Approx(1).margin(2e-4));
    for (const double code : table.encode({0, 0, 0})) CHECK(code == 0);
    for (const double code : table.encode({3 * d50_icc.X, 3, 3 * d50_icc.Z}))
        CHECK(code == Approx(1).margin(1e-7));
    for (const double code : table.encode({-1, -1, -1})) CHECK(code == 0);
}

TEST_CASE("A profile that cannot serve a display is refused with the cure") {
    const auto refused = [](std::vector<std::uint8_t> bytes) -> std::string {
        try {
            make_display_table(bytes, "screen.icc");
        } catch (const InputError& error) {
            return error.what();
        }
        return "";
    };
    for (const std::string& line :
         {refused({}), refused({1, 2, 3}), refused(bytes_of("/usr/share/color/icc/Gray.icc")),
          refused(bytes_of("/usr/share/color/icc/LCMSLABI.ICM"))}) {
        CHECK_THAT(line, contains("screen.icc"));
        CHECK_THAT(line, contains("sRGB"));
        CHECK(line.find('\n') == std::string::npos);
    }
    CHECK_THROWS_AS(read_display_profile("/nonexistent/screen.icc"), InputError);
    // Cut short or damaged anywhere: refused or read, never worse.
    const std::vector<std::uint8_t> sound = srgb_profile();
    for (std::size_t length = 0; length < sound.size(); length += 7)
        refused({sound.begin(), sound.begin() + static_cast<std::ptrdiff_t>(length)});
    for (std::size_t at = 0; at < sound.size(); at += 3) {
        std::vector<std::uint8_t> bytes = sound;
        bytes[at] ^= 0xff;
        refused(bytes);
    }
}
