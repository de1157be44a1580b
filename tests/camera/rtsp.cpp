// A camera that speaks RTSP, served by GStreamer, which is nobody's code here: it stalls, is killed and comes
// back.
#include "tests/camera/rtsp_server.h"

#include <iostream>

#include "camera/capture_loop.h"
#include "camera/video_source.h"
#include "tests/camera/fake_source.h"
#include "tests/catch.h"

using namespace tonemend;
using namespace tonemend::testing;
using namespace std::chrono_literals;

namespace {

using Clock = std::chrono::steady_clock;

double milliseconds_since(Clock::time_point start) {
    return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

// Asks for the newest frame again and again, as a window does, and keeps the longest answer.
class Caller {
  public:
    explicit Caller(const CaptureLoop& loop) : thread_([&loop, this] { call(loop); }) {}
    ~Caller() {
        over_ = true;
        thread_.join();
    }
    Caller(const Caller&) = delete;
    Caller& operator=(const Caller&) = delete;
    double longest() const { return longest_; }
    bool in_order() const { return in_order_; }

  private:
    void call(const CaptureLoop& loop) {
        std::uint64_t last = 0;
        while (!over_) {
            const auto start = Clock::now();
            const auto captured = loop.latest();
            longest_ = std::max(longest_.load(), milliseconds_since(start));
            if (captured->number < last) in_order_ = false;
            last = captured->number;
            std::this_thread::sleep_for(1ms);
        }
    }

    std::atomic<bool> over_ = false, in_order_ = true;
    std::atomic<double> longest_ = 0;
    std::thread thread_;
};

void require_stale(const CaptureLoop& loop) {
    REQUIRE(comes_true([&] { return loop.latest()->stale; }, 3s));
    const auto stale = loop.latest();
    REQUIRE(stale->frame);
    REQUIRE(stale->frame->width == 320);
    REQUIRE_FALSE(stale->trouble.empty());
    REQUIRE(stale->trouble.find('\n') == std::string::npos);
}

// Milliseconds until frames come again.
double wait_for_return(const CaptureLoop& loop) {
    const auto start = Clock::now();
    const std::uint64_t before = loop.latest()->number;
    REQUIRE(comes_true([&] { return !loop.latest()->stale && loop.latest()->number > before; }, 8s));
    return milliseconds_since(start);
}

// Each time the server stalls and goes on, stalls and is killed, and is started again.
void interrupt_stream(int times) {
    RtspServer server;
    CapturePatience patience;
    patience.least_silence = 200ms;
    CaptureLoop loop(patience);
    loop.watch(std::make_shared<VideoSource>(VideoKind::stream, server.address(), 1500ms));
    REQUIRE(loop.wait_for_newer(2, 10s)->number >= 3);
    const Caller caller(loop);
    double slowest = 0;
    for (int i = 0; i < times; ++i) {
        INFO("interruption " << i + 1);
        server.stall();
        require_stale(loop);
        if (i % 2) {
            server.go_on();
            wait_for_return(loop);
        }
        server.kill();
        require_stale(loop);
        server.restart();
        slowest = std::max(slowest, wait_for_return(loop));
    }
    const auto start = Clock::now();
    loop.stop();
    const double stopping = milliseconds_since(start);
    std::cout << times << " interruptions of an RTSP stream: slowest return after a restart " << slowest
              << " ms, longest latest() " << caller.longest() << " ms, stop() " << stopping << " ms\n";
    CHECK(caller.in_order());
    CHECK(caller.longest() < 20);  // microseconds, but on a busy machine a thread may have to wait its turn
    CHECK(stopping < 500);
}

}  // namespace

TEST_CASE(
    "An RTSP stream that stalls, is killed and returns keeps its last frame, stale, and nobody waiting") {
    interrupt_stream(2);
}

TEST_CASE("Fifty interruptions of an RTSP stream are survived within three minutes", "[.shown][camera]") {
    const auto start = Clock::now();
    interrupt_stream(50);
    std::cout << "all of them: " << milliseconds_since(start) / 1000 << " s\n";
    CHECK(milliseconds_since(start) < 180'000);
}
