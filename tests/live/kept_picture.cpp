// From the key that keeps a reading to its picture on the screen again: the keeper, the job folder and the
// loader together. Measured again, the reading is its own peer; the truth is asked in window_measure.cpp.
#include "live/kept_picture.h"

#include <fmt/format.h>

#include <atomic>
#include <chrono>
#include <cmath>
#include <thread>

#include "live/coat.h"
#include "live/measure_frame.h"
#include "live/reading_keeper.h"
#include "practice/render.h"
#include "practice/scene.h"
#include "record/job_folder.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

using Clock = std::chrono::steady_clock;

std::shared_ptr<const BenchState> measured_state(int width = 1280, int height = 720) {
    PracticeOptions options;
    options.width = width, options.height = height, options.bits = 8, options.difference = 4;
    const PracticeScene scene = make_scene(options);
    auto state = std::make_shared<BenchState>();
    state->frame = std::make_shared<const Frame>(render(scene));
    MeasureRequest request;
    request.regions = {rectangle(scene.original.region), rectangle(scene.repair.region)};
    FrameMeter().measure(request, *state);
    REQUIRE(state->comparison);
    return state;
}

template <typename Condition>
bool await(Condition condition) {
    for (int i = 0; i < 4000; ++i) {
        if (condition()) return true;
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
    return false;
}

KeepingOutcome keep(const std::shared_ptr<ReadingStore>& store,
                    const std::shared_ptr<const BenchState>& state) {
    ReadingKeeper keeper([] {});
    (void)keeper.keep(store, state, "six-step-card", "2026-11-25T12:00:00Z");
    std::vector<KeepingOutcome> outcomes;
    await([&] {
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
    const auto store = std::make_shared<JobFolder>(folder.path());
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
    REQUIRE(await([&] { return calls == 1; }));
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
    CHECK(await([&] { return calls == 2; }));
    CHECK(loader.picture()->frame != picture->frame);
}

TEST_CASE("Of many pictures asked for in a row the last one is shown") {
    const ScratchFolder folder;
    const auto store = std::make_shared<JobFolder>(folder.path());
    const auto state = measured_state();
    for (int i = 0; i < 3; ++i) REQUIRE(keep(store, state).reading);
    std::atomic<int> calls = 0;
    KeptPictureLoader loader([&] { ++calls; });
    for (int i = 0; i < 60; ++i) loader.ask(store, 1 + i % 3, "six-step-card");
    loader.ask(store, 2, "six-step-card");
    REQUIRE(await([&] { return loader.picture() != nullptr; }));
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
    const auto store = std::make_shared<JobFolder>(folder.path());
    const auto state = measured_state();
    // As tonemend compare --job keeps it.
    (void)store->keep({"board.jpg", "2026-11-25T12:00:00Z",
                       annotate_picture(*state->frame, *state->calibration, *state->comparison),
                       *state->calibration, *state->comparison, std::nullopt});
    REQUIRE(keep(store, state).reading);
    std::atomic<int> calls = 0;
    KeptPictureLoader loader([&] { ++calls; });
    loader.ask(store, 1, "six-step-card");
    REQUIRE(await([&] { return calls == 1; }));
    CHECK_FALSE(loader.picture());
    INFO(loader.trouble());
    CHECK(loader.trouble().find("0001-board.json: was kept without its picture") != std::string::npos);
    CHECK(loader.trouble().find('\n') == std::string::npos);
    loader.ask(store, 2, "six-step-card");
    CHECK(loader.trouble().empty());
    REQUIRE(await([&] { return calls == 2; }));
    CHECK(loader.picture());
    loader.ask(store, 9, "six-step-card");
    REQUIRE(await([&] { return calls == 3; }));
    CHECK_FALSE(loader.picture());
    CHECK(loader.trouble().find("no reading 9") != std::string::npos);
}

TEST_CASE("A reading that cannot be kept is one line, and those before and after it are kept") {
    const ScratchFolder folder;
    const auto state = measured_state();
    put_content(folder / "note", "a file");
    const KeepingOutcome failed = keep(std::make_shared<JobFolder>(folder / "note/job"), state);
    CHECK_FALSE(failed.reading);
    CHECK(failed.trouble.find("cannot be a job folder") != std::string::npos);
    CHECK(failed.trouble.find('\n') == std::string::npos);
    // Whatever was taken is written before the keeper goes away.
    const auto store = std::make_shared<JobFolder>(folder / "job");
    {
        ReadingKeeper keeper([] {});
        for (std::uint64_t ticket = 1; ticket <= 3; ++ticket)
            CHECK(keeper.keep(store, state, "six-step-card", "2026-11-25T12:00:00Z") == ticket);
    }
    CHECK(store->list().size() == 3);
}
