#include "cli/destinations.h"

#include <fmt/format.h>
#include <unistd.h>

#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

namespace fs = std::filesystem;

std::string shown(const fs::path& path) {
    return one_line(path.string(), 400);
}

bool is_open_folder(const fs::path& path) {
    std::error_code failure;
    return fs::is_directory(path, failure) && access(path.c_str(), W_OK | X_OK) == 0;
}

fs::path folder_of(const fs::path& path) {
    return path.has_parent_path() ? path.parent_path() : fs::path(".");
}

void require_copy(const fs::path& picture, const fs::path& copy) {
    if (copy.extension() != ".png") {
        throw InputError(fmt::format(
            "{}: an annotated picture is saved as PNG; give a name that ends in .png", shown(copy)));
    }
    if (!is_open_folder(folder_of(copy))) {
        throw InputError(
            fmt::format("{}: cannot be written there; choose a folder that exists and that you may write to",
                        shown(copy)));
    }
    std::error_code failure;
    if (fs::equivalent(picture, copy, failure)) {
        throw InputError(fmt::format(
            "{}: the annotated copy would replace the picture itself; give it another name", shown(copy)));
    }
    if (fs::is_directory(copy, failure)) {
        throw InputError(fmt::format("{}: is a folder; give the annotated copy another name", shown(copy)));
    }
}

}  // namespace

void require_destinations(const fs::path& picture, const fs::path& copy) {
    if (!copy.empty()) require_copy(picture, copy);
}

}  // namespace tonemend
