// From a frame to what the window knows: against the practice bench's truth and against the command line's
// own path.
#include <fmt/format.h>

#include <atomic>
#include <cmath>
#include <mutex>

#include "colour/rgb_space.h"
#include "colour/srgb_curve.h"
#include "live/bench_vials.h"
#include "live/card_watch.h"
#include "live/measure_frame.h"
#include "live/measure_loop.h"
#include "picture/write_picture.h"
#include "practice/render.h"
#include "practice/sensor.h"
#include "practice/truth.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;

namespace {

struct MeterBench {
    PracticeScene scene;
    std::shared_ptr<const Frame> frame;
};

MeterBench make_bench(double tilt = 3) {
    PracticeOptions options;
    options.width = 1280, options.height = 720, options.bits = 8;
    options.difference = 4;
    options.tilt = tilt;
    MeterBench bench{make_scene(options), nullptr};
    bench.frame = std::make_shared<const Frame>(render(bench.scene));
    return bench;
}

MeasureRequest request_for(const MeterBench& bench) {
    MeasureRequest request;
    request.regions = {rectangle(bench.scene.original.region), rectangle(bench.scene.repair.region)};
    return request;
}

}  // namespace

TEST_CASE("A frame becomes a reading that holds the truth in its interval") {
    const MeterBench bench = make_bench();
    FrameMeter meter;
    BenchState state;
    state.frame = bench.frame;
    meter.measure(request_for(bench), state);
    REQUIRE(state.comparison);
    const double known = truth(bench.scene).de2000;
    fmt::print("live reading: dE2000 {:.3f} ± {:.3f}, truth {:.3f}\n", state.comparison->difference.de2000,
               state.comparison->difference.de2000_u95, known);
    CHECK(std::abs(state.comparison->difference.de2000 - known) <= state.comparison->difference.de2000_u95);
    // The same as the command line's path, number for number.
    const Calibration calibration =
        calibrate_on_card(*bench.frame, read_card(locate_card("six-step-card")), *find_card(*bench.frame));
    const Comparison expected =
        compare_regions(*bench.frame, calibration, rectangle(bench.scene.original.region),
                        rectangle(bench.scene.repair.region));
    CHECK(state.comparison->difference.de2000 == expected.difference.de2000);
}

TEST_CASE("What cannot be measured becomes one line with the cure, never an exception") {
    FrameMeter meter;
    BenchState state;
    state.frame = std::make_shared<const Frame>(Frame{"empty",
                                                      640,
                                                      480,
                                                      SampleType::uint8,
                                                      std::vector<std::byte>(640 * 480 * 3),
                                                      make_bench().frame->encoding,
                                                      {}});
    meter.measure({}, state);
    CHECK_FALSE(state.comparison);
    CHECK(state.obstacle.find("card") != std::string::npos);
    const MeterBench bench = make_bench();
    MeasureRequest outside = request_for(bench);
    outside.regions.repair = rectangle({1200, 600, 500, 500});
    BenchState second;
    second.frame = bench.frame;
    meter.measure(outside, second);
    CHECK_FALSE(second.comparison);
    CHECK(second.obstacle.find("--repair") == std::string::npos);
    CHECK(second.obstacle.find("repair") != std::string::npos);
}

TEST_CASE("The card is looked for again when it has moved, and only then") {
    const MeterBench bench = make_bench();
    CardWatch watch;
    REQUIRE(watch.find(*bench.frame));
    CHECK(watch.searches() == 1);
    // Another exposure of the same scene: only its noise differs.
    PracticeScene again = bench.scene;
    again.options.seed += 1;
    RawPicture light = light_map(bench.scene);
    expose(again, light);
    const Frame noisy = develop(again, light, 8);
    REQUIRE(watch.find(noisy));
    CHECK(watch.searches() == 1);
    const MeterBench tilted = make_bench(9);
    const auto found = watch.find(*tilted.frame);
    CHECK(watch.searches() == 2);
    REQUIRE(found);
    CHECK(std::hypot(found->window[2].x - tilted.scene.card->corners[2].x,
                     found->window[2].y - tilted.scene.card->corners[2].y) < 1.5);
}

TEST_CASE("The measuring thread takes the newest frame and publishes what was asked last") {
    const MeterBench bench = make_bench();
    std::mutex mutex;
    CapturedFrame newest;
    std::atomic<int> published = 0;
    MeasureLoop loop(
        [&] {
            const std::lock_guard lock(mutex);
            return newest;
        },
        [&] { ++published; });
    const auto wait_for = [&](auto condition) {
        for (int i = 0; i < 2000 && !condition(*loop.state()); ++i)
            std::this_thread::sleep_for(std::chrono::milliseconds(5));
        return condition(*loop.state());
    };
    for (std::uint64_t number = 1; number <= 20; ++number) {
        {
            const std::lock_guard lock(mutex);
            newest = {bench.frame, number, std::chrono::steady_clock::now(), false, ""};
        }
        loop.wake();
    }
    CHECK(wait_for([](const BenchState& state) { return state.frame_number == 20; }));
    CHECK(published < 20);  // frames that came while it was busy are not worked off
    CHECK_FALSE(loop.state()->comparison);
    loop.ask(request_for(bench));
    CHECK(wait_for([](const BenchState& state) { return state.comparison.has_value(); }));
    const double before = loop.state()->comparison->difference.de2000;
    {
        const std::lock_guard lock(mutex);
        newest.stale = true;
        newest.trouble = "unplugged";
    }
    loop.wake();
    CHECK(wait_for([](const BenchState& state) { return state.stale; }));
    CHECK(loop.state()->trouble == "unplugged");
    REQUIRE(loop.state()->comparison);
    CHECK(loop.state()->comparison->difference.de2000 == before);  // the last good reading stays
}

TEST_CASE("Ground and figure share one scale with the whole wood in the window's vials") {
    Comparison comparison;
    comparison.original.lab = {50, 10, 20}, comparison.repair.lab = {52, 10, 20};
    comparison.original.ground = {55, 10, 20}, comparison.repair.ground = {62, 9, 20};
    comparison.original.figure = {40, 10, 20}, comparison.repair.figure = {40.5, 12, 20};
    comparison.original.figure_share = comparison.repair.figure_share = 0.3;
    comparison.difference.dL = 2;
    const auto vials = draw_bench_vials(comparison);
    REQUIRE(vials[0].ground);
    // Worked by hand: the ground is 7 lighter, which needs the scale of 10; lighter is to the left.
    CHECK(vials[0].whole.scale == 10);
    CHECK(vials[0].ground->bubble == Approx(-0.7));
    CHECK(vials[0].whole.bubble == Approx(-0.2));
    CHECK(vials[0].figure->bubble == Approx(-0.05));
    CHECK(vials[1].figure->bubble == Approx(0.2));
    comparison.repair.figure_share = 0;
    CHECK_FALSE(draw_bench_vials(comparison)[0].ground);
}

TEST_CASE("The window evens out the light as the command line does, and says why it cannot") {
    PracticeOptions options;
    options.width = 960, options.height = 720, options.difference = 3;
    options.fall_off_percent = 15;
    MeterBench bench{make_scene(options), nullptr};
    bench.frame = std::make_shared<const Frame>(render(bench.scene));
    options.subject = PracticeSubject::grey_sheet;
    const Frame sheet = render(make_scene(options));
    const testing::ScratchFolder folder;
    write_picture(sheet, folder / "sheet.tif");
    MeasureRequest request = request_for(bench);
    request.flat = {folder / "sheet.tif"};
    FrameMeter meter;
    for (int frame = 0; frame < 2; ++frame) {
        BenchState state;
        state.frame = bench.frame;
        meter.measure(request, state);
        REQUIRE(state.comparison);
        REQUIRE(state.calibration->flat_field);
        CalibrationInputs inputs;
        const Card card = read_card(locate_card("six-step-card"));
        inputs.flat_samples =
            std::make_shared<const FlatSamples>(read_flat_pictures({(folder / "sheet.tif").string()}, card));
        const Comparison same =
            compare_regions(*bench.frame, calibrate_on_card(*bench.frame, card, *state.card, inputs),
                            *request.regions.original, *request.regions.repair);
        CHECK(state.comparison->difference.de2000 == Approx(same.difference.de2000).margin(1e-9));
        CHECK(std::abs(same.difference.de2000 - truth(bench.scene).de2000) < 0.15);
    }
    request.flat = {folder / "none.tif"};
    BenchState state;
    state.frame = bench.frame;
    meter.measure(request, state);
    CHECK_FALSE(state.comparison);
    CHECK_THAT(state.obstacle, contains("none.tif"));
}
