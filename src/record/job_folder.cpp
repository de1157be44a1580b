#include "record/job_folder.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <chrono>
#include <nlohmann/json.hpp>
#include <span>

#include "picture/input_error.h"
#include "picture/write_picture.h"
#include "record/annotated_picture.h"
#include "record/comparison_json.h"

namespace tonemend {
namespace {

int last_number(const std::filesystem::path& folder) {
    int last = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        const std::string name = entry.path().filename().string();
        if (name.size() > 4 && name[4] == '-' && std::all_of(name.begin(), name.begin() + 4, ::isdigit)) {
            last = std::max(last, std::stoi(name.substr(0, 4)));
        }
    }
    return last;
}

}  // namespace

std::filesystem::path JobFolder::keep(const Frame& frame, const Calibration& calibration, const Comparison& comparison) const {
    std::error_code error;
    std::filesystem::create_directories(folder_, error);
    if (error || !std::filesystem::is_directory(folder_)) {
        throw InputError(fmt::format("{}: cannot make this job folder; choose one that you may write to", folder_.string()));
    }
    const std::filesystem::path picture(frame.name);
    const std::string stem = fmt::format("{:04d}-{}", last_number(folder_) + 1, picture.stem().string());
    save_annotated_picture(frame, calibration, comparison, folder_ / (stem + ".png"));
    nlohmann::ordered_json json = to_json(calibration, comparison);
    json["taken"] = fmt::format("{:%Y-%m-%dT%H:%M:%SZ}", fmt::gmtime(std::chrono::system_clock::to_time_t(std::chrono::system_clock::now())));
    json["picture"] = picture.filename().string();
    const std::string text = json.dump(2) + "\n";
    const std::filesystem::path path = folder_ / (stem + ".json");
    write_whole_file(path, std::as_bytes(std::span(text)));
    return path;
}

}  // namespace tonemend
