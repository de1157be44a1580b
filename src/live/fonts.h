#pragma once

struct ImFont;

namespace tonemend {

struct Layout;

/// One family in the window's sizes: DejaVu Sans, whose figures are tabular, or ImGui's own type where that
/// is not installed.
struct Fonts {
    ImFont* small = nullptr;
    ImFont* body = nullptr;
    ImFont* large = nullptr;
    ImFont* word = nullptr;  ///< the verdict's word: half the figures' size
    ImFont* huge = nullptr;  ///< figures and the few signs that stand beside them
    bool found = false;      ///< DejaVu Sans is there
};

/// The size in pixels that `font` was made in.
float font_size(const ImFont* font);

/// Makes the fonts for the layout's sizes, replacing what ImGui held before. Not between NewFrame and Render.
Fonts load_fonts(const Layout& layout);

}  // namespace tonemend
