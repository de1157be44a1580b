#include "cli/new_file.h"

#include <fmt/format.h>

#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {

void require_new(const std::filesystem::path& path, Replace replace) {
    std::error_code failure;
    if (replace == Replace::yes || !std::filesystem::exists(std::filesystem::symlink_status(path, failure)))
        return;
    throw InputError(
        fmt::format("{}: exists; choose another name or add --force", one_line(path.string(), 400)));
}

}  // namespace tonemend
