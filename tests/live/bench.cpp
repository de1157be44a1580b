// The bench behind the window, driven without one: what keys do to readings, jobs and settings.
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>
#include <thread>

#include "calibrate/keep/kept_calibration.h"
#include "live/bench.h"
#include "picture/input_error.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using tonemend::testing::ScratchFolder;

namespace fs = std::filesystem;

namespace {

// Settings and readings of the test's own.
class Home {
  public:
    Home() {
        setenv("XDG_CONFIG_HOME", (scratch_.path() / "config").c_str(), 1);
        setenv("XDG_DATA_HOME", (scratch_.path() / "data").c_str(), 1);
    }
    ~Home() {
        unsetenv("XDG_CONFIG_HOME");
        unsetenv("XDG_DATA_HOME");
    }
    Home(const Home&) = delete;
    Home& operator=(const Home&) = delete;
    fs::path jobs() const { return scratch_.path() / "data" / "tonemend" / "jobs"; }
    fs::path settings() const { return scratch_.path() / "config" / "tonemend" / "settings.json"; }

  private:
    ScratchFolder scratch_;
};

template <typename Condition>
void await(Bench& bench, Condition condition) {
    for (int i = 0; i < 4000; ++i) {
        bench.catch_up();
        if (condition()) return;
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
    FAIL("not within 20 s");
}

BenchOptions practice() {
    BenchOptions options;
    options.source = "practice";
    return options;
}

void measure(Bench& bench) {
    await(bench, [&] { return bench.newest_frame() != nullptr; });
    bench.perform(Action::select_original);
    bench.perform(Action::select_repair);
    await(bench, [&] { return bench.state().comparison.has_value() && !bench.state().stale; });
}

void keep_reading(Bench& bench) {
    const std::size_t before = bench.coats().size();
    bench.perform(Action::take_reading);
    REQUIRE(bench.coats().size() == before + 1);
    await(bench, [&] { return bench.coats().back().kept == Kept::saved; });
}

}  // namespace

TEST_CASE("A reading that is still being kept when a new piece begins is said, and is on its own job's row") {
    const Home home;
    Bench bench(practice(), [] {});
    measure(bench);
    keep_reading(bench);
    bench.perform(Action::take_reading);
    bench.perform(Action::new_piece);
    CHECK(bench.coats().empty());
    CHECK(bench.job() == home.jobs() / "practice-001");
    await(bench, [&] { return bench.notice().find("Kept as 0002") != std::string::npos; });
    CHECK(bench.coats().empty());
    bench.perform(Action::undo);
    CHECK(bench.job() == home.jobs() / "practice");
    CHECK(bench.coats().size() == 2);
}

TEST_CASE("Undo never reaches into a job that the source has left") {
    const Home home;
    Bench bench(practice(), [] {});
    measure(bench);
    keep_reading(bench);
    bench.perform(Action::new_piece);
    keep_reading(bench);
    const fs::path still = fs::path(TONEMEND_SOURCE_DIR) / "samples" / "seat-first-coat.jpg";
    bench.accept_drop(still);
    CHECK(bench.job() == home.jobs() / "bench");  // not a piece of the practice bench
    CHECK(bench.coats().empty());
    for (int i = 0; i < 6; ++i) bench.perform(Action::undo);
    CHECK(fs::exists(home.jobs() / "practice" / "0001-bench.json"));
    CHECK(fs::exists(home.jobs() / "practice-001" / "0001-bench.json"));
}

TEST_CASE("Nothing is kept of a source that has just been left") {
    const Home home;
    Bench bench(practice(), [] {});
    measure(bench);
    bench.accept_drop(fs::path(TONEMEND_SOURCE_DIR) / "samples" / "seat-first-coat.jpg");
    bench.perform(Action::take_reading);
    CHECK(bench.coats().empty());
    CHECK_FALSE(bench.notice().empty());
}

TEST_CASE("A source without controls says so when it is to hold still") {
    const Home home;
    BenchOptions options;
    options.source = (fs::path(TONEMEND_SOURCE_DIR) / "samples" / "seat-first-coat.jpg").string();
    Bench bench(options, [] {});
    bench.perform(Action::lock_camera);
    await(bench, [&] { return bench.notice().find("no controls") != std::string::npos; });
}

TEST_CASE("A card or a source that is away at the start is said, and the window opens all the same") {
    const Home home;
    fs::create_directories(home.settings().parent_path());
    std::ofstream(home.settings()) << R"({"source": "/dev/video97", "card": "/srv/nowhere/card.txt"})";
    {
        Bench bench(BenchOptions{}, [] {});
        CHECK(bench.settings().card == Settings{}.card);
        CHECK_FALSE(bench.notice().empty());
        CHECK(bench.settings().source == "/dev/video97");  // found again when it is back
    }
    BenchOptions options = practice();
    options.card = "/srv/nowhere/card.txt";
    CHECK_THROWS_AS(Bench(options, [] {}), InputError);
}

TEST_CASE("What is given by a short path is found again from another folder") {
    const Home home;
    const fs::path before = fs::current_path();
    fs::current_path(fs::path(TONEMEND_SOURCE_DIR) / "samples");
    {
        BenchOptions options;
        options.source = "seat-first-coat.jpg";
        Bench bench(options, [] {});
    }
    fs::current_path(before);
    CHECK(load_settings(home.settings()).settings.source ==
          (fs::path(TONEMEND_SOURCE_DIR) / "samples" / "seat-first-coat.jpg").string());
}

TEST_CASE("A saved calibration serves in the window until it is let go of, also after the next start") {
    const Home home;
    const fs::path file = fs::path(TONEMEND_TEST_DATA) / "calibration-1.json";
    const auto used = [](Bench& bench) {
        measure(bench);
        const auto& kept = bench.state().calibration->kept;
        return kept ? kept->made : std::string("none");
    };
    {
        BenchOptions options = practice();
        options.calibration = file.string();
        Bench bench(options, [] {});
        CHECK(used(bench) == "2026-11-25T10:09:00Z");
    }
    {
        Bench bench(practice(), [] {});
        CHECK(bench.settings().calibration == file.string());
        CHECK(used(bench) == "2026-11-25T10:09:00Z");
    }
    {
        BenchOptions options = practice();
        options.calibration = "none";
        Bench bench(options, [] {});
        CHECK(used(bench) == "none");
        bench.accept_drop(file);
        CHECK(bench.settings().calibration == file.string());
        await(bench, [&] { return bench.state().calibration && bench.state().calibration->kept; });
    }
    BenchOptions options = practice();
    options.calibration = home.settings().string();  // JSON, and no calibration
    CHECK_THROWS_AS(Bench(options, [] {}), InputError);
    std::ofstream(home.settings()) << R"({"source": "practice", "calibration": "/srv/nowhere/shop.json"})";
    Bench bench(practice(), [] {});
    CHECK(bench.settings().calibration.empty());
    CHECK_THAT(bench.notice(), contains("/srv/nowhere/shop.json"));
}

TEST_CASE("The lamp and the repair's colourants are stated by a key, kept with a reading, and come back") {
    const Home home;
    {
        Bench bench(practice(), [] {});
        measure(bench);
        CHECK_FALSE(bench.state().calibration->stated.light);
        for (int i = 0; i < 3; ++i) bench.perform(Action::next_light);
        bench.perform(Action::next_colourants);
        CHECK(bench.settings().light == "led:4000");
        CHECK_THAT(bench.notice(), contains("any hue"));
        await(bench, [&] { return bench.state().calibration && bench.state().calibration->stated.light; });
        CHECK(bench.state().calibration->stated.light->text == "led:4000");
        CHECK(bench.state().calibration->stated.colourants == RepairColourants::other);
        await(bench, [&] { return bench.state().comparison.has_value(); });
        keep_reading(bench);
        const auto kept = nlohmann::json::parse(std::ifstream(home.jobs() / "practice" / "0001-bench.json"));
        CHECK(kept["frame"]["stated"]["light"] == "led:4000");
        CHECK(kept["frame"]["stated"]["colourants"] == "other");
        CHECK(kept.contains("picture_light"));
    }
    {
        Bench bench(practice(), [] {});
        CHECK(bench.settings().light == "led:4000");
        CHECK(bench.settings().colourants == RepairColourants::other);
        measure(bench);
        CHECK(bench.state().calibration->stated.light->text == "led:4000");
    }
    BenchOptions options = practice();
    options.light = "3500";
    options.colourants = RepairColourants::same;
    {
        Bench bench(options, [] {});
        CHECK(bench.settings().light == "3500");
        CHECK(bench.settings().colourants == RepairColourants::same);
        bench.perform(Action::next_light);  // it is none of the choices
        CHECK(bench.settings().light.empty());
    }
    options.light = "none";
    CHECK(Bench(options, [] {}).settings().light.empty());
}

TEST_CASE("A lamp that cannot be is refused as an option, and costs nothing but itself as a setting") {
    const Home home;
    BenchOptions options = practice();
    options.light = "moon";
    CHECK_THROWS_WITH(Bench(options, [] {}), contains("--light moon"));
    fs::create_directories(home.settings().parent_path());
    std::ofstream(home.settings()) << R"({"source": "practice", "light": "moon", "colourants": "ink"})";
    Bench bench(practice(), [] {});
    CHECK(bench.settings().light.empty());
    CHECK(bench.settings().colourants == RepairColourants::earth);
    CHECK_THAT(bench.notice(), contains("moon"));
}

TEST_CASE(
    "Another lamp than the reading's that the present is held against is said, and kept with the next") {
    const Home home;
    Bench bench(practice(), [] {});
    measure(bench);
    const auto changed = [&] {
        for (const Warning& warning : bench.warnings())
            if (warning.code == "light-changed") return warning.text;
        return std::string();
    };
    keep_reading(bench);
    CHECK(changed().empty());
    bench.perform(Action::next_lamp);
    await(bench, [&] { return !changed().empty() && !bench.state().stale; });
    CHECK_THAT(changed(), contains("not as in reading 1: the light"));
    keep_reading(bench);
    const auto kept = nlohmann::json::parse(std::ifstream(home.jobs() / "practice" / "0002-bench.json"));
    CHECK(kept["warnings"].back()["code"] == "light-changed");
    // The newest reading is of the present lamp; the first is not, and stands beside it in this view.
    await(bench, [&] { return changed().empty(); });
    while (bench.mode() != PictureMode::before_now) bench.perform(Action::next_view);
    CHECK_THAT(changed(), contains("not as in reading 1: the light"));
    bench.perform(Action::later_reading);
    CHECK(changed().empty());
}
