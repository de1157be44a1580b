#include "live/painter.h"

#include <algorithm>
#include <cmath>

namespace tonemend {
namespace {

constexpr std::string_view ellipsis = "…";

// The longest beginning of `words` that is whole code points and no wider than `most`.
std::size_t fitting_length(const Painter& painter, std::string_view words, ImFont* font, float most) {
    std::size_t length = words.size();
    while (length > 0 && painter.width(words.substr(0, length), font) > most) {
        do --length;
        while (length > 0 && (static_cast<unsigned char>(words[length]) & 0xC0U) == 0x80U);
    }
    return length;
}

}  // namespace

ImU32 to_colour(Shade shade, float opacity) {
    return IM_COL32(shade.r, shade.g, shade.b, static_cast<int>(std::lround(255 * opacity)));
}

float Painter::width(std::string_view words, ImFont* font) const {
    return font->CalcTextSizeA(font_size(font), FLT_MAX, 0, words.data(), words.data() + words.size()).x;
}

ImFont* Painter::fitting(std::string_view words, float most,
                         std::initializer_list<ImFont*> candidates) const {
    ImFont* last = nullptr;
    for (ImFont* font : candidates) {
        last = font;
        if (width(words, font) <= most) break;
    }
    return last;
}

void Painter::put(float x, float y, std::string_view words, ImFont* font, Shade shade) {
    list.AddText(font, font_size(font), {std::round(x), std::round(y)}, to_colour(shade), words.data(),
                 words.data() + words.size());
}

float Painter::text(const Box& box, std::string_view words, ImFont* font, Shade shade, Align align,
                    std::string_view name) {
    std::string shown(words);
    float wide = width(shown, font);
    if (wide > box.width + 0.5F) {
        if (!name.empty()) cut_.emplace_back(name);
        const float room = box.width - width(ellipsis, font);
        shown = shown.substr(0, fitting_length(*this, shown, font, room)) + std::string(ellipsis);
        wide = width(shown, font);
    }
    if (!name.empty() && font_size(font) > box.height + 1) cut_.emplace_back(std::string(name) + " (height)");
    const float slack = box.width - wide;
    const float x = box.x + (align == Align::left ? 0 : align == Align::centre ? 0.5F * slack : slack);
    put(x, box.middle_y() - 0.5F * font_size(font), shown, font, shade);
    return wide;
}

bool Painter::flow(const Box& box, std::string_view words, ImFont* font, const Shade* shade,
                   std::string_view name, float& used) {
    const float line = std::round(1.22F * font_size(font));
    float y = box.y;
    while (!words.empty()) {
        std::size_t length = fitting_length(*this, words, font, box.width);
        if (length < words.size()) {
            const std::size_t space = words.rfind(' ', length);
            if (space != std::string_view::npos && space > 0) length = space;
        }
        length = std::max<std::size_t>(length, 1);
        const bool last = y + 2 * line > box.bottom() + 1;
        if (last && length < words.size()) {
            if (shade != nullptr)
                (void)text({box.x, y, box.width, line}, words, font, *shade, Align::left, name);
            return false;
        }
        if (shade != nullptr)
            put(box.x, y + 0.5F * (line - font_size(font)), words.substr(0, length), font, *shade);
        y += line;
        used = y - box.y;
        words.remove_prefix(std::min(words.size(), length));
        while (!words.empty() && words.front() == ' ') words.remove_prefix(1);
    }
    return true;
}

float Painter::paragraph(const Box& box, std::string_view words, ImFont* font, Shade shade,
                         std::string_view name) {
    float used = 0;
    (void)flow(box, words, font, &shade, name, used);
    return used;
}

bool Painter::fits(const Box& box, std::string_view words, ImFont* font) {
    float used = 0;
    return flow(box, words, font, nullptr, "", used);
}

float Painter::fitted_paragraph(const Box& box, std::string_view words,
                                std::initializer_list<ImFont*> candidates, Shade shade,
                                std::string_view name) {
    ImFont* chosen = nullptr;
    float used = 0;
    for (ImFont* font : candidates) {
        chosen = font;
        if (flow(box, words, font, nullptr, name, used)) break;
    }
    return paragraph(box, words, chosen, shade, name);
}

void Painter::fill(const Box& box, Shade shade, float rounding) {
    list.AddRectFilled({box.x, box.y}, {box.right(), box.bottom()}, to_colour(shade), rounding);
}

void Painter::outline(const Box& box, Shade shade, float thickness, float rounding) {
    const float half = 0.5F * thickness;
    list.AddRect({box.x + half, box.y + half}, {box.right() - half, box.bottom() - half}, to_colour(shade),
                 rounding, ImDrawFlags_None, thickness);
}

}  // namespace tonemend
