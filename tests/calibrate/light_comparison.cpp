#include "calibrate/preflight/light_comparison.h"

#include "colour/adaptation.h"
#include "colour/illuminant.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

PictureLight plain_light() {
    PictureLight light;
    light.white = {d50_icc.X, 1, d50_icc.Z};
    light.exposure = 0.8;
    return light;
}

bool raises(const PictureLight& before, const PictureLight& after, const std::string& code) {
    for (const Warning& warning : compare_light(before, after))
        if (warning.code == code) return true;
    return false;
}

}  // namespace

TEST_CASE("Two pictures of one light and exposure may be compared") {
    CHECK(compare_light(plain_light(), plain_light()).empty());
    PictureLight nearly = plain_light();
    nearly.white.Z *= 1.01, nearly.exposure *= 1.05;
    CHECK(compare_light(plain_light(), nearly).empty());
}

TEST_CASE("A white that moved by 3 % in blue is another light") {
    // CIE 15:2018, 8.2.1: at L* 50, f(Y) = 0.569; 3 % of Z is 200 · 0.569 · (1.03^(1/3) − 1) = 1.13 in b*, 5
    // % 1.87.
    PictureLight moved = plain_light();
    moved.white.Z *= 1.03;
    CHECK_FALSE(raises(plain_light(), moved, "light-changed"));
    moved.white.Z = d50_icc.Z * 1.05;
    CHECK(raises(plain_light(), moved, "light-changed"));
    CHECK(raises(moved, plain_light(), "light-changed"));
}

TEST_CASE("Exposures a fifth apart are named, by what is recorded or by what the file says") {
    PictureLight darker = plain_light();
    darker.exposure /= 1.2;
    CHECK(raises(plain_light(), darker, "exposure-differs"));
    PictureLight one = plain_light(), other = plain_light();
    one.set_exposure = 1.0, other.set_exposure = 1.25;
    CHECK(raises(one, other, "exposure-differs"));
    other.set_exposure.reset();
    CHECK_FALSE(raises(one, other, "exposure-differs"));
}

TEST_CASE("Raw and a developed picture are on two scales and are not held against each other") {
    PictureLight raw = plain_light();
    raw.raw = true, raw.exposure = 0.2, raw.white.Z *= 1.2;
    CHECK(compare_light(plain_light(), raw).empty());
}
