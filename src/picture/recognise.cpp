#include <algorithm>
#include <string_view>

#include "picture/still.h"
#include "picture/tiff_memory.h"

namespace tonemend {
namespace {

constexpr std::uint32_t dng_version_tag = 50706;

bool has_at(std::span<const std::byte> bytes, std::size_t at, std::string_view signature) {
    return bytes.size() >= at + signature.size() &&
           std::equal(signature.begin(), signature.end(), bytes.begin() + static_cast<std::ptrdiff_t>(at),
                      [](char c, std::byte b) { return static_cast<std::byte>(c) == b; });
}

bool is_tiff(std::span<const std::byte> bytes) {
    using namespace std::string_view_literals;
    for (const auto signature : {"II*\0"sv, "MM\0*"sv, "II+\0"sv, "MM\0+"sv})
        if (has_at(bytes, 0, signature)) return true;
    return false;
}

/// HEIC and AVIF: an ISO base media file (ISO/IEC 14496-12) whose brand is one of ISO/IEC 23008-12's for
/// still pictures. Some cameras' raw files are such files too, of another brand.
bool is_heif(std::span<const std::byte> bytes) {
    if (!has_at(bytes, 4, "ftyp")) return false;
    constexpr std::string_view brands[] = {"heic", "heix", "heim", "heis", "hevc",
                                           "hevx", "mif1", "msf1", "avif", "avis"};
    return std::any_of(std::begin(brands), std::end(brands),
                       [&](std::string_view brand) { return has_at(bytes, 8, brand); });
}

/// Cameras' raw files are often TIFF files; a scan or an edited photo is one without a sensor's mosaic.
bool is_raw_tiff(std::span<const std::byte> bytes) {
    TiffMemory memory(bytes);
    if (!memory.get()) return is_raw(bytes);
    std::uint16_t count = 0;
    const void* value = nullptr;
    if (TIFFGetField(memory.get(), dng_version_tag, &value)) return true;
    const char* make = nullptr;
    std::uint64_t* offsets = nullptr;
    const bool by_camera = TIFFGetField(memory.get(), TIFFTAG_MAKE, &make) ||
                           TIFFGetField(memory.get(), TIFFTAG_SUBIFD, &count, &offsets);
    return by_camera && is_raw(bytes);
}

}  // namespace

FileKind recognise(std::span<const std::byte> bytes) {
    if (has_at(bytes, 0, "\xff\xd8\xff")) return FileKind::jpeg;
    if (has_at(bytes, 0, "\x89PNG\r\n\x1a\n")) return FileKind::png;
    if (has_at(bytes, 0, "RIFF") && has_at(bytes, 8, "WEBP")) return FileKind::webp;
    if (is_heif(bytes)) return FileKind::heif;
    if (is_tiff(bytes)) return is_raw_tiff(bytes) ? FileKind::raw : FileKind::tiff;
    return is_raw(bytes) ? FileKind::raw : FileKind::unknown;
}

}  // namespace tonemend
