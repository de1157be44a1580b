#pragma once

#include <filesystem>
#include <memory>
#include <span>
#include <string>

#include "picture/geometry.h"
#include "picture/preview.h"

namespace tonemend {

/// Encoded sRGB and opacity, each 0..1.
struct Paint {
    double red = 0;
    double green = 0;
    double blue = 0;
    double opacity = 1;
};

enum class FontWeight { regular, bold };

struct TextStyle {
    double size = 16;  ///< of the font, in pixels
    Paint paint;
    FontWeight weight = FontWeight::regular;
};

/// The box that a text fills, in pixels.
struct TextExtent {
    double width = 0;
    double height = 0;
    double baseline = 0;  ///< of the first line, below the top
};

struct CanvasBox {
    double x = 0;
    double y = 0;
    double width = 0;
    double height = 0;
};

/// A copy of a picture to draw on. Lengths and places are in its pixels, as in geometry.h. The font is DejaVu
/// Sans with figures of equal width, so that columns of readings line up.
class Canvas {
  public:
    /// Throws InputError when the picture is wider or higher than can be drawn on (32767 pixels).
    explicit Canvas(const DisplayPicture& picture);
    ~Canvas();
    Canvas(Canvas&&) noexcept;
    Canvas& operator=(Canvas&&) noexcept;

    int width() const;
    int height() const;

    /// The closed outline of a polygon, its line half inside and half outside.
    void outline(std::span<const Point> corners, const Paint& paint, double thickness);
    void polygon(std::span<const Point> corners, const Paint& fill);
    void line(const Point& from, const Point& to, const Paint& paint, double thickness);
    /// A line with a head at `to` that is four line thicknesses wide.
    void arrow(const Point& from, const Point& to, const Paint& paint, double thickness);
    void rounded_box(const CanvasBox& box, double radius, const Paint& fill);

    /// What text() would fill; '\n' starts a new line.
    TextExtent measure(const std::string& text, const TextStyle& style) const;
    void text(const Point& top_left, const std::string& text, const TextStyle& style);

    DisplayPicture picture() const;
    /// Written by write_picture, in the format that the name's ending says. Throws InputError.
    void save(const std::filesystem::path& path) const;

  private:
    struct Surface;
    std::unique_ptr<Surface> surface_;
};

}  // namespace tonemend
