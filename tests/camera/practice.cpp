#include <cmath>
#include <cstdlib>
#include <iostream>

#include "camera/practice_source.h"
#include "picture/input_error.h"
#include "practice/render.h"
#include "practice/sensor.h"
#include "practice/truth.h"
#include "tests/camera/fake_source.h"
#include "tests/catch.h"

using namespace tonemend;
using namespace tonemend::testing;
using namespace std::chrono_literals;

namespace {

PracticeSettings small_live_bench() {
    PracticeSettings settings;
    settings.bench.width = 640;
    settings.bench.height = 480;
    return settings;
}

std::shared_ptr<const Frame> take(PracticeSource& source) {
    std::shared_ptr<const Frame> frame;
    comes_true([&] { return (frame = source.next(100ms)) != nullptr; }, 10s);
    REQUIRE(frame);
    return frame;
}

double mean_code(const Frame& frame, const PixelRect& window) {
    double sum = 0;
    for (int y = window.y; y < window.y + window.height; ++y)
        for (int x = 3 * window.x; x < 3 * (window.x + window.width); ++x)
            sum += std::to_integer<int>(frame.row(y)[x]);
    return sum / (3.0 * window.width * window.height);
}

}  // namespace

TEST_CASE("Without noise the live bench's frame is the practice picture, but for codes at their edges") {
    PracticeSettings settings = small_live_bench();
    settings.bench.noise = 0;
    settings.bench.finish = Finish::clear_coat;
    PracticeSource source(settings, 1000);
    const auto live = take(source);
    const Frame still = render(make_scene(settings.bench));
    REQUIRE(live->samples.size() == still.samples.size());
    int differing = 0, worst = 0;
    for (std::size_t i = 0; i < live->samples.size(); ++i) {
        const int off = std::abs(code_at(*live, i) - code_at(still, i));
        worst = std::max(worst, off);
        if (off > 0) ++differing;
    }
    const double share = differing / static_cast<double>(live->samples.size());
    std::cout << "live bench against practice picture: worst " << worst << ", share off by one " << share
              << '\n';
    CHECK(worst <= 1);
    CHECK(share < 0.005);
}

TEST_CASE("The live noise has the sensor's strength, and is new in each frame") {
    const PracticeScene scene = make_live_scene(small_live_bench());
    PracticeStage stage;
    const RawPicture light = stage.render(scene);
    const PracticeLens lens(scene, light);
    Random random(3, "test");
    const Frame first = lens.take(random), second = lens.take(random);
    // Against the practice room's own sensor, both through the same development.
    RawPicture one = light, other = light;
    expose(scene, one);
    PracticeScene elsewhere = scene;
    elsewhere.options.seed = 77;
    expose(elsewhere, other);
    const Frame third = develop(scene, one, 8), fourth = develop(scene, other, 8);
    double live = 0, exact = 0;
    for (std::size_t i = 0; i < first.samples.size(); ++i) {
        live += std::pow(code_at(first, i) - code_at(second, i), 2);
        exact += std::pow(code_at(third, i) - code_at(fourth, i), 2);
    }
    std::cout << "live noise over the sensor's: " << std::sqrt(live / exact) << '\n';
    CHECK(std::sqrt(live / exact) == Approx(1).margin(0.01));
}

TEST_CASE("Wetting the repair darkens it and no other part") {
    PracticeSource source(small_live_bench(), 1000);
    const auto dry = take(source);
    const auto scene = source.scene();
    REQUIRE(scene);
    PracticeSettings settings = source.settings();
    settings.repair_surface = Surface::wet;
    source.change(settings);
    const auto wet = take(source);
    CHECK(mean_code(*wet, scene->repair.region) < mean_code(*dry, scene->repair.region) - 5);
    CHECK(mean_code(*wet, scene->original.region) ==
          Approx(mean_code(*dry, scene->original.region)).margin(0.1));
    // The truth of the changed scene knows.
    CHECK(truth(*source.scene()).repair.lab.L < truth(*scene).repair.lab.L - 2);
}

TEST_CASE("More of the repair's colourant darkens it, none is bare wood") {
    PracticeSettings settings = small_live_bench();
    const double as_drawn = truth(make_live_scene(settings)).repair.lab.L;
    settings.repair_amount = 2;
    CHECK(truth(make_live_scene(settings)).repair.lab.L < as_drawn);
    settings.repair_amount = 0;
    CHECK(truth(make_live_scene(settings)).repair.lab.L > as_drawn);
    settings.repair_amount = -1;
    CHECK_THROWS_AS(make_live_scene(settings), InputError);
}

TEST_CASE("A setting out of range is an error with a cure until it is put right") {
    PracticeSource source(small_live_bench(), 1000);
    take(source);
    PracticeSettings settings = source.settings();
    settings.bench.blur = 99;
    source.change(settings);
    CHECK_THROWS_WITH(
        [&] {
            for (int i = 0; i < 100; ++i) source.next(20ms);
        }(),
        contains("give 0 to 20"));
    settings.bench.blur = 2;
    source.change(settings);
    CHECK(take(source));
}

TEST_CASE("Settings may be changed while frames are taken") {
    PracticeSource source(small_live_bench(), 1000);
    std::atomic<bool> over = false;
    std::thread hand([&] {
        for (int i = 0; !over; ++i) {
            PracticeSettings settings = source.settings();
            settings.bench.lamp = i % 2 ? "CIE-D65" : "led:4000";
            settings.card_right = i % 10;
            source.change(settings);
            source.scene();
            std::this_thread::sleep_for(5ms);
        }
    });
    for (int i = 0; i < 10; ++i) CHECK(take(source)->width == 640);
    over = true;
    hand.join();
}

TEST_CASE("The live bench makes fifteen full high-definition frames a second on one core",
          "[.shown][camera]") {
    const PracticeScene scene = make_live_scene({});
    PracticeStage stage;
    auto start = std::chrono::steady_clock::now();
    stage.render(scene);
    const auto milliseconds = [&] {
        return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count();
    };
    std::cout << "first light: " << milliseconds() << " ms\n";
    start = std::chrono::steady_clock::now();
    const RawPicture light = stage.render(scene);
    std::cout << "light after a change: " << milliseconds() << " ms\n";
    start = std::chrono::steady_clock::now();
    const PracticeLens lens(scene, light);
    std::cout << "lens: " << milliseconds() << " ms\n";
    Random random(1, "test");
    lens.take(random);
    start = std::chrono::steady_clock::now();
    for (int i = 0; i < 20; ++i) lens.take(random);
    const double each = milliseconds() / 20;
    std::cout << "frame of 1920 x 1080: " << each << " ms\n";
    CHECK(each < 1000.0 / 15);
}
