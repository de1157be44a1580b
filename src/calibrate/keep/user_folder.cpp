#include "calibrate/keep/user_folder.h"

#include <cstdlib>

namespace tonemend {
namespace {

namespace fs = std::filesystem;

fs::path base_folder(const char* variable, const char* below_home) {
    if (const char* given = std::getenv(variable); given != nullptr && *given == '/') return given;
    const char* home = std::getenv("HOME");
    return fs::path(home != nullptr && *home != '\0' ? home : "/tmp") / below_home;
}

}  // namespace

fs::path user_folder(UserFolder which) {
    const fs::path base = which == UserFolder::settings ? base_folder("XDG_CONFIG_HOME", ".config")
                                                        : base_folder("XDG_DATA_HOME", ".local/share");
    return base / "tonemend";
}

}  // namespace tonemend
