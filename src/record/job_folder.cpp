#include "record/job_folder.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <nlohmann/json.hpp>
#include <span>

#include "picture/input_error.h"
#include "picture/text_line.h"
#include "picture/write_picture.h"
#include "record/annotated_picture.h"
#include "record/comparison_json.h"

namespace tonemend {
namespace {

constexpr int most_readings = 1'000'000;  // a job with more is a strange file's name

std::string shown(const std::filesystem::path& path) {
    return one_line(path.string(), 400);
}

// The number before the name's first dash; 0 when the name is not one of ours.
int number_of(const std::string& name) {
    constexpr std::size_t digits = 4;
    int number = 0;
    const auto [end, error] = std::from_chars(name.data(), name.data() + name.size(), number);
    const auto length = static_cast<std::size_t>(end - name.data());
    const bool ours =
        error == std::errc{} && number > 0 && length >= digits && length < name.size() && *end == '-';
    return ours && number < most_readings ? number : 0;
}

int last_number(const std::filesystem::path& folder) {
    std::error_code error;
    int last = 0;
    for (std::filesystem::directory_iterator entry(folder, error), end; !error && entry != end;
         entry.increment(error)) {
        last = std::max(last, number_of(entry->path().filename().string()));
    }
    if (error)
        throw InputError(
            fmt::format("{}: cannot be listed ({}); check its permissions", shown(folder), error.message()));
    return last;
}

}  // namespace

void JobFolder::make() const {
    std::error_code error;
    std::filesystem::create_directories(folder_, error);
    if (error || !std::filesystem::is_directory(folder_, error)) {
        throw InputError(
            fmt::format("{}: cannot be a job folder; choose one that you may write to", shown(folder_)));
    }
}

std::filesystem::path JobFolder::keep(const Frame& frame, const Calibration& calibration,
                                      const Comparison& comparison) const {
    make();
    const std::filesystem::path picture(frame.name);
    const std::string stem = fmt::format("{:04d}-{}", last_number(folder_) + 1, picture.stem().string());
    save_annotated_picture(frame, calibration, comparison, folder_ / (stem + ".png"));
    nlohmann::ordered_json json = to_json(calibration, comparison);
    json["taken"] =
        fmt::format("{:%Y-%m-%dT%H:%M:%SZ}",
                    fmt::gmtime(std::chrono::system_clock::to_time_t(std::chrono::system_clock::now())));
    json["picture"] = picture.filename().string();
    const std::string text = to_text(json);
    const std::filesystem::path path = folder_ / (stem + ".json");
    write_whole_file(path, std::as_bytes(std::span(text)));
    return path;
}

}  // namespace tonemend
