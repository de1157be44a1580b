#include "colour/srgb_curve.h"

#include <lcms2.h>

#include <cmath>

#include "tests/catch.h"
#include "tests/support/check_tight.h"

using namespace tonemend;

TEST_CASE("The sRGB curve passes the anchors of IEC 61966-2-1") {
    CHECK(encode_srgb(0) == 0);
    CHECK(encode_srgb(1) == Approx(1).epsilon(1e-15));
    CHECK(decode_srgb(1) == Approx(1).epsilon(1e-15));
    // ((0.5 + 0.055)/1.055)^2.4 and 1.055·0.18^(1/2.4) − 0.055, worked apart.
    CHECK(decode_srgb(0.5) == Approx(0.21404114).margin(5e-9));
    CHECK(encode_srgb(0.18) == Approx(0.46135613).margin(5e-9));
    CHECK(encode_srgb(0.001) == Approx(0.01292).epsilon(1e-15));
}

TEST_CASE("The sRGB curve agrees with Little CMS") {
    const double parameters[] = {2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045};
    cmsToneCurve* curve = cmsBuildParametricToneCurve(nullptr, 4, parameters);
    REQUIRE(curve);
    double worst = 0;
    for (int i = 0; i <= 65535; ++i) {
        const float encoded = static_cast<float>(i) / 65535;
        worst = std::fmax(worst, std::abs(decode_srgb(static_cast<double>(encoded)) -
                                          static_cast<double>(cmsEvalToneCurveFloat(curve, encoded))));
    }
    cmsFreeToneCurve(curve);
    check_tight("sRGB decoding against Little CMS in single precision", worst, 6e-8);
}

TEST_CASE("The sRGB curve is undone by its inverse, rises everywhere and mirrors below zero") {
    double worst = 0;
    for (int i = 1; i <= 40000; ++i) {
        const double x = i / 20000.0;
        worst = std::fmax(worst, std::abs(decode_srgb(encode_srgb(x)) - x));
        REQUIRE(encode_srgb(x) > encode_srgb(x - 1 / 20000.0));
        REQUIRE(encode_srgb(-x) == -encode_srgb(x));
        REQUIRE(decode_srgb(-x) == -decode_srgb(x));
    }
    check_tight("sRGB there and back", worst, 2e-15);
    // Between the two knees as the standard rounds them the way there and the way back differ.
    const double knee = 0.0031308;
    CHECK(std::abs(decode_srgb(encode_srgb(knee)) - knee) < 1e-15);
    CHECK(std::abs(decode_srgb(encode_srgb(std::nextafter(knee, 1))) - knee) < 2e-8);
}
