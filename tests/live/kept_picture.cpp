// From the key that keeps a reading to its picture on the screen again: the keeper, the store and the
// loader together. Measured again, the reading is its own peer; the truth is asked in window_measure.cpp.
#include "live/kept_picture.h"

#include <fmt/format.h>

#include <atomic>
#include <chrono>
#include <cmath>
#include <thread>

#include "calibrate/keep/kept_calibration.h"
#include "colour/rgb_space.h"
#include "live/coat.h"
#include "live/measure_frame.h"
#include "live/reading_keeper.h"
#include "practice/render.h"
#include "practice/scene.h"
#include "tests/catch.h"
#include "tests/support/scratch_area.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

using Clock = std::chrono::steady_clock;

std::shared_ptr<const BenchState> measured_state(int width = 1280, int height = 720,
                                                 const CalibrationInputs& inputs = {}) {
    PracticeOptions options;
    options.width = width, options.height = height, options.bits = 8, options.difference = 4;
    const PracticeScene scene = make_scene(options);
    auto state = std::make_shared<BenchState>();
    state->frame = std::make_shared<const Frame>(render(scene));
    MeasureRequest request;
    request.regions = {rectangle(scene.original.region), rectangle(scene.repair.region)};
    request.inputs = inputs;
    FrameMeter().measure(request, *state);
    REQUIRE(state->comparison);
    return state;
}

template <typename Condition>
bool await_picture(Condition condition) {
    for (int i = 0; i < 4000; ++i) {
        if (condition()) return true;
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
    return false;
}

KeepingOutcome keep(const std::shared_ptr<AreaReadings>& store,
                    const std::shared_ptr<const BenchState>& state) {
    ReadingKeeper keeper([] {});
    (void)keeper.keep(store, state, "six-step-card", "2026-11-25T12:00:00Z");
    std::vector<KeepingOutcome> outcomes;
    await_picture([&] {
        outcomes = keeper.finished();
        return !outcomes.empty();
    });
    REQUIRE(outcomes.size() == 1);
    return outcomes[0];
}

double milliseconds_since(Clock::time_point start) {
    return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

}  // namespace

TEST_CASE("A reading taken in the window comes back with its picture, its regions and its numbers") {
    const ScratchFolder folder;
    const auto store = area_in(folder.path());
    const auto state = measured_state(1920, 1080);
    const auto start = Clock::now();
    const KeepingOutcome outcome = keep(store, state);
    const double kept_ms = milliseconds_since(start);
    REQUIRE(outcome.reading);
    CHECK(outcome.trouble.empty());
    const Coat coat = to_coat(*outcome.reading);
    CHECK(coat.kept == Kept::saved);
    CHECK(list_coats(*store).size() == 1);

    std::atomic<int> calls = 0;
    KeptPictureLoader loader([&] { ++calls; });
    const auto asked = Clock::now();
    loader.ask(store, coat.number, "no-such-card");  // the reading names its own
    const double ask_ms = milliseconds_since(asked);
    REQUIRE(await_picture([&] { return calls == 1; }));
    const double loaded_ms = milliseconds_since(asked);
    const auto picture = loader.picture();
    REQUIRE(picture);
    CHECK(loader.trouble().empty());
    CHECK(picture->number == 1);
    CHECK(picture->taken == "2026-11-25T12:00:00Z");
    CHECK(picture->frame->samples == state->frame->samples);
    REQUIRE(picture->card_window);
    CHECK(std::hypot((*picture->card_window)[0].x - state->card->window[0].x,
                     (*picture->card_window)[0].y - state->card->window[0].y) < 1e-9);
    const Comparison again =
        compare_regions(*picture->frame, *picture->calibration, *picture->regions.original,
                        *picture->regions.repair, state->comparison->tolerance);
    const double error = std::abs(again.difference.de2000 - state->comparison->difference.de2000);
    fmt::print("1920 x 1080: kept in {:.0f} ms, asked in {:.3f} ms, back in {:.0f} ms; dE2000 apart {:.5f}\n",
               kept_ms, ask_ms, loaded_ms, error);
    CHECK(error < 0.001);
    CHECK(ask_ms < 5);

    // The same one again costs nothing, and nothing is said again.
    loader.ask(store, coat.number, "no-such-card");
    CHECK(loader.picture() == picture);
    loader.forget();
    CHECK_FALSE(loader.picture());
    loader.ask(store, coat.number, "no-such-card");
    CHECK(await_picture([&] { return calls == 2; }));
    CHECK(loader.picture()->frame != picture->frame);
}

TEST_CASE("A reading taken under a stated lamp with stated colourants comes back with them") {
    const ScratchFolder folder;
    const auto store = area_in(folder.path());
    CalibrationInputs inputs;
    inputs.light = parse_light("led:2700");
    inputs.colourants = RepairColourants::other;
    const auto state = measured_state(1280, 720, inputs), unstated = measured_state();
    // Else there would be nothing to tell the two apart by.
    REQUIRE(std::abs(state->comparison->difference.de2000_u95 - unstated->comparison->difference.de2000_u95) >
            0.01);
    const KeepingOutcome outcome = keep(store, state);
    REQUIRE(outcome.reading);
    REQUIRE(outcome.reading->light);
    KeptPictureLoader loader([] {});
    loader.ask(store, outcome.reading->number, "six-step-card");
    REQUIRE(await_picture([&] { return loader.picture() != nullptr; }));
    const auto picture = loader.picture();
    const Comparison again = compare_regions(*picture->frame, *picture->calibration,
                                             *picture->regions.original, *picture->regions.repair);
    // ReadingStore promises Lab to 0.002.
    CHECK(again.repair.lab.b == Approx(state->comparison->repair.lab.b).margin(0.002));
    CHECK(again.difference.de2000_u95 == Approx(state->comparison->difference.de2000_u95).margin(0.002));
}

TEST_CASE("Of many pictures asked for in a row the last one is shown") {
    const ScratchFolder folder;
    const auto store = area_in(folder.path());
    const auto state = measured_state();
    for (int i = 0; i < 3; ++i) REQUIRE(keep(store, state).reading);
    std::atomic<int> calls = 0;
    KeptPictureLoader loader([&] { ++calls; });
    for (int i = 0; i < 60; ++i) loader.ask(store, 1 + i % 3, "six-step-card");
    loader.ask(store, 2, "six-step-card");
    REQUIRE(await_picture([&] { return loader.picture() != nullptr; }));
    CHECK(loader.picture()->number == 2);
    CHECK(calls < 10);  // those passed over say nothing
    loader.ask(store, 3, "six-step-card");
    loader.forget();
    std::this_thread::sleep_for(std::chrono::milliseconds(300));
    CHECK_FALSE(loader.picture());  // what was forgotten does not come late
    CHECK(loader.trouble().empty());
    loader.ask(store, 1, "six-step-card");  // and leaving while one is being read is no trouble
}

TEST_CASE("A picture that cannot be brought back is one line, and the next one comes all the same") {
    const ScratchFolder folder;
    const auto store = area_in(folder.path());
    const auto state = measured_state();
    // As tonemend compare --job keeps it.
    (void)store->keep({"board.jpg", "2026-11-25T12:00:00Z",
                       annotate_picture(*state->frame, *state->calibration, *state->comparison),
                       *state->calibration, *state->comparison, std::nullopt});
    REQUIRE(keep(store, state).reading);
    std::atomic<int> calls = 0;
    KeptPictureLoader loader([&] { ++calls; });
    loader.ask(store, 1, "six-step-card");
    REQUIRE(await_picture([&] { return calls == 1; }));
    CHECK_FALSE(loader.picture());
    INFO(loader.trouble());
    CHECK(loader.trouble().find("reading 1: was kept without its picture") != std::string::npos);
    CHECK(loader.trouble().find('\n') == std::string::npos);
    loader.ask(store, 2, "six-step-card");
    CHECK(loader.trouble().empty());
    REQUIRE(await_picture([&] { return calls == 2; }));
    CHECK(loader.picture());
    loader.ask(store, 9, "six-step-card");
    REQUIRE(await_picture([&] { return calls == 3; }));
    CHECK_FALSE(loader.picture());
    CHECK(loader.trouble().find("no reading 9") != std::string::npos);
}

TEST_CASE("A reading that cannot be kept is one line, stays in hand till it can, and the others are kept") {
    const ScratchFolder folder;
    const auto state = measured_state();
    put_content(folder / "note", "a file");
    {
        ReadingKeeper keeper([] {});
        const auto store = area_in(folder / "note/job");
        (void)keeper.keep(store, state, "six-step-card", "2026-11-25T12:00:00Z");
        std::vector<KeepingOutcome> said;
        REQUIRE(await_picture([&] { return !(said = keeper.finished()).empty(); }));
        CHECK_FALSE(said[0].reading);
        CHECK(said[0].trouble.find("cannot be made") != std::string::npos);
        CHECK(said[0].trouble.find('\n') == std::string::npos);
        // It stays in hand: when the way is free it is kept, and said.
        std::filesystem::remove(folder / "note");
        REQUIRE(await_picture([&] { return !(said = keeper.finished()).empty(); }));
        REQUIRE(said.size() == 1);
        REQUIRE(said[0].reading);
        CHECK(said[0].ticket == 1);
        CHECK(store->list().size() == 1);
        // One that is let go of is not tried again.
        put_content(folder / "other", "a file");
        (void)keeper.keep(area_in(folder / "other/job"), state, "six-step-card", "2026-11-25T12:00:00Z");
        REQUIRE(await_picture([&] { return !(said = keeper.finished()).empty(); }));
        keeper.drop(2);
    }
    // Whatever was taken is written before the keeper goes away.
    const auto store = area_in(folder / "job");
    {
        ReadingKeeper keeper([] {});
        for (std::uint64_t ticket = 1; ticket <= 3; ++ticket)
            CHECK(keeper.keep(store, state, "six-step-card", "2026-11-25T12:00:00Z") == ticket);
    }
    CHECK(store->list().size() == 3);
}

TEST_CASE("A reading taken with a saved calibration comes back with that calibration") {
    const ScratchFolder folder;
    const auto store = area_in(folder.path());
    const auto before = measured_state();
    KeptCalibration saved{
        "tonemend 0.1.0", "2026-11-25T10:09:00Z", *before->frame, {}, *before->calibration, {}};
    saved.picture.samples.clear();
    // A camera that sees all colours a tenth too strong.
    const Matrix3 romm = rgb_to_xyz_d50(romm_rgb);
    for (std::size_t row = 0; row < 3; ++row)
        for (std::size_t column = 0; column < 3; ++column) {
            double grey = 0;
            for (std::size_t k = 0; k < 3; ++k) grey += romm.m[row][k];
            saved.fit.characterisation.model.from_working.linear.m[row][column] =
                0.9 * romm.m[row][column] + 0.1 * grey * romm.m[1][column];
        }
    CalibrationInputs inputs;
    inputs.kept = std::make_shared<const KeptCalibration>(saved);
    const auto state = measured_state(1280, 720, inputs);
    // Else there would be nothing to tell the two apart by.
    REQUIRE(std::abs(state->comparison->original.lab.b - before->comparison->original.lab.b) > 1);
    const KeepingOutcome outcome = keep(store, state);
    REQUIRE(outcome.reading);
    KeptPictureLoader loader([] {});
    loader.ask(store, outcome.reading->number, "six-step-card");
    REQUIRE(await_picture([&] { return loader.picture() != nullptr; }));
    const auto picture = loader.picture();
    REQUIRE(picture->calibration->kept);
    CHECK(picture->calibration->kept->made == "2026-11-25T10:09:00Z");
    const Comparison again = compare_regions(*picture->frame, *picture->calibration,
                                             *picture->regions.original, *picture->regions.repair);
    // ReadingStore promises Lab to 0.002.
    CHECK(again.original.lab.b == Approx(state->comparison->original.lab.b).margin(0.002));
    CHECK(again.original.lab.L == Approx(state->comparison->original.lab.L).margin(0.002));
    CHECK(again.difference.de2000 == Approx(state->comparison->difference.de2000).margin(0.004));
}
