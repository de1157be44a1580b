// The settling curves against what they must reproduce: exponentials in closed form.
#include "measure/settling.h"

#include <cmath>

#include "colour/difference.h"
#include "measure/normal_draws.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

// A closed-form recovery: final + size · exp(−t/tau), every `interval` seconds until `until`.
struct Recovery {
    Lab final{55, 12, 25};
    std::array<double, 3> size{-7, 2, 3};
    double tau = 600, noise = 0;
    std::uint64_t seed = 7;

    double left(double t) const { return std::exp(-t / tau); }
    Lab at(double t) const {
        return {final.L + size[0] * left(t), final.a + size[1] * left(t), final.b + size[2] * left(t)};
    }
    std::vector<TimedLab> readings(double until, double interval = 30) const {
        NormalDraws normal(seed);
        std::vector<TimedLab> list;
        for (double t = 0; t <= until; t += interval) {
            Lab lab = at(t);
            lab.L += noise * normal(), lab.a += noise * normal(), lab.b += noise * normal();
            list.push_back({1e9 + t, lab, {0.3, 0.3, 0.3}});
        }
        return list;
    }
    // Seconds until within half a ΔE2000.
    double settled() const {
        double t = 0;
        while (ciede2000(at(t), final).value > settled_within) t += 1;
        return t;
    }
};

}  // namespace

TEST_CASE("What is left of a change begins at one and halves as stated") {
    const SettlingShape one{900, 0, 0, 1};
    CHECK(one.left(0) == 1);
    CHECK(one.left(900) == Approx(1.0 / 16).epsilon(1e-12));
    CHECK(one.left(225) == Approx(0.5).epsilon(1e-12));
    const SettlingShape dragging{900, 1, 0, 1};
    CHECK(dragging.left(900) == Approx(1.0 / 16).epsilon(1e-12));
    CHECK(dragging.left(60) == Approx(0.5).epsilon(1e-12));  // second order: 1/(1 + 15·t/900)
    const SettlingShape two{900, 0, 0.5, 4};
    CHECK(two.left(0) == 1);
    CHECK(two.left(225) == Approx(0.5 * 0.5 + 0.5 / 16).epsilon(1e-12));
}

TEST_CASE("The time at which a part is left is the inverse of what is left") {
    for (const SettlingShape& shape :
         {SettlingShape{900, 0, 0, 1}, {900, 0.4, 0, 1}, {900, 0, 0.6, 15}, {900, 0.2, 0.3, 2}})
        for (const double part : {0.9, 0.5, 0.1, 0.003})
            CHECK(shape.left(shape.time_of(part)) == Approx(part).epsilon(1e-6));
}

TEST_CASE("The shapes' prior is log-normal in the scale and else adds up to one at each scale") {
    double here = 0, off = 0;
    for (const WeighedShape& shape : make_shapes({40, 1}, 60 * 40, 60 * 40 * std::exp(1), 2))
        (shape.shape.scale < 2401 ? here : off) += std::exp(shape.log_prior);
    CHECK(here == Approx(1).epsilon(1e-6));
    CHECK(off / here == Approx(std::exp(-0.5)).epsilon(1e-9));
}

TEST_CASE("An exponential with noise gives back its end and its time") {
    Recovery truth;
    truth.noise = 0.03;
    const double whole = truth.settled();
    constexpr int times = 40;
    int near = 0, in_time = 0, within = 0;
    for (truth.seed = 1; truth.seed <= times; ++truth.seed) {
        const auto readings = truth.readings(0.8 * whole);
        const SettlingFit fit = SettlingCurves(readings, {40, 1.4}).at(readings.back().seconds);
        near += std::abs(fit.final.L - truth.final.L) < fit.final_u95[0];
        CHECK(fit.final_u95[0] < 1.5);
        const double to_go = (whole - (readings.back().seconds - 1e9)) / 60;
        in_time += std::abs(fit.minutes.middle - to_go) < 0.25 * whole / 60;
        within += fit.minutes.low <= to_go && to_go <= fit.minutes.high;
    }
    // A 95 % interval holds fewer than 34 of 40 once in 200 times.
    CHECK(near >= 34);
    CHECK(within >= 34);
    CHECK(in_time >= 34);
}

TEST_CASE("Once an exponential has run its course nothing is left and the end is known closely") {
    Recovery truth;
    truth.noise = 0.08;
    const auto readings = truth.readings(2 * truth.settled());
    const SettlingFit fit = SettlingCurves(readings, {40, 1.4}).at(readings.back().seconds);
    CHECK(fit.surely_within > 0.99);
    CHECK(fit.minutes.middle == 0);
    CHECK(ciede2000(fit.final, truth.final).value < 0.15);
    CHECK(ciede2000(fit.wet, truth.at(0)).value < 0.5);
}

TEST_CASE("The first minute says nothing that the prior does not") {
    Recovery truth;
    truth.tau = 3600;
    const auto readings = truth.readings(60, 15);
    const SettlingFit fit = SettlingCurves(readings, {60, 0.8}).at(readings.back().seconds);
    CHECK(fit.minutes.middle > 10);
    CHECK(fit.minutes.middle < 240);
    CHECK(fit.minutes.high > 4 * fit.minutes.low);
    CHECK(fit.surely_within < 0.2);
}

TEST_CASE("A reading far off the others changes the end by little") {
    Recovery truth;
    truth.noise = 0.08;
    auto readings = truth.readings(truth.settled());
    const SettlingFit before = SettlingCurves(readings, {40, 1.4}).at(readings.back().seconds);
    readings[readings.size() / 2].lab.L -= 15;
    const SettlingFit after = SettlingCurves(readings, {40, 1.4}).at(readings.back().seconds);
    CHECK(ciede2000(before.final, after.final).value < 0.15);
}

TEST_CASE("A pause in the readings leaves the forecast in its interval") {
    Recovery truth;
    truth.noise = 0.08;
    auto readings = truth.readings(truth.settled());
    std::erase_if(readings, [&](const TimedLab& reading) {
        const double t = reading.seconds - 1e9;
        return t > 300 && t < 1100;
    });
    const SettlingFit fit = SettlingCurves(readings, {40, 1.4}).at(readings.back().seconds);
    CHECK(std::abs(fit.final.L - truth.final.L) < fit.final_u95[0] + 0.1);
}

TEST_CASE("Scatter is found from neighbours in time, on a slope as on the level") {
    Recovery truth;
    truth.noise = 0.2;
    const auto scatter = find_scatter(truth.readings(3000, 10));
    for (const double one : scatter) {
        CHECK(one > 0.15);
        CHECK(one < 0.25);
    }
}

TEST_CASE("Readings without noise are not taken for perfect") {
    Recovery truth;
    for (const double one : find_scatter(truth.readings(3000, 10))) CHECK(one >= 0.01);
}

TEST_CASE("Many readings are gathered into few points that keep their mean") {
    Recovery truth;
    const auto readings = truth.readings(36000, 5);
    const std::vector<double> weights(readings.size(), 1);
    const auto points = gather_points(readings, weights, {0.1, 0.1, 0.1});
    CHECK(readings.size() > 7000);
    CHECK(points.size() < 200);
    CHECK(points.back().lab[0] == Approx(truth.final.L).margin(0.01));
    CHECK(points.back().variance[0] < points.front().variance[0]);
}
