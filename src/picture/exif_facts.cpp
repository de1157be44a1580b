#include "picture/exif_facts.h"

#include <cmath>
#include <exception>
#include <string>

#include <exiv2/exiv2.hpp>

#include "picture/text_line.h"

namespace tonemend {
namespace {

/// One number of the tag, if it is there and finite.
std::optional<double> exif_number(const Exiv2::ExifData& exif, const char* key) {
    const auto found = exif.findKey(Exiv2::ExifKey(key));
    if (found == exif.end() || found->count() == 0) return std::nullopt;
    const double value = static_cast<double>(found->toFloat(0));
    if (!std::isfinite(value)) return std::nullopt;
    return value;
}

std::optional<double> positive(const Exiv2::ExifData& exif, const char* key) {
    const auto value = exif_number(exif, key);
    return value && *value > 0 ? value : std::nullopt;
}

std::optional<int> whole(const Exiv2::ExifData& exif, const char* key) {
    const auto value = exif_number(exif, key);
    if (!value || std::abs(*value) > 65535) return std::nullopt;
    return static_cast<int>(*value);
}

std::string text(const Exiv2::ExifData& exif, const char* key) {
    const auto found = exif.findKey(Exiv2::ExifKey(key));
    // An ASCII tag may carry its terminating zeros along; one_line makes them blanks and trims them.
    return found == exif.end() ? std::string() : one_line(found->toString(), 60);
}

/// Maker and model; many makers repeat their name at the start of the model.
std::string camera_name(const Exiv2::ExifData& exif) {
    const std::string make = text(exif, "Exif.Image.Make");
    std::string model = text(exif, "Exif.Image.Model");
    const std::string first_word = make.substr(0, make.find(' '));
    if (make.empty() || model.starts_with(first_word)) return model;
    return model.empty() ? make : make + " " + model;
}

ExifColour colour_of(const Exiv2::ExifData& exif) {
    const auto space = whole(exif, "Exif.Photo.ColorSpace");
    if (space == 1) return ExifColour::srgb;
    if (text(exif, "Exif.Iop.InteroperabilityIndex") == "R03") return ExifColour::op_rgb;
    return ExifColour::unstated;
}

ExifFacts facts_of(const Exiv2::ExifData& exif) {
    ExifFacts facts;
    facts.capture.camera = camera_name(exif);
    facts.capture.exposure_seconds = positive(exif, "Exif.Photo.ExposureTime");
    facts.capture.f_number = positive(exif, "Exif.Photo.FNumber");
    facts.capture.iso = positive(exif, "Exif.Photo.ISOSpeedRatings");
    if (const auto mode = whole(exif, "Exif.Photo.WhiteBalance"))
        facts.capture.white_balance_automatic = mode == 0;
    // 0 automatic, 1 manual, 2 automatic bracketing.
    if (const auto mode = whole(exif, "Exif.Photo.ExposureMode"))
        facts.capture.exposure_automatic = mode != 1;
    if (const auto flash = whole(exif, "Exif.Photo.Flash")) facts.capture.flash_fired = (*flash & 1) != 0;
    facts.orientation = whole(exif, "Exif.Image.Orientation");
    if (facts.orientation && (*facts.orientation < 1 || *facts.orientation > 8)) facts.orientation.reset();
    facts.colour = colour_of(exif);
    return facts;
}

}  // namespace

ExifFacts read_exif(std::span<const std::uint8_t> tiff) noexcept {
    if (tiff.empty()) return {};
    try {
        Exiv2::LogMsg::setLevel(Exiv2::LogMsg::mute);
        Exiv2::ExifData exif;
#if EXIV2_TEST_VERSION(0, 28, 0)
        Exiv2::ExifParser::decode(exif, tiff.data(), tiff.size());
#else
        Exiv2::ExifParser::decode(exif, tiff.data(), static_cast<std::uint32_t>(tiff.size()));
#endif
        return facts_of(exif);
    } catch (const std::exception&) {
        return {};
    }
}

}  // namespace tonemend
