// A lamp that beats with the mains, as a camera catches it. The light of frame after frame is the mean of
// 1 + m sin(2πft) over the exposure, in closed form; that it is constant where the exposure is a whole number
// of periods is arithmetic. 100 and 120 Hz: twice the mains' frequency.
#include "calibrate/preflight/lamp_flicker.h"

#include <cmath>
#include <numbers>
#include <random>

#include "tests/catch.h"

using namespace tonemend;

namespace {

constexpr double pi = std::numbers::pi;

struct PulsingLamp {
    double hertz = 100, modulation = 0.3;
};

// Mean over the exposure that begins at `start`, both in seconds.
double caught(const PulsingLamp& lamp, double start, double exposure) {
    const double w = 2 * pi * lamp.hertz;
    return 1 + lamp.modulation * (std::cos(w * start) - std::cos(w * (start + exposure))) / (w * exposure);
}

LampFlicker watch(const PulsingLamp& lamp, double exposure, double frames_per_second, int frames = 48) {
    LampFlicker flicker;
    for (int i = 0; i < frames; ++i) flicker.see(100 * caught(lamp, i / frames_per_second, exposure), 0);
    return flicker;
}

template <typename Light>
bool flickers(int frames, double u, Light light) {
    LampFlicker flicker;
    for (int i = 0; i < frames; ++i) {
        flicker.see(light(i), u);
        if (flicker.swing()) return true;
    }
    return false;
}

}  // namespace

TEST_CASE("A lamp on 50 Hz beats at 15 and 30 frames a second, unless exposed for whole hundredths") {
    for (const double rate : {15.0, 30.0}) {
        INFO(rate);
        CHECK(watch({}, 1 / 250.0, rate).swing());
        CHECK(watch({}, 1 / 60.0, rate).swing());
        for (const int hundredths : {1, 2, 4}) CHECK_FALSE(watch({}, hundredths / 100.0, rate).swing());
    }
}

TEST_CASE("A lamp on 60 Hz beats at 25 frames a second, unless exposed for whole 120ths") {
    const PulsingLamp lamp{120};
    CHECK(watch(lamp, 1 / 250.0, 25).swing());
    CHECK(watch(lamp, 1 / 100.0, 25).swing());
    for (const int times : {1, 2, 4}) CHECK_FALSE(watch(lamp, times / 120.0, 25).swing());
    // At 30 a second every frame catches the same moment of it, and nothing is to be seen.
    CHECK_FALSE(watch(lamp, 1 / 250.0, 30).swing());
}

TEST_CASE("The swing is the light's own, peak to peak, and the warning says it with the cure") {
    // 0.3 of a period from frame to frame: ten moments of it, the farthest 9° from the peaks.
    LampFlicker flicker;
    for (int i = 0; i < 48; ++i) flicker.see(7 * (1 + 0.03 * std::sin(2 * pi * 0.3 * i)), 0);
    REQUIRE(flicker.swing());
    CHECK(*flicker.swing() == Approx(0.06 * std::cos(pi / 10)).epsilon(0.001));
    const auto warning = warn_of_flicker(flicker);
    REQUIRE(warning);
    CHECK(warning->code == "light-flickers");
    CHECK_FALSE(warning->unfit);
    CHECK_THAT(warning->text, contains("5.7 %") && contains("1/100") && contains("1/120"));
    CHECK_FALSE(warn_of_flicker(LampFlicker{}));
}

TEST_CASE("The least swing that is told is 1 %, and six times the noise where that is more") {
    const auto swings = [](double swing, double u) {
        return flickers(48, u, [swing](int i) { return i % 2 ? 1 + swing / 2 : 1 - swing / 2; });
    };
    CHECK_FALSE(swings(0.0099, 0));
    CHECK(swings(0.0101, 0));
    CHECK_FALSE(swings(0.029, 0.005));
    CHECK(swings(0.031, 0.005));
}

TEST_CASE("Noise, a lamp that is turned, a drift, a passing hand and a camera that hunts are no flicker") {
    std::mt19937 random(7);
    for (const double u : {0.001, 0.01, 0.1}) {
        std::normal_distribution<double> noise(1, u);
        CHECK_FALSE(flickers(2000, u, [&](int) { return noise(random); }));
    }
    CHECK_FALSE(flickers(100, 0.001, [](int i) { return i < 50 ? 1 : 1.6; }));
    CHECK_FALSE(flickers(100, 0.001, [](int i) { return 1 + 0.01 * i; }));
    CHECK_FALSE(flickers(100, 0.001, [](int i) { return i > 40 && i < 50 ? 0.7 : 1; }));
    CHECK_FALSE(flickers(100, 0.001, [](int i) { return 1 + 0.3 * std::exp(-i / 6.0) * std::cos(i / 3.0); }));
}

TEST_CASE("What was seen before a movement says nothing after it, and no light at all is passed over") {
    LampFlicker flicker = watch({}, 1 / 250.0, 15);
    REQUIRE(flicker.swing());
    flicker.clear();
    CHECK_FALSE(flicker.swing());
    for (int i = 0; i < 48; ++i) {
        flicker.see(i % 2 ? 0 : std::nan(""), 0);
        flicker.see(1, std::nan(""));
    }
    CHECK_FALSE(flicker.swing());
}
