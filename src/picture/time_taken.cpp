#include "picture/time_taken.h"

#include <chrono>
#include <exception>
#include <optional>
#include <string>

#include <exiv2/exiv2.hpp>

#include "picture/exif_time.h"
#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

std::string exif_text(const Exiv2::ExifData& exif, const char* key) {
    const auto found = exif.findKey(Exiv2::ExifKey(key));
    return found == exif.end() ? std::string() : one_line(found->toString(), 60);
}

// Damaged EXIF, and containers that Exiv2 does not know, say nothing.
std::optional<double> time_by_exif(const std::filesystem::path& path) {
    try {
        Exiv2::LogMsg::setLevel(Exiv2::LogMsg::mute);
        const auto image = Exiv2::ImageFactory::open(path.string());
        if (image.get() == nullptr) return std::nullopt;
        image->readMetadata();
        const Exiv2::ExifData& exif = image->exifData();
        return exif_seconds(exif_text(exif, "Exif.Photo.DateTimeOriginal"),
                            exif_text(exif, "Exif.Photo.OffsetTimeOriginal"),
                            exif_text(exif, "Exif.Photo.SubSecTimeOriginal"));
    } catch (const std::exception&) {
        return std::nullopt;
    }
}

}  // namespace

TimeTaken time_taken(const std::filesystem::path& path) {
    std::error_code failed;
    const auto written = std::filesystem::last_write_time(path, failed);
    if (failed) throw InputError(one_line(path.string(), 400) + ": no such picture; check its name");
    if (const auto seconds = time_by_exif(path)) return {*seconds, TimeOrigin::exif};
    const auto since = std::chrono::file_clock::to_sys(written).time_since_epoch();
    return {std::chrono::duration<double>(since).count(), TimeOrigin::file};
}

}  // namespace tonemend
