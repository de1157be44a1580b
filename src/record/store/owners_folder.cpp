#include "record/store/owners_folder.h"

#include <fmt/format.h>

#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {

void make_owners_folder(const std::filesystem::path& folder) {
    namespace fs = std::filesystem;
    std::error_code failure;
    if (fs::is_directory(folder, failure)) return;
    fs::create_directories(folder, failure);
    if (!failure) fs::permissions(folder, fs::perms::owner_all, failure);
    if (failure)
        throw InputError(fmt::format("{}: cannot be made ({}); check the permissions of the folder above it",
                                     one_line(folder.string(), 400), failure.message()));
}

}  // namespace tonemend
