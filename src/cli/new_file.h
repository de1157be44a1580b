#pragma once

#include <filesystem>

namespace tonemend {

/// Whether a file that is there may be replaced (--force).
enum class Replace { no, yes };

/// Throws InputError when `path` is there already and may not be replaced.
void require_new(const std::filesystem::path& path, Replace replace);

}  // namespace tonemend
