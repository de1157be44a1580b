// Decoding of stills: JPEG, PNG, TIFF, WebP and raw, with EXIF and ICC profiles in them.
#include "picture/read_picture.h"

#include <lcms2.h>
#include <zlib.h>

#include <cmath>
#include <random>
#include <span>
#include <string_view>

#include "picture/input_error.h"
#include "picture/write_dng.h"
#include "picture/write_picture.h"
#include "target.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

constexpr int width = 32, height = 24;

Frame small_frame(SampleType type) {
    Frame frame;
    frame.width = width, frame.height = height, frame.type = type;
    frame.samples.resize(width * height * 3 * frame.bytes_per_sample());
    std::mt19937_64 random(7);
    for (std::byte& value : frame.samples) value = static_cast<std::byte>(random() % 60 + 90);
    return frame;
}

std::vector<std::uint8_t> small_profile() {
    cmsHPROFILE profile = cmsCreate_sRGBProfile();
    cmsUInt32Number size = 0;
    cmsSaveProfileToMem(profile, nullptr, &size);
    std::vector<std::uint8_t> bytes(size);
    cmsSaveProfileToMem(profile, bytes.data(), &size);
    cmsCloseProfile(profile);
    return bytes;
}

/// An EXIF segment (Exif 2.3, 4.5.4 and 4.6.2): orientation 6, exposure time 1/50 s.
std::string exif_segment() {
    const unsigned char tiff[] = {'M',  'M',  0, 42, 0, 0, 0, 8,               // header, first directory at 8
                                  0,    2,                                     // two entries
                                  1,    0x12, 0, 3,  0, 0, 0, 1, 0, 6, 0, 0,   // Orientation
                                  0x82, 0x9a, 0, 5,  0, 0, 0, 1, 0, 0, 0, 38,  // ExposureTime, at 38
                                  0,    0,    0, 0,                            // no further directory
                                  0,    0,    0, 1,  0, 0, 0, 50};
    const std::string body = std::string("Exif\0\0", 6) + std::string(tiff, tiff + sizeof tiff);
    const std::size_t length = body.size() + 2;
    return std::string("\xff\xe1") + static_cast<char>(length >> 8) + static_cast<char>(length & 0xff) + body;
}

std::string dng_content(const ScratchFolder& folder) {
    SensorMosaic mosaic;
    mosaic.width = mosaic.height = 32;
    mosaic.black_level = 1024;
    for (int i = 0; i < 32 * 32; ++i) mosaic.values.push_back(static_cast<std::uint16_t>(9000 + 37 * i));
    write_dng(mosaic, folder / "a.dng");
    return content_of(folder / "a.dng");
}

}  // namespace

std::vector<std::string> tonemend::testing::fuzz_seeds() {
    const ScratchFolder folder;
    std::vector<std::string> seeds;
    WriteOptions with_profile;
    with_profile.icc_profile = small_profile();
    for (const WriteOptions& options : {WriteOptions{}, with_profile}) {
        for (const char* name : {"a.jpg", "a.png", "a.tif", "a.webp"}) {
            write_picture(small_frame(SampleType::uint8), folder / name, options);
            seeds.push_back(content_of(folder / name));
        }
        for (const char* name : {"b.png", "b.tif"}) {
            write_picture(small_frame(SampleType::uint16), folder / name, options);
            seeds.push_back(content_of(folder / name));
        }
    }
    Frame light = small_frame(SampleType::uint8);
    light.type = SampleType::float32;
    light.samples.assign(width * height * 3 * sizeof(float), std::byte{0x3e});
    write_picture(light, folder / "c.tif");
    seeds.push_back(content_of(folder / "c.tif"));
    seeds.push_back(std::string(seeds[0]).insert(2, exif_segment()));
    seeds.push_back(dng_content(folder));
    return seeds;
}

namespace {

void try_picture(std::span<const std::byte> bytes) {
    try {
        const Frame frame = read_picture(bytes, "input");
        require_promise(frame.width > 0 && frame.height > 0, "a picture has an area");
        require_promise(frame.samples.size() == static_cast<std::size_t>(frame.width) *
                                                    static_cast<std::size_t>(frame.height) * 3 *
                                                    frame.bytes_per_sample(),
                        "samples are height × width × 3, no padding");
        require_promise(frame.encoding.decoding != nullptr, "every picture says how it relates to light");
        float rgb[6] = {0, 0.5F, 1, 0.2F, 0.3F, 0.4F};
        frame.encoding.decoding->decode(rgb, rgb, 2);
        for (const float value : rgb) require_promise(std::isfinite(value), "linear light is finite");
    } catch (const InputError& error) {
        const std::string text = error.what();
        require_promise(text.starts_with("input: "), "a refusal names its file");
        require_promise(text.find('\n') == text.npos, "a refusal is one line");
    }
}

/// The checksums of a PNG's chunks made right (PNG specification, 5.3), or few mutations would reach what
/// lies behind them.
std::vector<std::byte> with_sound_checksums(std::span<const std::byte> png) {
    std::vector<std::byte> bytes(png.begin(), png.end());
    const auto number = [&](std::size_t at) {
        std::size_t value = 0;
        for (std::size_t i = 0; i < 4; ++i) value = value << 8 | std::to_integer<std::size_t>(bytes[at + i]);
        return value;
    };
    for (std::size_t at = 8; at + 12 <= bytes.size();) {
        const std::size_t length = number(at);
        if (length > bytes.size() - at - 12) break;
        const uLong sum =
            crc32(0, reinterpret_cast<const Bytef*>(&bytes[at + 4]), static_cast<uInt>(length + 4));
        for (std::size_t i = 0; i < 4; ++i)
            bytes[at + 8 + length + i] = static_cast<std::byte>(sum >> (24 - 8 * i) & 0xff);
        at += length + 12;
    }
    return bytes;
}

}  // namespace

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::span bytes(reinterpret_cast<const std::byte*>(data), size);
    try_picture(bytes);
    constexpr std::string_view png = "\x89PNG\r\n\x1a\n";
    if (std::string_view(reinterpret_cast<const char*>(data), size).starts_with(png))
        try_picture(with_sound_checksums(bytes));
    return 0;
}
