#include "bad_pictures.h"

#include <lcms2.h>
#include <turbojpeg.h>
#include <zlib.h>

#include <string>
#include <vector>

#include "picture/write_picture.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

namespace tonemend::testing {
namespace {

std::string big_endian(std::uint32_t value) {
    std::string bytes;
    for (int shift = 24; shift >= 0; shift -= 8) bytes += static_cast<char>(value >> shift & 0xff);
    return bytes;
}

std::string png_chunk(const std::string& type, const std::string& content) {
    const std::string body = type + content;
    const uLong check = crc32(0, reinterpret_cast<const Bytef*>(body.data()), static_cast<uInt>(body.size()));
    return big_endian(static_cast<std::uint32_t>(content.size())) + body +
           big_endian(static_cast<std::uint32_t>(check));
}

std::string deflated(const std::string& text) {
    uLongf size = compressBound(static_cast<uLong>(text.size()));
    std::string bytes(size, '\0');
    REQUIRE(compress(reinterpret_cast<Bytef*>(bytes.data()), &size,
                     reinterpret_cast<const Bytef*>(text.data()), static_cast<uLong>(text.size())) == Z_OK);
    bytes.resize(size);
    return bytes;
}

std::string srgb_profile() {
    cmsHPROFILE profile = cmsCreate_sRGBProfile();
    cmsUInt32Number size = 0;
    REQUIRE(cmsSaveProfileToMem(profile, nullptr, &size));
    std::string bytes(size, '\0');
    REQUIRE(cmsSaveProfileToMem(profile, bytes.data(), &size));
    cmsCloseProfile(profile);
    return bytes;
}

std::string bad_profile(ProfileFault fault) {
    std::string profile = srgb_profile();
    switch (fault) {
        case ProfileFault::device_link:
            profile.replace(12, 4, "link");  // ICC.1:2022, table 17: the profile's class
            break;
        case ProfileFault::cut_short:
            profile.resize(200);
            profile.replace(0, 4, big_endian(200));
            break;
        case ProfileFault::not_a_profile:
            profile = std::string(300, 'x');
            break;
    }
    return profile;
}

/// Sixteen grey rows of sixteen pixels, whatever side the header states.
void write_png(const std::filesystem::path& path, std::uint32_t side, const std::string& further_chunks) {
    const std::string header = big_endian(side) + big_endian(side) + std::string("\x08\x02\0\0\0", 5);
    std::string rows;
    for (int row = 0; row < 16; ++row) rows += std::string(1, '\0') + std::string(48, '\x80');
    put_content(path, std::string("\x89PNG\r\n\x1a\n") + png_chunk("IHDR", header) + further_chunks +
                          png_chunk("IDAT", deflated(rows)) + png_chunk("IEND", ""));
}

}  // namespace

void write_png_with_bad_profile(const std::filesystem::path& path, ProfileFault fault) {
    write_png(path, 16, png_chunk("iCCP", std::string("shop\0\0", 6) + deflated(bad_profile(fault))));
}

void write_png_of_false_size(const std::filesystem::path& path) {
    write_png(path, 14000, "");
}

void write_cmyk_jpeg(const std::filesystem::path& path) {
    tjhandle compressor = tjInitCompress();
    const std::vector<unsigned char> cmyk(32 * 32 * 4, 100);
    unsigned char* buffer = nullptr;
    unsigned long size = 0;
    REQUIRE(tjCompress2(compressor, cmyk.data(), 32, 0, 32, TJPF_CMYK, &buffer, &size, TJSAMP_444, 90, 0) ==
            0);
    put_content(path, std::string(reinterpret_cast<const char*>(buffer), size));
    tjFree(buffer);
    tjDestroy(compressor);
}

}  // namespace tonemend::testing
