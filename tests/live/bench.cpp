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
    /// The text of a kept reading of the practice bench's store.
    nlohmann::json kept(int number) const {
        JobStore store(practice_store(), StoreUse::reading);
        for (const Piece& piece : store.pieces(store.find_job("Practice").uid))
            for (const Area& area : store.areas(piece.uid))
                for (const ReadingRecord& reading : store.readings(area.uid))
                    if (reading.number == number)
                        return nlohmann::json::parse(store.reading_text(reading.uid));
        return {};
    }
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
    CHECK(bench.place().piece == "Piece 2");
    await(bench, [&] { return bench.notice().find("as reading 2") != std::string::npos; });
    CHECK(bench.coats().empty());
    bench.perform(Action::undo);
    CHECK(bench.place().job == "Practice");
    CHECK(bench.place().piece == "Piece 1");
    CHECK(bench.coats().size() == 2);
    // Nothing was kept in the new piece: it is gone again.
    JobStore store(practice_store(), StoreUse::reading);
    CHECK(store.pieces(store.find_job("Practice").uid).size() == 1);
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
    CHECK(bench.place().job.empty());  // not a piece of the practice bench, and nothing is kept yet
    CHECK(bench.place_words() == "Bench");
    CHECK(bench.coats().empty());
    for (int i = 0; i < 6; ++i) bench.perform(Action::undo);
    CHECK_FALSE(home.kept(1).empty());
    CHECK_FALSE(home.kept(2).empty());
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
        const auto kept = home.kept(1);
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
    const auto kept = home.kept(2);
    CHECK(kept["warnings"].back()["code"] == "light-changed");
    // The newest reading is of the present lamp; the first is not, and stands beside it in this view.
    await(bench, [&] { return changed().empty(); });
    while (bench.mode() != PictureMode::before_now) bench.perform(Action::next_view);
    CHECK_THAT(changed(), contains("not as in reading 1: the light"));
    bench.perform(Action::later_reading);
    CHECK(changed().empty());
}

TEST_CASE("Jobs are started, found, left and come back on the page of jobs; a coat is recorded on its own") {
    const Home home;
    Bench bench(practice(), [] {});
    measure(bench);
    const auto type = [&](std::string_view text) {
        for (const char c : text) bench.type(static_cast<char32_t>(c));
    };
    bench.perform(Action::show_jobs);
    REQUIRE(bench.typing());
    CHECK(bench.desk().lines().empty());
    bench.press_desk(DeskKey::start);
    CHECK_THAT(bench.notice(), contains("type the new job's name"));
    type("Chapel bench");
    bench.press_desk(DeskKey::start);
    CHECK(bench.place().job == "Chapel bench");
    type("Left arm");
    CHECK(bench.desk().lines().empty());  // none is found by that
    for (int i = 0; i < 8; ++i) bench.press_desk(DeskKey::rub_out);
    CHECK(bench.desk().typed().empty());
    bench.type(U'é');
    CHECK(bench.desk().typed() == "é");
    bench.press_desk(DeskKey::rub_out);
    CHECK(bench.desk().typed().empty());
    bench.press_desk(DeskKey::leave);
    CHECK_FALSE(bench.typing());
    keep_reading(bench);
    bench.perform(Action::record_coat);
    type("Walnut 4");
    bench.press_desk(DeskKey::later);
    type("alcohol");
    bench.press_desk(DeskKey::later);
    type("2-1");
    bench.press_desk(DeskKey::enter);
    CHECK_THAT(bench.notice(), contains("'2-1' is no dilution"));
    for (int i = 0; i < 2; ++i) bench.press_desk(DeskKey::rub_out);
    type(":1");
    bench.press_desk(DeskKey::enter);
    CHECK_THAT(bench.notice(), contains("Step 1 is recorded: dye 'Walnut 4'"));
    bench.perform(Action::take_after);
    await(bench, [&] { return bench.coats().size() == 2 && bench.coats().back().kept == Kept::saved; });

    JobStore store(practice_store(), StoreUse::reading);
    const JobDossier kept = store.dossier(store.find_job("chapel bench").uid);
    const JobDossier::AreaDossier& area = kept.pieces.at(0).areas.at(0);
    REQUIRE(area.steps.size() == 1);
    CHECK(area.steps[0].dilution == "2:1");
    REQUIRE(area.readings.size() == 2);
    CHECK(area.readings[0].record.role == ReadingRole::before);
    CHECK(area.readings[1].record.role == ReadingRole::after);
    CHECK(area.comparisons.size() == 1);

    // Another job, and back to the first by a search for its colourant.
    bench.perform(Action::show_jobs);
    type("Chest");
    bench.press_desk(DeskKey::start);
    CHECK(bench.coats().empty());
    type("walnut");
    REQUIRE(bench.desk().lines().size() == 1);
    bench.press_desk(DeskKey::copy);  // to the chest, where readings go now
    CHECK_THAT(bench.notice(), contains("1 steps of job 1"));
    bench.press_desk(DeskKey::close);
    CHECK_THAT(bench.notice(), contains("Job 1 is closed"));
    bench.press_desk(DeskKey::enter);
    CHECK_FALSE(bench.typing());
    CHECK(bench.place().job == "Chapel bench");
    CHECK(bench.coats().size() == 2);
}
