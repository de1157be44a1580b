#include <algorithm>
#include <cstdlib>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "calibrate/card/card.h"
#include "calibrate/card/card_location.h"
#include "picture/input_error.h"
#include "picture/text_line.h"

namespace tonemend {
namespace {

namespace fs = std::filesystem;

/// Where card files are looked for, first to last: the user's own folder, the installed one, the source
/// tree's.
std::vector<fs::path> card_folders() {
    std::vector<fs::path> folders;
    if (const char* own = std::getenv("TONEMEND_CALIBRATION_DIR"); own && *own) folders.emplace_back(own);
    std::error_code failure;
    const fs::path program = fs::read_symlink("/proc/self/exe", failure);
    if (!failure)
        folders.push_back(program.parent_path().parent_path() / "share" / "tonemend" / "calibration");
    folders.emplace_back(TONEMEND_CALIBRATION_DIR);
    return folders;
}

bool is_file(const fs::path& path) {
    std::error_code failure;
    return fs::is_regular_file(path, failure);
}

std::vector<std::string> card_names() {
    std::vector<std::string> names;
    for (const fs::path& folder : card_folders()) {
        std::error_code failure;
        for (const auto& entry : fs::directory_iterator(folder, failure))
            if (entry.path().extension() == ".txt")
                names.push_back(one_line(entry.path().stem().string(), 40));
    }
    std::sort(names.begin(), names.end());
    names.erase(std::unique(names.begin(), names.end()), names.end());
    return names;
}

}  // namespace

fs::path locate_calibration_file(const std::string& name) {
    for (const fs::path& folder : card_folders())
        if (is_file(folder / name)) return folder / name;
    throw InputError(fmt::format("{}: not found beside the card files; install the program again", name));
}

fs::path locate_card(const std::string& card) {
    if (is_file(card)) return card;
    // A name, not a path: nothing outside the folders is reached.
    if (!card.empty() && card.find('/') == std::string::npos)
        for (const fs::path& folder : card_folders())
            for (const fs::path& candidate : {folder / (card + ".txt"), folder / card})
                if (is_file(candidate)) return candidate;
    throw InputError(fmt::format("{}: no such card; give the path of a card file, or one of: {}",
                                 one_line(card), fmt::join(card_names(), ", ")));
}

}  // namespace tonemend
