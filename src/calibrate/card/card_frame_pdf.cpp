#include <memory>

#include <cairo-pdf.h>
#include <fmt/format.h>

#include "calibrate/card/card_frame_cairo.h"
#include "picture/input_error.h"

namespace tonemend {

void write_card_frame_pdf(const CardFrame& frame, const std::filesystem::path& path) {
    constexpr double points_per_mm = 72.0 / 25.4;
    const CardFrameDrawing drawing = draw_card_frame(frame);
    const std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)> surface(
        cairo_pdf_surface_create(path.c_str(), drawing.width * points_per_mm, drawing.height * points_per_mm),
        cairo_surface_destroy);
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, drawing.title.c_str());
    // A fixed date: the same sheet is the same file.
    cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z");

    const std::unique_ptr<cairo_t, decltype(&cairo_destroy)> context(cairo_create(surface.get()),
                                                                     cairo_destroy);
    cairo_scale(context.get(), points_per_mm, points_per_mm);
    paint_card_frame(context.get(), drawing);
    cairo_show_page(context.get());
    cairo_surface_finish(surface.get());
    if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS)
        throw InputError(fmt::format(
            "{}: cannot be written; choose a folder that exists and that you may write to", path.string()));
}

}  // namespace tonemend
