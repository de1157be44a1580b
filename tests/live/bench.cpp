// The bench behind the window, driven without one: what keys do to readings, jobs and settings.
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <thread>

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
