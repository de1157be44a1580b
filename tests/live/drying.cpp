// The drying watch behind the window: its readings, its log, its mark on a reading, its key.
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <thread>

#include "live/bench.h"
#include "live/drying_follower.h"
#include "tests/catch.h"
#include "tests/support/bench_scene.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

// A scene whose repair has dried for so many minutes: L* rises by 6 with a time constant of 8 minutes. Wet
// stain looks darker than dry (common practice, no source).
BenchState after_minutes(double minutes) {
    BenchScene scene;
    const Lab repair{52 - 6 * std::exp(-minutes / 8), 14, 27};
    scene.wood = [=](int x, int) { return x < 180 ? Lab{52, 14, 27} : repair; };
    BenchState state;
    state.measured = state.frame = std::make_shared<const Frame>(scene.frame());
    state.calibration = std::make_shared<const Calibration>(
        calibrate_on_card(*state.frame, neutral_card(scene.steps), BenchScene::card_corners));
    state.regions.original = scene.original, state.regions.repair = scene.repair;
    state.comparison = compare_regions(*state.frame, *state.calibration, scene.original, scene.repair);
    return state;
}

bool is_marked(const BenchState& state) {
    for (const Warning& warning : state.comparison->warnings)
        if (warning.code == "still-settling") return true;
    return false;
}

constexpr double begin = 1.7e9;  // seconds since 1970

template <typename Condition>
void await_bench(Bench& bench, Condition condition) {
    for (int i = 0; i < 4000; ++i) {
        bench.catch_up();
        if (condition()) return;
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
    FAIL("not within 20 s");
}

}  // namespace

TEST_CASE("A watched repair is read every so often, marked while it settles, and no more once it has") {
    const ScratchFolder folder;
    DryingFollower follower(folder.path() / "seat.log", DryingKind::dye_water, BenchScene{}.repair, 60);
    bool marked_wet = false, settled = false;
    for (int minute = 0; minute <= 80; ++minute) {
        BenchState state = after_minutes(minute);
        mark_drying(state, follower, begin + 60 * minute);
        const DryingReport report = state.drying->report;
        CHECK(report.readings == minute + 1);
        // Half a minute later it is not yet time for another.
        BenchState soon = after_minutes(minute + 0.5);
        mark_drying(soon, follower, begin + 60 * minute + 30);
        CHECK(soon.drying->report.readings == minute + 1);
        if (minute < 8) marked_wet = marked_wet || is_marked(state);
        settled = report.state == DryingState::settled;
        CHECK(is_marked(state) == !settled);
        if (settled) break;
        if (minute > 40) CHECK(std::abs(report.fit.final.L - 52) < 1);
    }
    CHECK(marked_wet);
    CHECK(settled);
}

TEST_CASE("A watch goes on from its log") {
    const ScratchFolder folder;
    const auto log = folder.path() / "seat.log";
    {
        DryingFollower follower(log, DryingKind::dye_water, BenchScene{}.repair, 60);
        for (int minute = 0; minute < 5; ++minute) {
            BenchState state = after_minutes(minute);
            mark_drying(state, follower, begin + 60 * minute);
        }
    }
    DryingFollower again(log, DryingKind::unknown, BenchScene{}.repair, 60);
    CHECK(again.kind() == DryingKind::dye_water);
    BenchState later = after_minutes(30);
    mark_drying(later, again, begin + 60 * 30);
    CHECK(later.drying->report.readings == 6);
    CHECK(later.drying->report.seen_minutes == Approx(30).margin(0.01));
}

TEST_CASE("A reading that cannot be made is said and the watch goes on") {
    const ScratchFolder folder;
    DryingFollower follower(folder.path() / "seat.log", DryingKind::dye_water, BenchScene{}.repair, 60);
    BenchState state = after_minutes(0);
    auto spoilt = std::make_shared<Calibration>(*state.calibration);
    spoilt->warnings.push_back({"card-clipped", "the card is clipped; expose less", true});
    state.calibration = spoilt;
    mark_drying(state, follower, begin);
    CHECK(state.drying->trouble == "the card is clipped; expose less");
    CHECK(state.drying->report.readings == 0);
    BenchState good = after_minutes(1);
    mark_drying(good, follower, begin + 60);
    CHECK(good.drying->trouble.empty());
    CHECK(good.drying->report.readings == 1);
}

TEST_CASE("One key begins and ends the watch, and the next start goes on with it") {
    const ScratchFolder home;
    setenv("XDG_CONFIG_HOME", (home.path() / "config").c_str(), 1);
    setenv("XDG_DATA_HOME", (home.path() / "data").c_str(), 1);
    std::string log;
    {
        BenchOptions options;
        options.source = "practice";
        Bench bench(options, [] {});
        bench.perform(Action::watch_drying);
        CHECK(bench.notice().starts_with("Nothing to watch yet"));
        await_bench(bench, [&] { return bench.newest_frame() != nullptr; });
        bench.perform(Action::next_drying_kind);
        CHECK(bench.settings().drying_kind != DryingKind::unknown);
        bench.perform(Action::select_original);
        bench.perform(Action::select_repair);
        await_bench(bench, [&] { return bench.state().comparison.has_value(); });
        CHECK(bench.state().drying == nullptr);
        bench.perform(Action::watch_drying);
        await_bench(bench, [&] { return bench.state().drying && bench.state().drying->report.readings > 0; });
        log = bench.settings().drying;
        CHECK(std::filesystem::exists(log));
    }
    {
        Bench bench({}, [] {});
        await_bench(bench, [&] { return bench.state().drying && bench.state().comparison; });
        CHECK(bench.settings().drying == log);
        bench.perform(Action::watch_drying);
        await_bench(bench, [&] { return !bench.state().drying; });
        CHECK(bench.settings().drying.empty());
        CHECK(std::filesystem::exists(log));
    }
    unsetenv("XDG_CONFIG_HOME");
    unsetenv("XDG_DATA_HOME");
}
