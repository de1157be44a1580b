// A lamp that beats from frame to frame, on the live practice bench: what the window says of it. The swing is
// the bench's own truth.
#include "live/flicker_watch.h"

#include <fmt/format.h>

#include <chrono>
#include <cmath>
#include <cstdlib>
#include <thread>
#include <utility>
#include <vector>

#include "camera/capture_loop.h"
#include "camera/practice_source.h"
#include "live/measure_frame.h"
#include "live/measure_loop.h"
#include "live/still_moment.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

PracticeSettings lamp_bench(double noise = 1) {
    PracticeSettings settings;
    settings.bench.width = 960;
    settings.bench.height = 540;
    settings.bench.noise = noise;
    return settings;
}

// The measuring thread's work without its thread, on frames of a bench under a lamp.
class LampMeter {
  public:
    explicit LampMeter(const PracticeSettings& settings, PracticeFlicker flicker = {})
        : flicker_(flicker), scene_(make_live_scene(settings)) {
        lens_.emplace(scene_, PracticeStage().render(scene_));
        request.regions = {rectangle(scene_.original.region), rectangle(scene_.repair.region), {}};
    }
    // The warning's text after `frames` more; empty: none.
    std::string watch(int frames) {
        BenchState state;
        for (int i = 0; i < frames; ++i) {
            captured_.frame = std::make_shared<const Frame>(lens_->take(random_, flicker_, captured_.number));
            ++captured_.number;
            state = again();
        }
        return said_of(state);
    }
    BenchState again() {
        BenchState state;
        moment_.take_in(captured_, request.average, state);
        meter_.measure(request, state);
        watch_.take_in(state);
        REQUIRE(state.comparison);
        return state;
    }
    static std::string said_of(const BenchState& state) {
        for (const Warning& warning : state.comparison->warnings)
            if (warning.code == "light-flickers") return warning.text;
        return {};
    }
    // Goes on under another lamp, or with another scene.
    void change(const PracticeSettings& settings, PracticeFlicker flicker) {
        scene_ = make_live_scene(settings);
        lens_.emplace(scene_, PracticeStage().render(scene_));
        flicker_ = flicker;
    }
    int card_searches() const { return meter_.card_searches(); }
    CapturedFrame& captured() { return captured_; }
    MeasureRequest request;

  private:
    PracticeFlicker flicker_;
    PracticeScene scene_;
    std::optional<PracticeLens> lens_;
    Random random_{5, "flicker"};
    CapturedFrame captured_{nullptr, 0, {}, false, "", true, 1};
    StillMoment moment_;
    FrameMeter meter_;
    FlickerWatch watch_;
};

double per_cent(const std::string& text) {
    const auto at = text.find("swings by ");
    REQUIRE(at != std::string::npos);
    return std::atof(text.c_str() + at + 10);
}

}  // namespace

TEST_CASE("A lamp that beats is warned of within a second, with its swing, at ordinary and at much noise",
          "[.slow]") {
    // At eight times the noise, patches of 22 pixels a side are known to 0.7 % a frame: six of those are the
    // least swing then.
    for (const auto& [noise, swings] :
         {std::pair{1.0, std::vector{2.0, 6.0, 25.0}}, {8.0, std::vector{12.0, 25.0}}})
        for (const double swing : swings) {
            LampMeter meter(lamp_bench(noise), {swing, 0.3, 0});
            const std::string text = meter.watch(15);
            INFO("noise " << noise << ", swing " << swing);
            REQUIRE_FALSE(text.empty());
            // A frame in ten falls within 9° of a peak; the mean lies half the swing below the brightest.
            const double expected = swing * std::cos(0.314159) / (1 - swing / 200);
            fmt::print("lamp beats by {} %, noise {}: said {} %, expected {:.2f}\n", swing, noise,
                       per_cent(text), expected);
            CHECK(per_cent(text) == Approx(expected).margin(0.25 + 0.02 * swing));
        }
}

TEST_CASE("Under a shutter that rolls the lamp's bands move from frame to frame, and that is flicker too",
          "[.slow]") {
    for (const double turns : {0.7, 1.7, 4.0}) {
        INFO(turns);
        CHECK_FALSE(LampMeter(lamp_bench(), {6, 0.3, turns}).watch(30).empty());
    }
}

TEST_CASE("A steady lamp does not flicker, whatever the noise, nor one that beats by half a per cent",
          "[.slow]") {
    for (const double noise : {0.0, 1.0, 8.0}) {
        INFO(noise);
        CHECK(LampMeter(lamp_bench(noise)).watch(60).empty());
        CHECK(LampMeter(lamp_bench(noise), {0.5, 0.3, 0}).watch(48).empty());
    }
}

TEST_CASE("Only while nothing moves: a moved card, a pause and frames read one by one begin anew",
          "[.slow]") {
    const PracticeFlicker beat{6, 0.3, 0};
    LampMeter meter(lamp_bench(), beat);
    REQUIRE_FALSE(meter.watch(20).empty());
    CHECK_FALSE(LampMeter::said_of(meter.again()).empty());  // the same frame again changes nothing
    PracticeSettings moved = lamp_bench();
    moved.card_right = 12;
    meter.change(moved, beat);
    CHECK(meter.watch(4).empty());
    CHECK_FALSE(meter.watch(16).empty());
    ++meter.captured().source;
    CHECK(meter.watch(4).empty());
    CHECK_FALSE(meter.watch(16).empty());
    meter.request.average = false;
    CHECK(meter.watch(40).empty());
    meter.request.average = true;
    CHECK_FALSE(meter.watch(20).empty());
    // Held by another lamp: forgotten when the last of it has left the memory.
    meter.change(moved, {});
    CHECK(meter.watch(60).empty());
}

TEST_CASE("The card is not looked for again because the lamp beats") {
    LampMeter meter(lamp_bench(), {6, 0.3, 0});
    (void)meter.watch(30);
    CHECK(meter.card_searches() == 1);
}

TEST_CASE("Through all threads the practice bench's flicker is warned of, and goes with the lamp") {
    PracticeSettings settings = lamp_bench();
    settings.flicker.swing_percent = 6;
    const auto source = std::make_shared<PracticeSource>(settings, 30);
    CaptureLoop capture;
    MeasureLoop measure([&] { return *capture.latest(); }, [] {});
    capture.watch(source);
    REQUIRE(capture.wait_for_newer(0, std::chrono::seconds(10))->frame);
    MeasureRequest request;
    request.regions = {rectangle(source->scene()->original.region),
                       rectangle(source->scene()->repair.region)};
    measure.ask(request);
    const auto comes = [&](bool wanted) {
        for (int i = 0; i < 1500; ++i) {
            measure.wake();
            const auto state = measure.state();
            if (state->comparison && LampMeter::said_of(*state).empty() != wanted) return true;
            std::this_thread::sleep_for(std::chrono::milliseconds(10));
        }
        return false;
    };
    CHECK(comes(true));
    settings.flicker = {};
    source->change(settings);
    CHECK(comes(false));
}
