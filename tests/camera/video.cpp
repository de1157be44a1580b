#include <iostream>

#include "camera/capture_loop.h"
#include "camera/video_source.h"
#include "picture/input_error.h"
#include "tests/camera/fake_source.h"
#include "tests/camera/mjpeg_server.h"
#include "tests/catch.h"
#include "tests/support/quantile.h"

using namespace tonemend;
using namespace tonemend::testing;
using namespace std::chrono_literals;

namespace {

using Clock = std::chrono::steady_clock;

double milliseconds_after(Clock::time_point start) {
    return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

// A stream that is interrupted `times` times, by silence and by death in turn; each time the last frame must
// stay, stale, and new ones come once the server is back. Returns the slowest reconnection in milliseconds.
double interrupt(int times) {
    MjpegServer server(grey_file("stream.jpg", 320, 240, 120), 50);
    CapturePatience patience;
    patience.least_silence = 200ms;
    CaptureLoop loop(patience);
    loop.watch(std::make_shared<VideoSource>(VideoKind::stream, server.address(), 500ms));
    REQUIRE(loop.wait_for_newer(2, 10s)->number >= 3);
    double slowest = 0;
    for (int i = 0; i < times; ++i) {
        if (i % 2) server.stall();
        if (i % 2 == 0) server.kill();
        REQUIRE(comes_true([&] { return loop.latest()->stale; }, 3s));
        const auto stale = loop.latest();
        REQUIRE(stale->frame);
        REQUIRE(stale->frame->width == 320);
        REQUIRE_FALSE(stale->trouble.empty());
        server.restart();
        const auto start = Clock::now();
        REQUIRE(
            comes_true([&] { return !loop.latest()->stale && loop.latest()->number > stale->number; }, 5s));
        slowest = std::max(slowest, milliseconds_after(start));
    }
    const auto start = Clock::now();
    loop.stop();
    REQUIRE(milliseconds_after(start) < 500);
    return slowest;
}

}  // namespace

TEST_CASE("A network stream's frames come upright, in red, green, blue, and soon after they are sent") {
    Frame picture = grey_frame(320, 240, 60);
    for (std::size_t i = 0; i < picture.samples.size(); i += 3) picture.samples[i] = std::byte{180};
    const ScratchFolder folder;
    write_picture(picture, folder / "red.jpg");
    MjpegServer server(content_of(folder / "red.jpg"));
    VideoSource source(VideoKind::stream, server.address());
    std::shared_ptr<const Frame> frame;
    const auto start = Clock::now();
    REQUIRE(comes_true([&] { return (frame = source.next(100ms)) != nullptr; }, 5s));
    std::cout << "first frame of a stream, plug-in loaded on the way: " << milliseconds_after(start)
              << " ms\n";
    CHECK(frame->width == 320);
    CHECK(frame->height == 240);
    CHECK(std::abs(code_at(*frame, 0) - 180) <= 3);
    CHECK(std::abs(code_at(*frame, 1) - 60) <= 3);
    CHECK(std::abs(code_at(*frame, 2) - 60) <= 3);
    CHECK(source.lock_controls().empty());
    CHECK_FALSE(frame->encoding.assumed);
    CHECK(frame->encoding.description == "sRGB curve (live video)");
}

TEST_CASE(
    "A stream that stalls, dies and returns neither hangs nor crashes, the last frame stays and is marked "
    "stale") {
    std::cout << "slowest of 4 reconnections: " << interrupt(4) << " ms\n";
}

TEST_CASE("Fifty interruptions of a stream are survived within a minute", "[.shown][camera]") {
    const auto start = Clock::now();
    std::cout << "slowest of 50 reconnections: " << interrupt(50) << " ms\n";
    std::cout << "all of them: " << milliseconds_after(start) / 1000 << " s\n";
    CHECK(milliseconds_after(start) < 60'000);
}

TEST_CASE(
    "A stream that nobody serves, a device that is none and a video that is none are errors with a cure") {
    const ScratchFolder folder;
    put_content(folder / "bad.mp4", "no video");
    const auto fails = [](VideoSource source) {
        std::string text;
        comes_true(
            [&] {
                try {
                    source.next(50ms);
                } catch (const InputError& error) {
                    text = error.what();
                }
                return !text.empty();
            },
            5s);
        return text;
    };
    CHECK_THAT(fails({VideoKind::stream, "http://127.0.0.1:9/video"}),
               contains("cannot be opened; check the address"));
    CHECK_THAT(fails({VideoKind::device, "/dev/null"}), contains("cannot be opened; check its cable"));
    CHECK_THAT(fails({VideoKind::file, (folder / "bad.mp4").string()}), contains("check that it is a video"));
}

TEST_CASE("A video file plays at its own speed and begins again at its end") {
    const ScratchFolder folder;
    // Pictures one behind the other are Motion JPEG in its plainest form; it plays at 25 frames a second.
    std::string film;
    for (int i = 0; i < 10; ++i) film += grey_file("a.jpg", 64, 48, static_cast<std::uint8_t>(40 + 20 * i));
    put_content(folder / "film.mjpeg", film);
    VideoSource source(VideoKind::file, (folder / "film.mjpeg").string());
    std::vector<int> codes;
    Clock::time_point first;
    REQUIRE(comes_true(
        [&] {
            if (const auto frame = source.next(100ms)) {
                if (codes.empty()) first = Clock::now();
                codes.push_back(code_at(*frame, 0));
            }
            return codes.size() == 25;
        },
        10s));
    // 24 intervals of 40 ms.
    CHECK(milliseconds_after(first) > 900);
    int rewinds = 0;
    for (std::size_t i = 1; i < codes.size(); ++i) rewinds += codes[i] < codes[i - 1];
    CHECK(rewinds == 2);
    CHECK(source.live());
}

TEST_CASE("A server that accepts and says nothing delays no call beyond its patience") {
    MjpegServer server(grey_file("stream.jpg", 320, 240, 120));
    server.stall();
    VideoSource source(VideoKind::stream, server.address(), 400ms);
    std::vector<double> calls;
    bool refused = false;
    for (const auto start = Clock::now(); milliseconds_after(start) < 1500 && !refused;) {
        const auto call = Clock::now();
        try {
            source.next(50ms);
        } catch (const InputError&) {
            refused = true;
        }
        calls.push_back(milliseconds_after(call));
    }
    // Not the slowest, which a busy machine delays; were it the server that delays, there would be one call.
    const double usual = quantile(calls, 0.5);
    std::cout << "half of the calls on a stalled stream, patience 50 ms: under " << usual << " ms\n";
    CHECK(refused);
    CHECK(usual < 250);
}
