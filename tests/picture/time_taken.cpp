// When a picture was taken: by EXIF (CIPA DC-008-2019, DateTimeOriginal, OffsetTimeOriginal,
// SubSecTimeOriginal), else by the file.
#include "picture/time_taken.h"

#include <chrono>
#include <cstdlib>
#include <ctime>

#include "picture/exif_time.h"
#include "picture/input_error.h"
#include "picture/write_picture.h"
#include "support.h"
#include "tests/catch.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

// A big-endian TIFF structure whose EXIF holds nothing but the time and its offset from UTC.
std::vector<std::uint8_t> exif_with_time(const std::string& date_time, const std::string& offset) {
    std::vector<std::uint8_t> bytes{'M', 'M'};
    const auto u16 = [&](unsigned value) {
        bytes.push_back(static_cast<std::uint8_t>(value >> 8)),
            bytes.push_back(static_cast<std::uint8_t>(value));
    };
    const auto u32 = [&](unsigned value) { u16(value >> 16), u16(value & 0xffff); };
    const auto tag = [&](unsigned number, unsigned type, unsigned count, unsigned value) {
        u16(number), u16(type), u32(count), u32(value);
    };
    const auto text = [&](const std::string& words) {
        for (const char c : words) bytes.push_back(static_cast<std::uint8_t>(c));
        bytes.push_back(0);
    };
    u16(42), u32(8);
    // IFD0 at 8 to 26, EXIF at 26 to 56, the texts at 56 and 76.
    u16(1), tag(0x8769, 4, 1, 26), u32(0);
    u16(2), tag(0x9003, 2, 20, 56), tag(0x9011, 2, 7, 76), u32(0);
    text(date_time), text(offset);
    return bytes;
}

}  // namespace

TEST_CASE("A date with its offset from UTC is seconds since 1970") {
    // 2026-01-01 00:00:00 UTC is 1767225600 (POSIX's formula, worked by hand: 56 years, 14 leap days).
    CHECK(exif_seconds("2026:01:01 00:00:00", "+00:00") == 1767225600.0);
    CHECK(exif_seconds("2026:01:01 01:30:00", "+01:30") == 1767225600.0);
    CHECK(exif_seconds("2025:12:31 19:00:00", "-05:00") == 1767225600.0);
    CHECK(exif_seconds("2026:01:01 00:00:00", "+00:00", "25") == 1767225600.25);
    CHECK(exif_seconds("2026:01:01 00:00:00", "+00:00", "003 ") == Approx(1767225600.003).margin(1e-6));
}

TEST_CASE("Without an offset the camera's clock is taken for this machine's") {
    setenv("TZ", "XST-2", 1);  // two hours ahead of UTC, POSIX's way of writing it
    tzset();
    CHECK(exif_seconds("2026:01:01 02:00:00") == 1767225600.0);
    unsetenv("TZ");
    tzset();
}

TEST_CASE("What is no date says nothing") {
    for (const char* text : {"", "yesterday", "0000:00:00 00:00:00", "2026:13:01 00:00:00", "2026:01:01",
                             "2026:01:01 25:00:00", "1970:01:01 00:00:00", "    :  :     :  :  "})
        CHECK(!exif_seconds(text, "+00:00"));
}

TEST_CASE("A picture's time is its EXIF's, and without EXIF the file's") {
    const ScratchFolder folder;
    const auto plain = folder / "plain.jpg", dated = folder / "dated.jpg";
    write_picture(make_frame(40, 30, SampleType::uint8, 1), plain);
    put_file(dated,
             with_exif_structure(file_content(plain), exif_with_time("2026:01:01 00:00:00", "+00:00")));
    const TimeTaken by_exif = time_taken(dated);
    CHECK(by_exif.seconds == 1767225600.0);
    CHECK(by_exif.origin == TimeOrigin::exif);
    std::filesystem::last_write_time(
        plain, std::chrono::file_clock::from_sys(std::chrono::sys_seconds(std::chrono::seconds(1767229200))));
    const TimeTaken by_file = time_taken(plain);
    CHECK(by_file.seconds == 1767229200.0);
    CHECK(by_file.origin == TimeOrigin::file);
    CHECK_THROWS_AS(time_taken(folder / "none.jpg"), InputError);
}
