#include "camera/capture_loop.h"

#include "tests/camera/fake_source.h"
#include "tests/catch.h"

using namespace tonemend;
using namespace tonemend::testing;
using namespace std::chrono_literals;

namespace {

CapturePatience quick() {
    CapturePatience patience;
    patience.frame = 20ms;
    patience.first_silence = 300ms;
    patience.least_silence = 100ms;
    patience.stop = 200ms;
    return patience;
}

std::chrono::milliseconds time_of(const std::function<void()>& work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration_cast<std::chrono::milliseconds>(std::chrono::steady_clock::now() - start);
}

}  // namespace

// The rules below are this project's own: common practice, no source.

TEST_CASE("Before the first frame there is a captured frame without a picture that is not stale") {
    const CaptureLoop loop;
    CHECK(loop.latest()->frame == nullptr);
    CHECK(loop.latest()->number == 0);
    CHECK_FALSE(loop.latest()->stale);
    CHECK(loop.source_name().empty());
}

TEST_CASE("Frames are counted one by one and the newest is kept") {
    CaptureLoop loop(quick());
    loop.watch(std::make_shared<FakeSource>());
    const auto tenth = loop.wait_for_newer(9, 5s);
    REQUIRE(tenth->number >= 10);
    CHECK_FALSE(tenth->stale);
    CHECK(loop.wait_for_newer(tenth->number, 5s)->number > tenth->number);
    CHECK(loop.source_name() == "fake");
}

TEST_CASE("A silent source makes the last frame stale with a cure, and its next frame fresh again") {
    const auto source = std::make_shared<FakeSource>();
    CaptureLoop loop(quick());
    loop.watch(source);
    REQUIRE(loop.wait_for_newer(4, 5s)->number >= 5);
    source->behave(Behaviour::silent);
    CHECK(comes_true([&] { return loop.latest()->stale; }, 1s));
    const auto stale = loop.latest();
    CHECK(stale->frame != nullptr);
    CHECK_THAT(stale->trouble, contains("fake") && contains("check its cable"));
    source->behave(Behaviour::deliver);
    CHECK(comes_true([&] { return !loop.latest()->stale; }, 1s));
    CHECK(loop.latest()->trouble.empty());
}

TEST_CASE("A failing source is asked again at growing intervals of at most a second, and its trouble shown") {
    const auto source = std::make_shared<FakeSource>();
    CapturePatience patience = quick();
    patience.first_retry = 20ms;
    patience.last_retry = 160ms;
    CaptureLoop loop(patience);
    loop.watch(source);
    REQUIRE(loop.wait_for_newer(0, 5s)->number >= 1);
    source->behave(Behaviour::broken);
    REQUIRE(comes_true([&] { return loop.latest()->stale; }, 1s));
    CHECK(loop.latest()->trouble == "fake: broken; mend it");
    CHECK(loop.latest()->frame != nullptr);
    const int before = source->calls;
    std::this_thread::sleep_for(800ms);
    const int asked = source->calls - before;
    // 20 + 40 + 80 + 160 + 160 + … ms: 7 within 800 ms, 5 on a busy machine; without pauses there would be
    // thousands.
    CHECK(asked >= 3);
    CHECK(asked <= 7);
    source->behave(Behaviour::deliver);
    CHECK(comes_true([&] { return !loop.latest()->stale; }, 500ms));
}

TEST_CASE("Stopping and changing the source are quick even when the source hangs") {
    const auto hanging = std::make_shared<FakeSource>(50);
    hanging->behave(Behaviour::hang);
    CaptureLoop loop(quick());
    loop.watch(hanging);
    REQUIRE(comes_true([&] { return hanging->calls > 0; }, 5s));
    CHECK(time_of([&] { loop.watch(std::make_shared<FakeSource>(60)); }) < 100ms);
    const auto fresh = loop.wait_for_newer(0, 5s);
    REQUIRE(fresh->frame);
    CHECK(code_at(*fresh->frame, 0) == 60);
    CHECK(time_of([&] { loop.stop(); }) < 500ms);
    CHECK(loop.latest()->stale);
    hanging->behave(Behaviour::deliver);
    std::this_thread::sleep_for(50ms);
    CHECK(code_at(*loop.latest()->frame, 0) == 60);
}

TEST_CASE("After a change of source the old frame stays, stale, until the new source delivers") {
    CaptureLoop loop(quick());
    loop.watch(std::make_shared<FakeSource>(50));
    const auto old = loop.wait_for_newer(0, 5s);
    const auto second = std::make_shared<FakeSource>(60);
    second->behave(Behaviour::silent);
    loop.watch(second);
    const auto between = loop.latest();
    CHECK(between->stale);
    CHECK(code_at(*between->frame, 0) == 50);
    second->behave(Behaviour::deliver);
    const auto fresh = loop.wait_for_newer(between->number, 5s);
    CHECK(fresh->number == between->number + 1);
    CHECK(code_at(*fresh->frame, 0) == 60);
    CHECK(old->number <= between->number);
}

TEST_CASE("Controls are held on request and their outcome is told") {
    CaptureLoop loop(quick());
    loop.watch(std::make_shared<FakeSource>());
    CHECK(loop.control_outcomes().empty());
    loop.request_lock();
    REQUIRE(comes_true([&] { return !loop.control_outcomes().empty(); }, 5s));
    CHECK(loop.control_outcomes().front().control == "focus");
}

TEST_CASE("Many threads may read, change and stop at once") {
    CaptureLoop loop(quick());
    std::atomic<bool> over = false;
    std::vector<std::thread> readers;
    for (int i = 0; i < 3; ++i)
        readers.emplace_back([&] {
            std::uint64_t last = 0;
            while (!over) {
                const auto now = loop.latest();
                if (now->number < last) over = true;
                last = now->number;
            }
        });
    for (int i = 0; i < 30; ++i) {
        loop.watch(std::make_shared<FakeSource>());
        loop.wait_for_newer(loop.latest()->number, 1s);
        if (i % 5 == 4) loop.stop();
    }
    CHECK_FALSE(over.load());
    over = true;
    for (std::thread& reader : readers) reader.join();
    CHECK(loop.latest()->number >= 30);
}
