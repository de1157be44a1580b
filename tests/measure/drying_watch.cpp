// The watch over a drying region: states, jumps, pauses, marks. Waits are common practice, no source.
#include "measure/drying_watch.h"

#include <cmath>

#include "measure/normal_draws.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

// An oil stain that dries with a time constant of 12 minutes; noise as of a steady bench.
struct Bench {
    double tau = 720;
    NormalDraws normal{3};
    DryingWatch watch{DryingKind::fast_oil};

    Lab colour(double age) const {
        const double left = std::exp(-age / tau);
        return {50 - 8 * left, 14 + left, 26 + 2 * left};
    }
    TimedLab reading(double seconds, Lab lab) {
        lab.L += 0.06 * normal(), lab.a += 0.06 * normal(), lab.b += 0.06 * normal();
        return {seconds, lab, {0.3, 0.3, 0.3}};
    }
    void follow(double from, double until, double wet_at = 0, double interval = 60) {
        for (double t = from; t <= until; t += interval) watch.add(reading(t, colour(t - wet_at)));
    }
};

}  // namespace

TEST_CASE("Every kind of colourant has a name of its own and a wait") {
    const auto& waits = drying_waits();
    for (std::size_t i = 0; i < waits.size(); ++i) {
        CHECK(waits[i].kind == static_cast<DryingKind>(i));
        CHECK(waits[i].minutes > 0);
        CHECK(find_drying_kind(waits[i].name) == waits[i].kind);
    }
    CHECK(!find_drying_kind("paint"));
    // Common practice: a fast-drying oil stain needs about three quarters of an hour.
    CHECK(wait_of(DryingKind::fast_oil).minutes == 45);
}

TEST_CASE("A drying surface is watched, then settling, then settled, and the change since wet is told") {
    Bench bench;
    bench.follow(0, 120);
    CHECK(bench.watch.report().state == DryingState::watching);
    CHECK_THAT(say_state(bench.watch.report()), contains("45 minutes is usual"));
    bench.follow(180, 1500);
    const DryingReport halfway = bench.watch.report();
    CHECK(halfway.state == DryingState::settling);
    CHECK_THAT(say_state(halfway), contains("still settling, about "));
    CHECK_THAT(say_state(halfway), contains("to within 0.5"));
    bench.follow(1560, 4500);
    const DryingReport end = bench.watch.report();
    CHECK(end.state == DryingState::settled);
    CHECK(say_state(end) == "settled");
    CHECK(end.changed() > 6);
    CHECK(end.restarts == 0);
    CHECK(end.fit.now.L - end.fit.wet.L == Approx(8).margin(0.6));
}

TEST_CASE("The label's own time goes before the usual wait and is called so") {
    const DryingWatch watch(DryingKind::fast_oil, 90);
    CHECK(watch.report().wait_minutes == 90);
    CHECK(watch.report().wait_is_labels);
    CHECK_THAT(say_state(watch.report()), contains("by the label 90 minutes"));
}

TEST_CASE("One reading far off is held and left out") {
    Bench bench;
    bench.follow(0, 1200);
    CHECK(bench.watch.add({1230, {20, 5, 5}, {}}) == DryingWatch::Taken::held);
    CHECK(bench.watch.add(bench.reading(1260, bench.colour(1260))) == DryingWatch::Taken::added);
    CHECK(bench.watch.report().restarts == 0);
    bench.follow(1320, 4500);
    CHECK(bench.watch.report().state == DryingState::settled);
}

TEST_CASE("Another coat begins the curve anew, also after it had settled") {
    Bench bench;
    bench.follow(0, 4500);
    REQUIRE(bench.watch.report().state == DryingState::settled);
    const auto darker = [&](double t) {
        Lab lab = bench.colour(t - 4600);
        lab.L -= 4;
        return bench.reading(t, lab);
    };
    CHECK(bench.watch.add(darker(4600)) == DryingWatch::Taken::held);
    CHECK(bench.watch.report().state != DryingState::settled);
    CHECK(bench.watch.add(darker(4660)) == DryingWatch::Taken::restarted);
    CHECK(bench.watch.report().restarts == 1);
    CHECK(bench.watch.report().state == DryingState::watching);
    for (double t = 4720; t < 9500; t += 60) bench.watch.add(darker(t));
    const DryingReport end = bench.watch.report();
    CHECK(end.state == DryingState::settled);
    CHECK(end.restarts == 1);
    CHECK(end.fit.final.L == Approx(46).margin(0.4));
}

TEST_CASE("A pause of an hour begins nothing anew") {
    Bench bench;
    bench.follow(0, 900);
    bench.follow(4500, 5400);
    const DryingReport end = bench.watch.report();
    CHECK(end.restarts == 0);
    CHECK(end.state == DryingState::settled);
    CHECK(end.fit.wet.L < 44);
}

TEST_CASE("A reading that is no later than the last is left out") {
    Bench bench;
    bench.follow(0, 300);
    CHECK(bench.watch.add(bench.reading(300, bench.colour(300))) == DryingWatch::Taken::too_old);
    CHECK(bench.watch.report().readings == 6);
}

TEST_CASE("A reading made while settling is marked, one made after is not") {
    Bench bench;
    CHECK(warn_of_settling(bench.watch.report())->unfit);
    bench.follow(0, 4500);
    const auto early = warn_of_settling(bench.watch.report_at(600));
    REQUIRE(early);
    CHECK(early->code == "still-settling");
    CHECK(early->unfit);
    CHECK_THAT(early->text, contains("still to go"));
    const auto late = warn_of_settling(bench.watch.report_at(1700));
    REQUIRE(late);
    CHECK(!late->unfit);
    CHECK(!warn_of_settling(bench.watch.report_at(4500)));
    CHECK(!warn_of_settling(bench.watch.report_at(90000)));
}
