// The second light behind the window: what its key does, in turn.
#include <chrono>
#include <cstdlib>
#include <thread>

#include "live/bench.h"
#include "live/second_light_view.h"
#include "tests/catch.h"
#include "tests/support/bench_scene.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

template <typename Condition>
void await_light(Bench& bench, Condition condition) {
    for (int i = 0; i < 4000; ++i) {
        bench.catch_up();
        if (condition()) return;
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
    FAIL("not within 20 s");
}

struct Picture {
    Frame frame;
    std::shared_ptr<const Calibration> calibration;
    Comparison comparison;

    explicit Picture(const Lab& repair, double blue = 1) {
        BenchScene scene;
        scene.wood = [=](int x, int) { return x < 180 ? Lab{52, 14, 27} : repair; };
        frame = scene.frame();
        auto fitted = calibrate_on_card(frame, neutral_card(scene.steps), BenchScene::card_corners);
        fitted.white.Z *= blue;
        calibration = std::make_shared<const Calibration>(fitted);
        comparison = compare_regions(frame, *calibration, scene.original, scene.repair);
    }
};

}  // namespace

TEST_CASE("A held light is compared once the lamp is another: said, seen on the card, or stated") {
    const Picture before({52, 14, 27}), same({50, 17, 27}), warmer({50, 17, 27}, 0.8);
    const auto held = hold_light(before.frame, before.calibration, before.comparison, std::nullopt);
    const auto compare = [&](const Picture& now, LampSaid said,
                             const std::optional<StatedLight>& stated = {}) {
        return compare_with_held(held, said, now.frame, now.calibration, now.comparison, stated);
    };
    CHECK_FALSE(compare(same, LampSaid::nothing).change);
    CHECK(compare(same, LampSaid::changed).change);
    CHECK(compare(warmer, LampSaid::nothing).change);
    const auto change = compare(same, LampSaid::changed).change;
    CHECK(change->verdict == LightVerdict::alarm);
    CHECK(change->shift[1] == Approx(3).margin(0.1));
    // A job keeps both lights, each with its own reading.
    const PairUnderLights both =
        under_both(compare(same, LampSaid::changed), same.frame, same.calibration, same.comparison);
    REQUIRE(both.lights.size() == 2);
    CHECK(both.lights[0].light.name == "light one");
    CHECK(both.lights[1].light.name == "light two");
    CHECK(both.lights[1].comparison.difference.de2000 == same.comparison.difference.de2000);
    CHECK(both.verdict() == LightVerdict::alarm);
    const auto bulb = hold_light(before.frame, before.calibration, before.comparison, parse_light("CIE-A"));
    CHECK(compare_with_held(bulb, LampSaid::nothing, same.frame, same.calibration, same.comparison,
                            parse_light("CIE-D65"))
              .change);
}

TEST_CASE("One key holds light one, says that the lamp is another, and lets go") {
    const ScratchFolder home;
    setenv("XDG_CONFIG_HOME", (home.path() / "config").c_str(), 1);
    setenv("XDG_DATA_HOME", (home.path() / "data").c_str(), 1);
    {
        BenchOptions options;
        options.source = "practice";
        Bench bench(options, [] {});
        bench.perform(Action::second_light);
        CHECK(bench.notice().starts_with("No reading to hold"));
        await_light(bench, [&] { return bench.newest_frame() != nullptr; });
        bench.perform(Action::select_original);
        bench.perform(Action::select_repair);
        await_light(bench, [&] { return bench.state().comparison.has_value(); });
        CHECK(second_light_word(bench.state()).empty());
        bench.perform(Action::second_light);
        await_light(bench, [&] { return second_light_word(bench.state()) == "held"; });
        const double first = bench.state().held->first->pair.comparison.difference.de2000;
        bench.perform(Action::next_lamp);
        bench.perform(Action::second_light);
        await_light(bench, [&] { return bench.state().held && bench.state().held->change; });
        CHECK(bench.state().held->first->pair.comparison.difference.de2000 == first);
        bench.perform(Action::second_light);
        await_light(bench, [&] { return !bench.state().held; });
    }
    unsetenv("XDG_CONFIG_HOME");
    unsetenv("XDG_DATA_HOME");
}
