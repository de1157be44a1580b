#include "record/annotated_picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "picture/canvas.h"
#include "picture/encoders.h"
#include "picture/input_error.h"
#include "picture/preview.h"
#include "picture/write_picture.h"
#include "record/annotation_panel.h"
#include "record/label_place.h"
#include "record/number_text.h"

namespace tonemend {
namespace {

constexpr int longest_side = 1600;

struct Scale {
    double factor = 1;  // preview pixels a picture pixel
    Point operator()(const Point& p) const { return {p.x * factor, p.y * factor}; }
};

// Dark under light, so that the line shows on any wood.
void outline(Canvas& canvas, std::vector<Point> corners, const Scale& scale, double thickness) {
    for (Point& corner : corners) corner = scale(corner);
    canvas.outline(corners, panel_paint::shadow, thickness * 2);
    canvas.outline(corners, panel_paint::ink, thickness);
}

CanvasBox framed(const Region& region, const Scale& scale, double margin) {
    const PixelRect box = bounds(region);
    const Point corner = scale({static_cast<double>(box.x), static_cast<double>(box.y)});
    return {corner.x - margin, corner.y - margin, box.width * scale.factor + 2 * margin,
            box.height * scale.factor + 2 * margin};
}

struct Label {
    CanvasBox region;  // that it belongs to, its outline included
    std::string text;
};

Label label_of(const Reading& reading, const std::string& role, const CanvasBox& region) {
    return {region, fmt::format("{}\nL* {:.1f}  a* {}  b* {}", role, reading.lab.L,
                                number_text(reading.lab.a, Sign::only_minus),
                                number_text(reading.lab.b, Sign::only_minus))};
}

// Writes the readings beside their regions, clear of each other, the regions and the card if that can be.
void draw_labels(Canvas& canvas, const std::vector<Label>& labels, const CanvasBox& card, double unit,
                 int picture_height) {
    const TextStyle style{unit, panel_paint::ink, FontWeight::bold};
    const double pad = 0.3 * unit;
    std::vector<CanvasBox> taken{card};
    for (const Label& label : labels) taken.push_back(label.region);
    for (const Label& label : labels) {
        const TextExtent extent = canvas.measure(label.text, style);
        const CanvasBox box = place_label(label.region, extent.width + 2 * pad, extent.height + 2 * pad,
                                          taken, canvas.width(), picture_height);
        canvas.rounded_box(box, pad, panel_paint::plate);
        canvas.text({box.x + pad, box.y + pad}, label.text, style);
        taken.push_back(box);
    }
}

DisplayPicture preview_of(const Frame& frame, const Calibration& calibration) {
    PreviewOptions options;
    options.longest_side = longest_side;
    if (frame.encoding.camera_native) {
        for (std::size_t c = 0; c < 3; ++c) options.gain[c] = calibration.curves[c].gain();
    }
    return make_preview(frame, options);
}

// The picture with room for the panel below it; a narrow picture is centred.
DisplayPicture with_room_below(const DisplayPicture& picture, int width, int below) {
    DisplayPicture taller{width, picture.height + below, {}};
    taller.rgb.assign(static_cast<std::size_t>(taller.width) * static_cast<std::size_t>(taller.height) * 3,
                      panel_grey);
    const int left = (width - picture.width) / 2;
    for (int y = 0; y < picture.height; ++y) {
        const auto* from = picture.rgb.data() + static_cast<std::ptrdiff_t>(y) * picture.width * 3;
        std::copy_n(from, picture.width * 3,
                    taller.rgb.data() + (static_cast<std::ptrdiff_t>(y) * width + left) * 3);
    }
    return taller;
}

std::vector<Point> shifted(std::vector<Point> corners, double by) {
    for (Point& corner : corners) corner.x += by;
    return corners;
}

}  // namespace

AnnotatedPicture annotate_picture(const Frame& frame, const Calibration& calibration,
                                  const Comparison& comparison) {
    const DisplayPicture preview = preview_of(frame, calibration);
    const int width = std::max(preview.width, least_panel_width);
    const PanelLayout layout = lay_out_panel(
        comparison, width, calibration.flat_field ? calibration.flat_field->description() : std::string());
    Canvas canvas(with_room_below(preview, width, layout.height));
    const Scale scale{static_cast<double>(preview.width) / frame.width};
    const double indent = (width - preview.width) / 2 / scale.factor;  // in picture pixels

    const Region original{shifted(comparison.original.region.corners, indent)};
    const Region repair{shifted(comparison.repair.region.corners, indent)};
    const Region card{shifted({calibration.card_corners.begin(), calibration.card_corners.end()}, indent)};
    const double thickness = std::max(2.0, 0.15 * layout.unit);
    outline(canvas, card.corners, scale, 0.6 * thickness);
    for (const PatchReading& patch : calibration.patches)
        outline(canvas, shifted(patch.area.corners, indent), scale, 0.3 * thickness);
    outline(canvas, original.corners, scale, thickness);
    outline(canvas, repair.corners, scale, thickness);
    draw_labels(canvas,
                {label_of(comparison.original, "original", framed(original, scale, 1.2 * thickness)),
                 label_of(comparison.repair, "repair", framed(repair, scale, 1.2 * thickness))},
                framed(card, scale, thickness), layout.unit, preview.height);
    draw_panel(canvas, comparison, layout, preview.height);
    return encode_png(as_frame(canvas.picture()), {});
}

void save_annotated_picture(const AnnotatedPicture& picture, const std::filesystem::path& path) {
    if (path.extension() != ".png") {
        throw InputError(fmt::format(
            "{}: an annotated picture is saved as PNG; give a name that ends in .png", path.string()));
    }
    write_whole_file(path, picture);
}

}  // namespace tonemend
