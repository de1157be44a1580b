#include "calibrate/keep/calibration_file.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <system_error>

#include "calibrate/keep/calibration_json.h"
#include "calibrate/keep/folder_lock.h"
#include "picture/file_bytes.h"
#include "picture/input_error.h"
#include "picture/text_line.h"
#include "picture/write_picture.h"

namespace tonemend {
namespace {

using Json = nlohmann::ordered_json;
namespace fs = std::filesystem;

constexpr std::size_t most_bytes = 64 << 20;

[[noreturn]] void refuse_file(const std::string& name, const std::string& what) {
    throw InputError(fmt::format(
        "{}: cannot serve as a calibration: {}; give the file that 'tonemend calibrate PICTURE --save FILE' "
        "wrote, or calibrate anew",
        one_line(name, 400), what));
}

}  // namespace

std::string calibration_text(const KeptCalibration& kept) {
    return calibration_json(kept).dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

KeptCalibration parse_calibration(std::span<const std::byte> text, const std::string& name) {
    if (text.size() > most_bytes) refuse_file(name, "it is larger than 64 MiB");
    const auto* const first = reinterpret_cast<const char*>(text.data());
    try {
        return to_kept_calibration(JsonPart(Json::parse(first, first + text.size())));
    } catch (const Json::exception&) {
        refuse_file(name, "it is no whole JSON text");
    } catch (const InputError& error) {
        refuse_file(name, error.what());
    }
}

KeptCalibration read_calibration(const fs::path& path) {
    std::error_code failure;
    if (fs::file_size(path, failure) > most_bytes && !failure)
        refuse_file(path.string(), "it is larger than 64 MiB");
    return parse_calibration(read_file_bytes(path).span(), path.string());
}

void change_calibration(const fs::path& path, const std::function<void(KeptCalibration&)>& change) {
    const FolderLock lock(path);
    KeptCalibration kept = read_calibration(path);
    change(kept);
    const std::string text = calibration_text(kept);
    write_whole_file(path, std::as_bytes(std::span(text)));
}

}  // namespace tonemend
