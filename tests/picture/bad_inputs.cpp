// Every input that cannot be used is refused in one line that names the file and the cure.
#include <sys/stat.h>
#include <tiffio.h>
#include <turbojpeg.h>
#include <unistd.h>

#include <functional>
#include <opencv2/imgcodecs.hpp>

#include "picture/icc_decoding.h"
#include "picture/input_error.h"
#include "picture/read_picture.h"
#include "picture/write_dng.h"
#include "picture/write_picture.h"
#include "support.h"
#include "tests/catch.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

/// The message of the InputError that `attempt` must throw; empty if it throws none.
std::string refusal(const std::function<void()>& attempt) {
    try {
        attempt();
    } catch (const InputError& error) {
        return error.what();
    }
    return {};
}

void check_refused(const std::filesystem::path& path, const std::string& what) {
    INFO(path);
    const std::string message = refusal([&] { read_picture(path); });
    INFO(message);
    CHECK(message.starts_with(path.string() + ": "));
    CHECK(message.find('\n') == std::string::npos);
    CHECK(message.find("; ") != std::string::npos);
    CHECK(message.find(what) != std::string::npos);
}

void write_cmyk_jpeg(const std::filesystem::path& path) {
    tjhandle compressor = tjInitCompress();
    const std::vector<unsigned char> cmyk(32 * 32 * 4, 100);
    unsigned char* buffer = nullptr;
    unsigned long size = 0;
    REQUIRE(tjCompress2(compressor, cmyk.data(), 32, 0, 32, TJPF_CMYK, &buffer, &size, TJSAMP_444, 90, 0) ==
            0);
    const auto* const first = reinterpret_cast<const std::byte*>(buffer);
    put_file(path, {first, first + size});
    tjFree(buffer);
    tjDestroy(compressor);
}

void write_cmyk_tiff(const std::filesystem::path& path) {
    TIFF* tiff = TIFFOpen(path.c_str(), "w");
    REQUIRE(tiff);
    TIFFSetField(tiff, TIFFTAG_IMAGEWIDTH, 8);
    TIFFSetField(tiff, TIFFTAG_IMAGELENGTH, 1);
    TIFFSetField(tiff, TIFFTAG_SAMPLESPERPIXEL, 4);
    TIFFSetField(tiff, TIFFTAG_BITSPERSAMPLE, 8);
    TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC, PHOTOMETRIC_SEPARATED);
    std::vector<unsigned char> row(32, 50);
    TIFFWriteScanline(tiff, row.data(), 0, 0);
    TIFFClose(tiff);
}

SensorMosaic grey_mosaic() {
    SensorMosaic mosaic;
    mosaic.width = mosaic.height = 64;
    mosaic.values.assign(64 * 64, 9000);
    return mosaic;
}

/// A profile with its class, space or content changed.
std::vector<std::uint8_t> changed_profile(std::size_t at, const std::string& text) {
    auto bytes = bytes_of("/usr/share/color/icc/colord/AdobeRGB1998.icc");
    std::copy(text.begin(), text.end(), bytes.begin() + static_cast<std::ptrdiff_t>(at));
    return bytes;
}

/// Zeros in the middle of the compressed profile: its checksum no longer fits.
void check_refused_after_damage_to_iccp(const std::filesystem::path& sound,
                                        const std::filesystem::path& damaged) {
    auto bytes = file_content(sound);
    const std::string_view text(reinterpret_cast<const char*>(bytes.data()), bytes.size());
    const std::size_t chunk = text.find("iCCP");
    REQUIRE(chunk != text.npos);
    for (std::size_t i = 40; i < 60; ++i) bytes[chunk + i] = std::byte{0};
    put_file(damaged, bytes);
    check_refused(damaged, "profile");
}

constexpr std::size_t class_at = 12, space_at = 16, signature_at = 36, tag_count_at = 128;

}  // namespace

TEST_CASE("Files that are no picture are refused in one line") {
    const ScratchFolder folder;
    check_refused(folder / "missing.jpg", "no such file");
    check_refused(folder.path(), "folder");
    put_text(folder / "empty.jpg", "");
    check_refused(folder / "empty.jpg", "empty");
    put_text(folder / "text.jpg", "Dear diary,\ntoday I stained a table.\n");
    check_refused(folder / "text.jpg", "not a picture");
    put_text(folder / "script.png", std::string(100'000, 'x'));
    check_refused(folder / "script.png", "not a picture");
    put_text(folder / "start.jpg", "\xff\xd8\xff");
    check_refused(folder / "start.jpg", "damaged");
    if (geteuid() != 0) {  // the superuser may read everything
        put_text(folder / "private.jpg", "x");
        chmod((folder / "private.jpg").c_str(), 0);
        check_refused(folder / "private.jpg", "permissions");
    }
    mkfifo((folder / "pipe.jpg").c_str(), 0600);
    check_refused(folder / "pipe.jpg", "ordinary file");
    put_text(folder / "two\nlines.jpg", "x");
    CHECK(refusal([&] { read_picture(folder / "two\nlines.jpg"); }).find('\n') == std::string::npos);
}

TEST_CASE("A picture cut short anywhere is refused, whatever its kind") {
    const ScratchFolder folder;
    const Frame frame = make_frame(200, 150, SampleType::uint8);
    for (const char* name : {"a.jpg", "a.png", "a.tif", "a.webp"}) write_picture(frame, folder / name);
    cv::imwrite((folder / "progressive.jpg").string(), as_opencv(frame), {cv::IMWRITE_JPEG_PROGRESSIVE, 1});
    cv::imwrite((folder / "lossy.webp").string(), as_opencv(frame), {cv::IMWRITE_WEBP_QUALITY, 80});
    write_dng(grey_mosaic(), folder / "a.dng");
    for (const char* name : {"a.jpg", "progressive.jpg", "a.png", "a.tif", "a.webp", "lossy.webp", "a.dng"}) {
        const auto whole = file_content(folder / name);
        REQUIRE_NOTHROW(read_picture(folder / name));
        for (const double share : {0.001, 0.02, 0.1, 0.5, 0.9, 0.99}) {
            const auto kept = static_cast<std::ptrdiff_t>(share * static_cast<double>(whole.size()));
            const auto path = folder / ("cut" + std::to_string(kept) + name);
            put_file(path, {whole.begin(), whole.begin() + std::max<std::ptrdiff_t>(kept, 1)});
            check_refused(path, "; ");
        }
    }
}

TEST_CASE("A raw file with a directory entry whose value lies beyond its end is refused") {
    const ScratchFolder folder;
    write_dng(grey_mosaic(), folder / "sound.dng");
    const auto sound = file_content(folder / "sound.dng");
    const auto number = [&](std::size_t at, std::size_t bytes) {
        std::size_t value = 0;
        for (std::size_t i = bytes; i-- > 0;)
            value = value << 8 | std::to_integer<std::size_t>(sound[at + i]);
        return value;
    };
    const std::size_t directory =
        number(4, 4);  // the writer's byte order is little-endian on every machine we know
    const std::size_t entries = number(directory, 2);
    REQUIRE(entries > 15);
    for (std::size_t entry = 0; entry < entries; ++entry) {
        auto damaged = sound;
        damaged[directory + 2 + 12 * entry + 7] = std::byte{0x7f};  // the top byte of the count
        put_file(folder / "damaged.dng", damaged);
        check_refused(folder / "damaged.dng", "damaged");
    }
}

TEST_CASE("Pictures of kinds that cannot be measured are refused with the cure") {
    const ScratchFolder folder;
    write_cmyk_jpeg(folder / "cmyk.jpg");
    check_refused(folder / "cmyk.jpg", "CMYK");
    write_cmyk_tiff(folder / "cmyk.tif");
    check_refused(folder / "cmyk.tif", "CMYK");
    for (const char* name : {"clear.png", "clear.webp"}) {
        cv::imwrite((folder / name).string(), cv::Mat(20, 20, CV_8UC4, cv::Scalar(10, 20, 30, 128)));
        check_refused(folder / name, "flatten");
    }
    // An IHDR that claims 60000 × 60000 pixels, with its checksum.
    write_picture(make_frame(8, 8, SampleType::uint8), folder / "small.png");
    auto huge = file_content(folder / "small.png");
    const unsigned char header[] = {0, 0, 0xea, 0x60, 0,    0,    0xea, 0x60, 8,
                                    2, 0, 0,    0,    0x0f, 0xb0, 0xe2, 0x15};
    for (std::size_t i = 0; i < sizeof header; ++i) huge[16 + i] = static_cast<std::byte>(header[i]);
    put_file(folder / "huge.png", huge);
    check_refused(folder / "huge.png", "megapixels");
}

TEST_CASE("Profiles of the wrong kind and damaged profiles are refused, in every container") {
    const ScratchFolder folder;
    struct BadProfile {
        const char* description;
        std::vector<std::uint8_t> bytes;
    };
    const BadProfile profiles[] = {
        {"CMYK", changed_profile(space_at, "CMYK")},
        {"Lab", changed_profile(space_at, "Lab ")},
        {"grey for an RGB picture", bytes_of("/usr/share/color/icc/Gray.icc")},
        {"device link", changed_profile(class_at, "link")},
        {"abstract", changed_profile(class_at, "abst")},
        {"named colours", changed_profile(class_at, "nmcl")},
        {"no signature", changed_profile(signature_at, "xxxx")},
        {"no tags", changed_profile(tag_count_at, std::string(4, '\0'))},
        {"a wild tag count", changed_profile(tag_count_at, "\x7f\xff\xff\xff")},
        {"curves of no known type",
         [] {
             auto bytes = bytes_of("/usr/share/color/icc/colord/AdobeRGB1998.icc");
             for (std::size_t i = 200; i + 4 < bytes.size(); ++i)
                 if (std::string(bytes.begin() + static_cast<std::ptrdiff_t>(i),
                                 bytes.begin() + static_cast<std::ptrdiff_t>(i) + 4) == "curv" ||
                     std::string(bytes.begin() + static_cast<std::ptrdiff_t>(i),
                                 bytes.begin() + static_cast<std::ptrdiff_t>(i) + 4) == "para")
                     bytes[i] = 'x';
             return bytes;
         }()},
        {"cut short",
         [] {
             auto bytes = bytes_of("/usr/share/color/icc/colord/AdobeRGB1998.icc");
             bytes.resize(140);
             return bytes;
         }()},
    };
    for (const BadProfile& profile : profiles)
        for (const char* name : {"a.jpg", "a.tif", "a.webp"}) {
            INFO(profile.description);
            WriteOptions options;
            options.icc_profile = profile.bytes;
            write_picture(make_frame(16, 16, SampleType::uint8), folder / name, options);
            check_refused(folder / name, "profile");
        }
    // The PNG writer itself checks profiles, so the finished file is damaged.
    WriteOptions options;
    options.icc_profile = bytes_of("/usr/share/color/icc/colord/AdobeRGB1998.icc");
    write_picture(make_frame(16, 16, SampleType::uint8), folder / "a.png", options);
    check_refused_after_damage_to_iccp(folder / "a.png", folder / "b.png");
    const std::string message = refusal([&] { read_icc_profile(folder / "a.png"); });
    CHECK(message.starts_with((folder / "a.png").string()));
    CHECK(message.find("is no ICC profile") != std::string::npos);
}

TEST_CASE("A folder that cannot be written is told in one line, and nothing is left behind") {
    const ScratchFolder folder;
    const Frame frame = make_frame(16, 16, SampleType::float32);
    for (const std::string name : {"none/a.png", "a.png", "a.jpg", "a.webp", "a.bmp", "a"}) {
        INFO(name);
        const std::string message = refusal([&] { write_picture(frame, folder / name); });
        CHECK(message.starts_with((folder / name).string() + ": "));
        CHECK(message.find('\n') == std::string::npos);
    }
    CHECK(std::filesystem::is_empty(folder.path()));
}
