#include "picture/still.h"

#include <fmt/format.h>

#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {

void require_readable_size(std::uint64_t width, std::uint64_t height, const std::string& name) {
    if (width == 0 || height == 0) refuse_damaged(name, "it has no area");
    if (width > most_pixels || height > most_pixels || width * height > most_pixels)
        refuse(name,
               fmt::format("is {} × {} pixels, and at most {} megapixels can be read", width, height,
                           most_pixels / 1'000'000),
               "save it smaller or crop it");
}

void require_enough_bytes(std::uint64_t sample_bytes, std::size_t file_size, const std::string& name) {
    constexpr std::uint64_t best_deflation = 1032;
    if (sample_bytes / best_deflation > file_size)
        refuse_damaged(name, "it is too short for the size it states");
}

void refuse_damaged(const std::string& name, const std::string& detail) {
    refuse(name, fmt::format("is damaged or cut short ({})", detail), "copy it from the camera again");
}

void refuse(const std::string& name, const std::string& what, const std::string& cure) {
    throw InputError(one_line(fmt::format("{}: {}; {}", name, what, cure), 600));
}

}  // namespace tonemend
