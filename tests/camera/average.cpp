#include <cmath>
#include <iostream>
#include <random>

#include "camera/frame_average.h"
#include "camera/practice_source.h"
#include "colour/srgb_curve.h"
#include "picture/linear_picture.h"
#include "picture/read_picture.h"
#include "tests/camera/small_pictures.h"
#include "tests/catch.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

// Frames of one practice scene, with fresh noise each.
class Bench {
  public:
    explicit Bench(const PracticeSettings& settings, double noise = 1) : scene_(with_noise(settings, noise)) {
        PracticeStage stage;
        lens_.emplace(scene_, stage.render(scene_));
    }
    std::shared_ptr<const Frame> take() { return std::make_shared<const Frame>(lens_->take(random_)); }
    const PracticeScene& scene() const { return scene_; }

  private:
    static PracticeScene with_noise(PracticeSettings settings, double noise) {
        settings.bench.noise = noise;
        return make_live_scene(settings);
    }
    PracticeScene scene_;
    std::optional<PracticeLens> lens_;
    Random random_{5, "frames"};
};

PracticeSettings small_bench() {
    PracticeSettings settings;
    settings.bench.width = 960;
    settings.bench.height = 540;
    return settings;
}

// Root mean square of the difference of two frames in linear light, over the repair's region.
double difference(const Frame& a, const Frame& b, const PixelRect& window) {
    const auto one = linear_light(a, window).rgb, other = linear_light(b, window).rgb;
    double sum = 0;
    for (std::size_t i = 0; i < one.size(); ++i) sum += std::pow(one[i] - other[i], 2);
    return std::sqrt(sum / static_cast<double>(one.size()));
}

std::shared_ptr<const Frame> grey(std::uint8_t code) {
    return std::make_shared<const Frame>(grey_frame(64, 64, code));
}

double first_linear(const Frame& frame) {
    return linear_light(frame, {0, 0, 1, 1}).rgb[0];
}

}  // namespace

TEST_CASE("The mean of n frames has the noise of one over the root of n") {
    Bench bench(small_bench(), 4);
    const PixelRect region = bench.scene().repair.region;
    // Two independent means of n differ by the root of 2/n times one frame's noise (law of large numbers).
    const double single = difference(*bench.take(), *bench.take(), region);
    for (const int n : {4, 16, 64}) {
        FrameAverage one(n), other(n);
        for (int i = 0; i < n; ++i) {
            one.add(bench.take());
            other.add(bench.take());
        }
        REQUIRE(one.count() == n);
        const double ratio = difference(*one.result(), *other.result(), region) / single * std::sqrt(n);
        std::cout << "noise of " << n << " frames times the root of n, over one frame's: " << ratio << '\n';
        CHECK(ratio == Approx(1).margin(0.03));
    }
}

TEST_CASE("The average is taken in light, not in codes") {
    FrameAverage average;
    Frame noisy = grey_frame(64, 64, 100), other = grey_frame(64, 64, 100);
    // A chequer of two pixels a square that turns over: noise, to the eye of the motion detector.
    for (std::size_t i = 0; i < noisy.samples.size(); ++i) {
        const bool odd = (i / 3 % 64 / 2 + i / 3 / 64 / 2) % 2;
        noisy.samples[i] = std::byte(odd ? 80 : 120);
        other.samples[i] = std::byte(odd ? 120 : 80);
    }
    average.add(std::make_shared<const Frame>(noisy));
    CHECK(average.add(std::make_shared<const Frame>(other)) == Restart::none);
    // IEC 61966-2-1's curve.
    const double expected = (decode_srgb(80 / 255.0) + decode_srgb(120 / 255.0)) / 2;
    CHECK(first_linear(*average.result()) == Approx(expected).margin(1.6e-5));
}

TEST_CASE("One frame is its own mean, and every code survives being averaged with itself") {
    for (int code = 0; code < 256; ++code) {
        FrameAverage average;
        const auto frame = grey(static_cast<std::uint8_t>(code));
        CHECK(average.add(frame) == Restart::first_frame);
        CHECK(average.result() == frame);
        CHECK(average.add(grey(static_cast<std::uint8_t>(code))) == Restart::none);
        CHECK(first_linear(*average.result()) == Approx(decode_srgb(code / 255.0)).margin(1.6e-5));
    }
}

TEST_CASE("A sample clipped in more than a sixteenth of the frames is clipped in the mean, and no other is") {
    const Frame plain = grey_frame(64, 64, 254);
    Frame clipped = plain;
    clipped.samples[0] = std::byte{255};
    for (const int frames : {2, 15, 16, 32}) {
        for (const int clips : {0, 1, 2, 3}) {
            FrameAverage average(32);
            for (int i = 0; i < frames; ++i)
                average.add(std::make_shared<const Frame>(i < clips ? clipped : plain));
            const LinearPicture light = linear_light(*average.result(), {0, 0, 2, 1});
            INFO(clips << " of " << frames);
            CHECK(light.clipped[0] == (16 * clips > frames ? 1 : 0));
            CHECK(light.clipped[1] == 0);
        }
    }
}

TEST_CASE("The mean grows to its most frames, then the older half leaves whenever the newer is full") {
    Bench bench(small_bench());
    std::vector<std::shared_ptr<const Frame>> frames;
    FrameAverage average(4);
    const std::vector<int> counts{1, 2, 3, 4, 3, 4, 3, 4};
    for (std::size_t i = 0; i < counts.size(); ++i) {
        frames.push_back(bench.take());
        CHECK(average.add(frames.back()) == (i == 0 ? Restart::first_frame : Restart::none));
        CHECK(average.count() == counts[i]);
    }
    FrameAverage last(4);
    for (std::size_t i = 4; i < 8; ++i) last.add(frames[i]);
    CHECK(average.result()->samples == last.result()->samples);
}

TEST_CASE(
    "A still scene never restarts the average, whatever its noise, a moved card or camera or a changed lamp "
    "does") {
    for (const double noise : {0.0, 1.0, 4.0, 16.0}) {
        INFO("noise " << noise);
        Bench bench(small_bench(), noise);
        FrameAverage average(8);
        average.add(bench.take());
        int restarts = 0;
        for (int i = 0; i < 40; ++i) restarts += average.add(bench.take()) != Restart::none;
        CHECK(restarts == 0);

        PracticeSettings settings = small_bench();
        settings.card_right = 3;
        CHECK(average.add(Bench(settings, noise).take()) == Restart::moved);
        CHECK(average.count() == 1);
        CHECK(average.reason() == Restart::moved);

        average.clear();
        average.add(bench.take());
        settings = small_bench();
        settings.bench.exposure = bench.scene().exposure * 1.03;
        CHECK(average.add(Bench(settings, noise).take()) == Restart::light_changed);
    }
}

TEST_CASE("The noise of a stream's JPEG frames is no motion, and does not hide a moved card") {
    const ScratchFolder folder;
    const auto send = [&](const Frame& frame, int quality) {
        WriteOptions options;
        options.jpeg_quality = quality;
        write_picture(frame, folder / "frame.jpg", options);
        return std::make_shared<const Frame>(read_picture(folder / "frame.jpg"));
    };
    for (const double noise : {1.0, 4.0}) {
        for (const int quality : {70, 80, 90}) {
            INFO("noise " << noise << ", quality " << quality);
            Bench bench(small_bench(), noise);
            FrameAverage average(8);
            average.add(send(*bench.take(), quality));
            int restarts = 0;
            for (int i = 0; i < 10; ++i)
                restarts += average.add(send(*bench.take(), quality)) != Restart::none;
            CHECK(restarts == 0);
            PracticeSettings settings = small_bench();
            settings.card_right = 3;
            CHECK(average.add(send(*Bench(settings, noise).take(), quality)) == Restart::moved);
        }
    }
}

TEST_CASE("A knock that moves the whole picture by one pixel restarts the average") {
    Bench bench(small_bench());
    const auto frame = bench.take();
    for (const std::ptrdiff_t shift : {std::ptrdiff_t{3}, 3 * std::ptrdiff_t{frame->width}}) {
        Frame moved = *bench.take();
        std::rotate(moved.samples.begin(), moved.samples.begin() + shift, moved.samples.end());
        FrameAverage average;
        average.add(frame);
        CHECK(average.add(std::make_shared<const Frame>(moved)) != Restart::none);
    }
}

TEST_CASE("Frames of another size, and kinds that are not averaged, start anew") {
    FrameAverage average;
    average.add(grey(90));
    CHECK(average.add(std::make_shared<const Frame>(grey_frame(32, 32, 90))) == Restart::other_kind);
    Frame deep = grey_frame(32, 32, 90);
    deep.type = SampleType::uint16;
    deep.samples.resize(2 * deep.samples.size());
    const auto still = std::make_shared<const Frame>(deep);
    CHECK(average.add(still) == Restart::other_kind);
    CHECK(average.result() == still);
    CHECK(average.add(still) == Restart::other_kind);
    CHECK(average.count() == 1);
}

TEST_CASE("Averaging costs less than eight milliseconds a full high-definition frame on one core",
          "[.shown][camera]") {
    Bench bench(PracticeSettings{});
    std::vector<std::shared_ptr<const Frame>> frames;
    for (int i = 0; i < 24; ++i) frames.push_back(bench.take());
    FrameAverage average(16);
    std::vector<double> adding, finishing, moving;
    const auto timed = [](std::vector<double>& times, const auto& work) {
        const auto start = std::chrono::steady_clock::now();
        work();
        times.push_back(
            std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count());
    };
    const MotionGrid first = reduce_for_motion(*frames[0]);
    for (int round = 0; round < 3; ++round)
        for (const auto& frame : frames) {
            timed(adding, [&] { average.add(frame); });
            timed(finishing, [&] { average.result(); });
            timed(moving, [&] { find_motion(first, reduce_for_motion(*frame)); });
        }
    CHECK(average.reason() == Restart::first_frame);
    const auto median = [](std::vector<double>& values) {
        const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
        std::nth_element(values.begin(), middle, values.end());
        return *middle;
    };
    const double add = median(adding);
    std::cout << "add " << add << " ms, of which motion " << median(moving) << " ms; result "
              << median(finishing) << " ms\n";
    CHECK(add < 8);
}
