#pragma once

#include <imgui.h>

#include <string>
#include <string_view>
#include <vector>

#include "live/box.h"
#include "live/fonts.h"
#include "live/screen_colours.h"
#include "live/theme.h"

namespace tonemend {

enum class Align { left, centre, right };

/// Draws boxes and type for the views; remembers which texts did not fit, for the tests.
class Painter {
  public:
    /// `display` gives the codes of colours, `shades` is its theme.
    Painter(ImDrawList& draw_list, const Fonts& type, const Theme& shades, const ScreenColours& display)
        : list(draw_list), fonts(type), theme(shades), colours(display) {}

    /// One line, vertically in the middle of `box`; what does not fit is cut with "…" and noted under `name`.
    /// Returns the width used.
    float text(const Box& box, std::string_view words, ImFont* font, Shade shade, Align align,
               std::string_view name);
    /// Several lines from the top; breaks at spaces. What does not fit is cut with "…" and noted. Returns the
    /// height used.
    float paragraph(const Box& box, std::string_view words, ImFont* font, Shade shade, std::string_view name);
    /// The same in the first of `candidates` (largest first) in which all of it fits; in the last, cut, when
    /// none does.
    float fitted_paragraph(const Box& box, std::string_view words, std::initializer_list<ImFont*> candidates,
                           Shade shade, std::string_view name);
    /// Whether paragraph() could show all of it.
    bool fits(const Box& box, std::string_view words, ImFont* font);
    float width(std::string_view words, ImFont* font) const;
    /// The first of `fonts` (largest first) in which one line of `words` fits `most` pixels; else the last.
    ImFont* fitting(std::string_view words, float most, std::initializer_list<ImFont*> candidates) const;

    void fill(const Box& box, Shade shade, float rounding = 0);
    void outline(const Box& box, Shade shade, float thickness, float rounding = 0);

    ImDrawList& list;
    const Fonts& fonts;
    const Theme& theme;
    const ScreenColours& colours;
    const std::vector<std::string>& cut() const { return cut_; }

  private:
    /// Breaks `words` into lines; draws them unless `shade` is null. True when all of it fitted `box`.
    bool flow(const Box& box, std::string_view words, ImFont* font, const Shade* shade, std::string_view name,
              float& used);
    void put(float x, float y, std::string_view words, ImFont* font, Shade shade);

    std::vector<std::string> cut_;
};

ImU32 to_colour(Shade shade, float opacity = 1);

}  // namespace tonemend
