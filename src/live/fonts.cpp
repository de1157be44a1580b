#include "live/fonts.h"

#include <imgui.h>

#include <cmath>
#include <filesystem>

#include "live/layout.h"

namespace tonemend {
namespace {

// Latin, Greek Delta and friends, dashes and quotes, arrows, minus and approximately, the shapes of the
// verdict.
constexpr ImWchar text_ranges[] = {0x0020, 0x017F, 0x0391, 0x03C9, 0x2010, 0x2044, 0x2190, 0x2199,
                                   0x2212, 0x2212, 0x2248, 0x2248, 0x2264, 0x2265, 0};
constexpr ImWchar figure_ranges[] = {0x0020, 0x007E, 0x00B1, 0x00B1, 0x2013, 0x2013, 0x2212, 0x2212, 0};

constexpr const char* folders[] = {"/usr/share/fonts/truetype/dejavu/", "/usr/share/fonts/dejavu-sans-fonts/",
                                   "/usr/share/fonts/TTF/", "/usr/share/fonts/dejavu/"};

std::filesystem::path find_face(const char* name) {
    for (const char* folder : folders) {
        std::error_code failure;
        std::filesystem::path path = std::filesystem::path(folder) / name;
        if (std::filesystem::is_regular_file(path, failure)) return path;
    }
    return {};
}

ImFont* add_face(const std::filesystem::path& path, float size, const ImWchar* ranges) {
    ImFontConfig config;
    config.OversampleH = size > 40 ? 1 : 2;
    config.OversampleV = 1;
    config.SizePixels = size;
    ImFontAtlas* atlas = ImGui::GetIO().Fonts;
    ImFont* font =
        path.empty() ? nullptr : atlas->AddFontFromFileTTF(path.string().c_str(), size, &config, ranges);
    return font != nullptr ? font : atlas->AddFontDefault(&config);
}

}  // namespace

float font_size(const ImFont* font) {
#if IMGUI_VERSION_NUM >= 19200
    return font->LegacySize;
#else
    return font->FontSize;
#endif
}

Fonts load_fonts(const Layout& layout) {
    ImGui::GetIO().Fonts->Clear();
    const auto plain = find_face("DejaVuSans.ttf"), bold = find_face("DejaVuSans-Bold.ttf");
    Fonts fonts;
    fonts.found = !plain.empty();
    fonts.body = add_face(plain, layout.body, text_ranges);
    fonts.small = add_face(plain, layout.small, text_ranges);
    fonts.large = add_face(plain, layout.large, text_ranges);
    fonts.word = add_face(bold.empty() ? plain : bold, std::round(0.5F * layout.huge), figure_ranges);
    fonts.huge = add_face(bold.empty() ? plain : bold, layout.huge, figure_ranges);
    ImGui::GetIO().Fonts->Build();
    return fonts;
}

}  // namespace tonemend
