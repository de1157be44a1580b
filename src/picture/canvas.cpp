#include "picture/canvas.h"

#include <pango/pangocairo.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <new>
#include <numbers>

#include "picture/input_error.h"
#include "picture/write_picture.h"

namespace tonemend {
namespace {

constexpr const char* font_family = "DejaVu Sans";
constexpr int largest_side = 32767;

struct FreeSurface {
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
struct FreeCairo {
    void operator()(cairo_t* cairo) const { cairo_destroy(cairo); }
};
struct FreeObject {
    void operator()(PangoLayout* layout) const { g_object_unref(layout); }
};
struct FreeFont {
    void operator()(PangoFontDescription* font) const { pango_font_description_free(font); }
};
using Layout = std::unique_ptr<PangoLayout, FreeObject>;

void set_paint(cairo_t* cairo, const Paint& paint) {
    cairo_set_source_rgba(cairo, paint.red, paint.green, paint.blue, paint.opacity);
}

void trace(cairo_t* cairo, std::span<const Point> corners) {
    cairo_new_path(cairo);
    for (const Point& corner : corners) cairo_line_to(cairo, corner.x, corner.y);
    cairo_close_path(cairo);
}

Layout laid_out(cairo_t* cairo, const std::string& text, const TextStyle& style) {
    Layout layout(pango_cairo_create_layout(cairo));
    const std::unique_ptr<PangoFontDescription, FreeFont> font(pango_font_description_new());
    pango_font_description_set_family(font.get(), font_family);
    pango_font_description_set_absolute_size(font.get(), style.size * PANGO_SCALE);
    pango_font_description_set_weight(
        font.get(), style.weight == FontWeight::bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_layout_set_font_description(layout.get(), font.get());
    PangoAttrList* const attributes = pango_attr_list_new();
    pango_attr_list_insert(attributes, pango_attr_font_features_new("tnum=1"));
    pango_layout_set_attributes(layout.get(), attributes);
    pango_attr_list_unref(attributes);
    pango_layout_set_text(layout.get(), text.data(), static_cast<int>(text.size()));
    return layout;
}

}  // namespace

struct Canvas::Surface {
    std::unique_ptr<cairo_surface_t, FreeSurface> surface;
    std::unique_ptr<cairo_t, FreeCairo> cairo;
};

Canvas::Canvas(const DisplayPicture& picture) : surface_(std::make_unique<Surface>()) {
    if (picture.width > largest_side || picture.height > largest_side)
        throw InputError("the picture is too long to draw on; crop it, or leave the annotated copy out");
    surface_->surface.reset(cairo_image_surface_create(CAIRO_FORMAT_RGB24, picture.width, picture.height));
    cairo_surface_t* const surface = surface_->surface.get();
    if (cairo_surface_status(surface) != CAIRO_STATUS_SUCCESS) throw std::bad_alloc();
    const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(surface));
    unsigned char* const pixels = cairo_image_surface_get_data(surface);
    const std::uint8_t* rgb = picture.rgb.data();
    for (int y = 0; y < picture.height; ++y)
        for (int x = 0; x < picture.width; ++x, rgb += 3) {
            const std::uint32_t pixel = static_cast<std::uint32_t>(rgb[0]) << 16 |
                                        static_cast<std::uint32_t>(rgb[1]) << 8 |
                                        static_cast<std::uint32_t>(rgb[2]);
            std::memcpy(pixels + static_cast<std::size_t>(y) * stride + 4 * static_cast<std::size_t>(x),
                        &pixel, 4);
        }
    cairo_surface_mark_dirty(surface);
    surface_->cairo.reset(cairo_create(surface));
    cairo_set_line_join(surface_->cairo.get(), CAIRO_LINE_JOIN_ROUND);
    cairo_set_line_cap(surface_->cairo.get(), CAIRO_LINE_CAP_ROUND);
}

Canvas::~Canvas() = default;
Canvas::Canvas(Canvas&&) noexcept = default;
Canvas& Canvas::operator=(Canvas&&) noexcept = default;

int Canvas::width() const {
    return cairo_image_surface_get_width(surface_->surface.get());
}

int Canvas::height() const {
    return cairo_image_surface_get_height(surface_->surface.get());
}

void Canvas::outline(std::span<const Point> corners, const Paint& paint, double thickness) {
    cairo_t* const cairo = surface_->cairo.get();
    trace(cairo, corners);
    set_paint(cairo, paint);
    cairo_set_line_width(cairo, thickness);
    cairo_stroke(cairo);
}

void Canvas::polygon(std::span<const Point> corners, const Paint& fill) {
    cairo_t* const cairo = surface_->cairo.get();
    trace(cairo, corners);
    set_paint(cairo, fill);
    cairo_fill(cairo);
}

void Canvas::line(const Point& from, const Point& to, const Paint& paint, double thickness) {
    cairo_t* const cairo = surface_->cairo.get();
    cairo_new_path(cairo);
    cairo_move_to(cairo, from.x, from.y);
    cairo_line_to(cairo, to.x, to.y);
    set_paint(cairo, paint);
    cairo_set_line_width(cairo, thickness);
    cairo_stroke(cairo);
}

void Canvas::arrow(const Point& from, const Point& to, const Paint& paint, double thickness) {
    const double length = std::hypot(to.x - from.x, to.y - from.y);
    if (length == 0) return;
    const double along_x = (to.x - from.x) / length;
    const double along_y = (to.y - from.y) / length;
    const double head = std::min(4 * thickness, length);
    const double half = head / 2;
    const Point neck{to.x - head * along_x, to.y - head * along_y};
    // The shaft ends inside the head, so that its round cap does not show.
    const Point shaft_end{to.x - 0.8 * head * along_x, to.y - 0.8 * head * along_y};
    line(from, shaft_end, paint, thickness);
    const std::array<Point, 3> tip{to, Point{neck.x - half * along_y, neck.y + half * along_x},
                                   Point{neck.x + half * along_y, neck.y - half * along_x}};
    polygon(tip, paint);
}

void Canvas::rounded_box(const CanvasBox& box, double radius, const Paint& fill) {
    cairo_t* const cairo = surface_->cairo.get();
    const double r = std::min({radius, box.width / 2, box.height / 2});
    constexpr double quarter = std::numbers::pi / 2;
    cairo_new_path(cairo);
    cairo_arc(cairo, box.x + box.width - r, box.y + r, r, -quarter, 0);
    cairo_arc(cairo, box.x + box.width - r, box.y + box.height - r, r, 0, quarter);
    cairo_arc(cairo, box.x + r, box.y + box.height - r, r, quarter, 2 * quarter);
    cairo_arc(cairo, box.x + r, box.y + r, r, 2 * quarter, 3 * quarter);
    cairo_close_path(cairo);
    set_paint(cairo, fill);
    cairo_fill(cairo);
}

TextExtent Canvas::measure(const std::string& text, const TextStyle& style) const {
    const Layout layout = laid_out(surface_->cairo.get(), text, style);
    PangoRectangle logical;
    pango_layout_get_extents(layout.get(), nullptr, &logical);
    return {static_cast<double>(logical.width) / PANGO_SCALE,
            static_cast<double>(logical.height) / PANGO_SCALE,
            static_cast<double>(pango_layout_get_baseline(layout.get())) / PANGO_SCALE};
}

void Canvas::text(const Point& top_left, const std::string& text, const TextStyle& style) {
    cairo_t* const cairo = surface_->cairo.get();
    const Layout layout = laid_out(cairo, text, style);
    set_paint(cairo, style.paint);
    cairo_move_to(cairo, top_left.x, top_left.y);
    pango_cairo_show_layout(cairo, layout.get());
}

DisplayPicture Canvas::picture() const {
    cairo_surface_t* const surface = surface_->surface.get();
    cairo_surface_flush(surface);
    const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(surface));
    const unsigned char* const pixels = cairo_image_surface_get_data(surface);
    DisplayPicture picture{width(), height(), {}};
    picture.rgb.resize(3 * static_cast<std::size_t>(picture.width) *
                       static_cast<std::size_t>(picture.height));
    std::uint8_t* rgb = picture.rgb.data();
    for (int y = 0; y < picture.height; ++y)
        for (int x = 0; x < picture.width; ++x) {
            std::uint32_t pixel = 0;
            std::memcpy(&pixel,
                        pixels + static_cast<std::size_t>(y) * stride + 4 * static_cast<std::size_t>(x), 4);
            for (const int shift : {16, 8, 0}) *rgb++ = static_cast<std::uint8_t>(pixel >> shift);
        }
    return picture;
}

void Canvas::save(const std::filesystem::path& path) const {
    write_picture(as_frame(picture()), path);
}

}  // namespace tonemend
