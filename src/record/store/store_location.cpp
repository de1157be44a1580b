#include "record/store/store_location.h"

#include <cstdlib>

#include "calibrate/keep/user_folder.h"

namespace tonemend {

bool StoreLocation::is_there() const {
    std::error_code failure;
    return file.empty() || std::filesystem::exists(file, failure);
}

StoreLocation parse_store_location(const std::string& text) {
    if (text.starts_with("postgresql://") || text.starts_with("postgres://")) return {{}, text};
    if (!text.empty()) return {std::filesystem::absolute(text), {}};
    const char* wanted = std::getenv("TONEMEND_STORE");
    if (wanted != nullptr && *wanted != '\0') return parse_store_location(wanted);
    return {user_folder(UserFolder::data) / "jobs.sqlite", {}};
}

StoreLocation practice_store() {
    return {user_folder(UserFolder::data) / "practice.sqlite", {}};
}

}  // namespace tonemend
