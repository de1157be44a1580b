#include "live/display_choice.h"

#include <filesystem>

#include "live/display_profile.h"
#include "picture/input_error.h"

namespace tonemend {

DisplayChoice choose_display(const std::string& path, int monitor) {
    std::string trouble;
    try {
        if (!path.empty())
            return {read_display_profile(path), std::filesystem::path(path).filename().string(), ""};
        if (const auto profile = read_x11_profile(monitor)) {
            const std::string name = "the desktop's profile";
            return {make_display_table(*profile, name), name, ""};
        }
    } catch (const InputError& error) {
        trouble = error.what();
    }
    return {make_srgb_display_table(), "sRGB (no profile)", trouble};
}

}  // namespace tonemend
