#include "record/job_folder.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <chrono>
#include <nlohmann/json.hpp>
#include <span>

#include "picture/input_error.h"
#include "picture/text_line.h"
#include "picture/write_picture.h"
#include "record/comparison_json.h"
#include "record/reading_number.h"

namespace tonemend {
namespace {

// A file's name has 255 bytes on most file systems; number, ending and a temporary file's suffix want some.
std::string shortened(std::string stem) {
    constexpr std::size_t longest = 200;
    if (stem.size() <= longest) return stem;
    std::size_t cut = longest;
    // Not through the middle of a UTF-8 sequence.
    while (cut > 0 && (static_cast<unsigned char>(stem[cut]) & 0xc0) == 0x80) --cut;
    stem.resize(cut);
    return stem;
}

}  // namespace

void JobFolder::make() const {
    std::error_code error;
    std::filesystem::create_directories(folder_, error);
    if (error || !std::filesystem::is_directory(folder_, error)) {
        throw InputError(fmt::format("{}: cannot be a job folder; choose one that you may write to",
                                     one_line(folder_.string(), 400)));
    }
}

std::filesystem::path JobFolder::keep(const std::filesystem::path& picture, const AnnotatedPicture& annotated,
                                      const Calibration& calibration, const Comparison& comparison) const {
    make();
    const ReadingNumber number(folder_);
    const std::string stem = fmt::format("{:04d}-{}", number.value(), shortened(picture.stem().string()));
    write_whole_file(folder_ / (stem + ".png"), annotated);
    nlohmann::ordered_json json = to_json(calibration, comparison);
    json["taken"] =
        fmt::format("{:%Y-%m-%dT%H:%M:%SZ}",
                    fmt::gmtime(std::chrono::system_clock::to_time_t(std::chrono::system_clock::now())));
    json["picture"] = picture.filename().string();
    const std::string text = to_text(json);
    std::filesystem::path path = folder_ / (stem + ".json");
    write_whole_file(path, std::as_bytes(std::span(text)));
    return path;
}

}  // namespace tonemend
