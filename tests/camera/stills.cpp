#include <fstream>

#include "camera/folder_source.h"
#include "camera/still_source.h"
#include "picture/input_error.h"
#include "tests/camera/fake_source.h"
#include "tests/catch.h"

using namespace tonemend;
using namespace tonemend::testing;
using namespace std::chrono_literals;

namespace {

namespace fs = std::filesystem;

// Looks until a frame comes.
std::shared_ptr<const Frame> wait_for_frame(Source& source, std::chrono::milliseconds longest = 3s) {
    std::shared_ptr<const Frame> frame;
    comes_true([&] { return (frame = source.next(20ms)) != nullptr; }, longest);
    return frame;
}

// So that the file counts as written long ago.
void age(const fs::path& path) {
    fs::last_write_time(path, fs::file_time_type::clock::now() - 1h);
}

}  // namespace

TEST_CASE("A still is given once, and again when the file has changed") {
    const ScratchFolder folder;
    const fs::path path = folder / "still.png";
    write_picture(grey_frame(32, 24, 90), path);
    age(path);
    StillSource source(path);
    CHECK_FALSE(source.live());
    const auto first = source.next(0ms);
    REQUIRE(first);
    CHECK(code_at(*first, 0) == 90);
    CHECK(source.next(300ms) == nullptr);
    write_picture(grey_frame(32, 24, 120), path);
    const auto second = wait_for_frame(source);
    REQUIRE(second);
    CHECK(code_at(*second, 0) == 120);
}

TEST_CASE("A still that vanishes is an error with a cure, and its return a frame") {
    const ScratchFolder folder;
    const fs::path path = folder / "still.png";
    StillSource source(path);
    CHECK_THROWS_WITH(source.next(20ms), contains("put it back"));
    write_picture(grey_frame(32, 24, 90), path);
    CHECK(wait_for_frame(source));
}

TEST_CASE("A damaged still is reported in its decoder's words") {
    const ScratchFolder folder;
    put_content(folder / "bad.jpg", "\xff\xd8\xff no picture");
    age(folder / "bad.jpg");
    StillSource source(folder / "bad.jpg");
    CHECK_THROWS_AS(source.next(20ms), InputError);
    CHECK_THROWS_WITH(source.next(20ms), contains("bad.jpg"));
}

TEST_CASE("A watched folder gives its newest still, raw names included, and leaves other files alone") {
    const ScratchFolder folder;
    for (const char* name : {"a.JPG", "b.cr3", "c.NEF", "d.dng", "e.tiff"}) CHECK(has_still_name(name));
    for (const char* name : {".a.jpg", "b.jpg.part", "c.tmp", "d.txt", "jpg"})
        CHECK_FALSE(has_still_name(name));
    FolderSource source(folder.path());
    CHECK_THROWS_WITH(source.next(20ms), contains("no picture in it yet"));
    write_picture(grey_frame(32, 24, 90), folder / "old.png");
    age(folder / "old.png");
    const auto old = wait_for_frame(source);
    REQUIRE(old);
    CHECK(code_at(*old, 0) == 90);
    put_content(folder / "notes.txt", "newer than any picture");
    CHECK(source.next(300ms) == nullptr);
    const auto written = std::chrono::steady_clock::now();
    write_picture(grey_frame(32, 24, 120), folder / "new.png");
    const auto fresh = wait_for_frame(source);
    REQUIRE(fresh);
    CHECK(code_at(*fresh, 0) == 120);
    // 150 ms of steadiness, at most 50 ms until it is looked at, and the decoding.
    CHECK(std::chrono::steady_clock::now() - written < 600ms);
    CHECK_THROWS_WITH(FolderSource("/nowhere/at/all").next(0ms), contains("no such folder"));
}

TEST_CASE("A file that is still being written into the folder is not given before it is complete") {
    const ScratchFolder folder;
    const std::string whole = grey_file("whole.jpg", 640, 480, 77);
    std::string content = whole;
    bool full_size_at_once = false;
    SECTION("growing piece by piece") {}
    SECTION("at its full size from the start, filled later") {
        full_size_at_once = true;
    }
    FolderSource source(folder.path());
    const fs::path path = folder / "tethered.jpg";
    std::atomic<bool> complete = false;
    std::thread camera([&] {
        std::ofstream out(path, std::ios::binary);
        if (full_size_at_once) {
            out << std::string(whole.size(), '\0');
            out.seekp(0);
            out.flush();
        }
        const std::size_t piece = whole.size() / 5 + 1;
        for (std::size_t at = 0; at < whole.size(); at += piece) {
            // Longer than a file must be steady, so that half of it is tried and found wanting.
            std::this_thread::sleep_for(220ms);
            if (at + piece >= whole.size()) complete = true;
            out << whole.substr(at, piece);
            out.flush();
        }
    });
    std::shared_ptr<const Frame> frame;
    bool early = false;
    comes_true(
        [&] {
            try {
                frame = source.next(20ms);
            } catch (const InputError& error) {
                INFO(error.what());
                CHECK_THAT(error.what(), contains("no picture in it yet"));
            }
            if (frame && !complete) early = true;
            return frame != nullptr;
        },
        5s);
    camera.join();
    CHECK_FALSE(early);
    REQUIRE(frame);
    CHECK(frame->width == 640);
    CHECK(std::abs(code_at(*frame, frame->samples.size() - 1) - 77) <= 1);
}
