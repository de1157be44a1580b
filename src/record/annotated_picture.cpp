#include "record/annotated_picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "picture/canvas.h"
#include "picture/input_error.h"
#include "picture/preview.h"
#include "record/annotation_panel.h"

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

bool overlap(const Box& p, const Box& q) {
    return p.x < q.x + q.width && q.x < p.x + p.width && p.y < q.y + q.height && q.y < p.y + p.height;
}

// Above the region, else below it, else in it; never over an earlier label.
Box place_label(const Box& region, double width, double height, const std::vector<Box>& taken, double right,
                double bottom) {
    const double x = std::clamp(region.x, 0.0, std::max(0.0, right - width));
    Box box{x, region.y, width, height};
    for (const double y : {region.y - height, region.y + region.height, region.y}) {
        box.y = y;
        const bool on_picture = y >= 0 && y + height <= bottom;
        if (on_picture &&
            std::none_of(taken.begin(), taken.end(), [&](const Box& other) { return overlap(box, other); }))
            break;
    }
    return box;
}

// Writes the reading beside its region; returns the box that it took.
Box label_region(Canvas& canvas, const Reading& reading, const std::string& role, const Scale& scale,
                 double unit, int picture_height, const std::vector<Box>& taken) {
    const PixelRect box = bounds(reading.region);
    const std::string text = fmt::format("{}\nL* {:.1f}  a* {}  b* {}", role, reading.lab.L,
                                         signed_text(reading.lab.a, Sign::only_minus),
                                         signed_text(reading.lab.b, Sign::only_minus));
    const TextStyle style{unit, panel_paint::ink, FontWeight::bold};
    const TextExtent extent = canvas.measure(text, style);
    const double pad = 0.3 * unit;
    const Point corner = scale({static_cast<double>(box.x), static_cast<double>(box.y)});
    const Box region{corner.x, corner.y - pad, box.width * scale.factor, box.height * scale.factor + 2 * pad};
    const Box label = place_label(region, extent.width + 2 * pad, extent.height + 2 * pad, taken,
                                  canvas.width(), picture_height);
    canvas.rounded_box(label, pad, panel_paint::plate);
    canvas.text({label.x + pad, label.y + pad}, text, style);
    return label;
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

}  // namespace

void save_annotated_picture(const Frame& frame, const Calibration& calibration, const Comparison& comparison,
                            const std::filesystem::path& path) {
    if (path.extension() != ".png") {
        throw InputError(fmt::format(
            "{}: an annotated picture is saved as PNG; give a name that ends in .png", path.string()));
    }
    const DisplayPicture preview = preview_of(frame, calibration);
    const int width = std::max(preview.width, least_panel_width);
    const double unit = width / 44.0;
    const PanelLayout layout = lay_out_panel(comparison, width, unit);
    Canvas canvas(with_room_below(preview, width, layout.height));
    const double left = (width - preview.width) / 2;
    const double factor = static_cast<double>(preview.width) / frame.width;

    const auto shifted = [&](std::vector<Point> corners) {
        for (Point& corner : corners) corner.x += left / factor;
        return corners;
    };
    Reading original = comparison.original, repair = comparison.repair;
    original.region.corners = shifted(original.region.corners);
    repair.region.corners = shifted(repair.region.corners);
    const Scale scale{factor};
    const double thickness = std::max(2.0, 0.08 * unit);
    outline(canvas, shifted({calibration.card_corners.begin(), calibration.card_corners.end()}), scale,
            thickness);
    for (const PatchReading& patch : calibration.patches)
        outline(canvas, shifted(patch.area.corners), scale, 0.5 * thickness);
    outline(canvas, original.region.corners, scale, thickness);
    outline(canvas, repair.region.corners, scale, thickness);
    const Box first = label_region(canvas, original, "original", scale, unit, preview.height, {});
    label_region(canvas, repair, "repair", scale, unit, preview.height, {first});
    draw_panel(canvas, comparison, layout, preview.height);
    canvas.save(path);
}

}  // namespace tonemend
